#pragma once

#include <QWidget>
#include <functional>
#include <memory>
#include <optional>

#include "core/doubts/find_doubts.h"
#include "core/project/store.h"
#include "core/publish/preview.h"
#include "ui/bridge/job_runner.h"
#include "ui/publish/open_points.h"

class QBoxLayout;
class QCheckBox;
class QGroupBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ui::publish {

class PagePreview;
class PointList;

/// The last step: says what is open before others see the findings, and writes them into a folder
/// in the background. The choices and the folder that was asked for last are kept for the next
/// time; author, licence and how to cite in the project. Confined.
class PublishScreen : public QWidget {
    Q_OBJECT

public:
    /// Both must outlive the screen.
    PublishScreen(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);
    ~PublishScreen() override;

    /// The newest doubts; they are published when they are of the project as it is then.
    void setDoubts(core::doubts::DoubtsPtr doubts);
    /// The newest findings, for what is shown of the page.
    void setFindings(core::findings::FindingsPtr findings);

    /// Asks for a folder and keeps it; false when none was chosen.
    /// then is called once there is one.
    void chooseFolder(std::function<void()> then);
    /// Publishes into a folder with the options shown. Files that Turnmark did not write are left
    /// alone.
    void publishTo(const QString& folder);

Q_SIGNALS:
    /// What happened, in a sentence or two.
    void said(const QString& text);
    /// Shown or hidden now.
    void visibilityChanged(bool isVisible);
    void wayChosen(ui::publish::OpenPoint::Way way);
    /// The files are there.
    void published();

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void fitCards();
    [[nodiscard]] QWidget* makeHead();
    [[nodiscard]] QWidget* makeDone();
    [[nodiscard]] QGroupBox* makeOpen();
    [[nodiscard]] QGroupBox* makeWritten();
    [[nodiscard]] QGroupBox* makeCredits();
    void connectAll();
    void refresh();
    void refreshFolder();
    void publishHere();
    [[nodiscard]] core::publish::PublishOptions options() const;
    /// Sees to it that what is shown of the page is what would be written now.
    void refreshPreview();
    void showPreview(const core::Result<core::publish::Preview>& preview);
    void comeHome(const QString& folder, const core::Result<core::publish::Published>& published);
    void openFile(const QString& file);
    void say(const QString& text);
    void showCredits();
    void keepCredits();

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    core::doubts::DoubtsPtr m_doubts;
    core::findings::FindingsPtr m_findings;
    struct Previewed {
        core::doubts::DoubtsPtr doubts{};  ///< null: nothing
        bool isBlind{};
        bool hasFilms{};
        bool operator==(const Previewed&) const = default;
    };
    Previewed m_previewed;  ///< what is shown of the page, or under way
    std::optional<bridge::JobRunner::JobId> m_previewing;
    bool m_isPublishing{false};
    QString m_folder;  ///< of this session's last publication; empty before
    QLabel* m_answer;
    QLabel* m_second;
    QLabel* m_folderName;
    QPushButton* m_change;
    QPushButton* m_publish;
    QWidget* m_done{};
    QLabel* m_words;
    QPushButton* m_openPage;
    QPushButton* m_showFolder;
    PointList* m_points;
    QCheckBox* m_blind;
    QCheckBox* m_films;
    QLineEdit* m_author;
    QLineEdit* m_licence;
    QLineEdit* m_citeAs;
    PagePreview* m_preview;
    QLabel* m_files{};  ///< how many of which kind
    QBoxLayout* m_cards{};
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::publish
