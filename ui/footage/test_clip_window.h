#pragma once

#include <QWidget>
#include <optional>

#include "core/intake/day_setup.h"
#include "core/intake/test_clip.h"
#include "ui/bridge/job_runner.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QMimeData;
class QProgressBar;
class QPushButton;
class QScrollArea;

namespace ui::footage {

/// A clip of a few strikes, judged before the filming day: dropped here or chosen, read away from
/// the window, shown point by point, printed. It needs no project. A window of its own. Confined.
class TestClipWindow : public QWidget {
    Q_OBJECT

public:
    /// known: what is filled in of ball and camera.
    TestClipWindow(bridge::JobRunner& jobs, const core::intake::DaySetUp& known,
                   QWidget* parent = nullptr);
    ~TestClipWindow() override;

    void judge(const QString& file);
    /// Writes what is shown as a PDF.
    void print(const QString& file);
    /// The one film that is dragged; else empty.
    [[nodiscard]] static QString draggedFilm(const QMimeData& data);

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    [[nodiscard]] QWidget* makeKnown();
    [[nodiscard]] QWidget* makeButtons();
    void chooseClip();
    void choosePlace();
    void judgeAgain();
    [[nodiscard]] std::optional<core::intake::DaySetUp> entered();
    void comeHome(const core::Result<core::intake::TestClip>& judged);
    void showRunning(bool isRunning);
    void showHeadline(const QString& headline, const QString& words);

    bridge::JobRunner& m_jobs;
    core::intake::DaySetUp m_known;
    std::optional<bridge::JobRunner::JobId> m_job;
    QString m_file;
    std::optional<core::intake::TestClip> m_judged;
    QLabel* m_headline;
    QLabel* m_words;
    QProgressBar* m_bar;
    QLineEdit* m_diameter;
    QLineEdit* m_rate;
    QComboBox* m_marking;
    QScrollArea* m_points;
    QPushButton* m_choose;
    QPushButton* m_again;
    QPushButton* m_print;
};

}  // namespace ui::footage
