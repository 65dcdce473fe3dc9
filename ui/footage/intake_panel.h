#pragma once

#include <QStringList>
#include <QWidget>

#include "ui/footage/intake_runner.h"

class QCheckBox;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QProgressBar;
class QPushButton;

namespace ui::footage {

class SessionBox;

/// Where clips come into the project: files or a whole folder, into which filming day, what is done
/// with them besides; then how far that is, and what came of it until it is dismissed. Confined.
class IntakePanel : public QWidget {
    Q_OBJECT

public:
    IntakePanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);
    ~IntakePanel() override;

    /// Takes in files and folders as the panel says; behind what runs. Nothing where the project is
    /// open to look at only.
    void takeIn(const QStringList& sources);
    /// Whether its first button is what the footage needs next.
    void setLeads(bool leads);

Q_SIGNALS:
    void statusChanged(const QString& text);
    void testClipWanted();
    /// The set-up of this filming day is wanted; absent: of the latest.
    void setUpWanted(std::optional<core::project::SessionId> session);

private:
    [[nodiscard]] QWidget* makeChoices();
    [[nodiscard]] QWidget* makeTestClip();
    [[nodiscard]] QWidget* makeProgress();
    [[nodiscard]] QWidget* makeReport();
    void chooseFiles();
    void chooseFolder();
    void refreshChoices();
    void refreshProgress();
    void tell(const IntakeRunner::Ended& ended);
    void fitReport();

    core::project::Store& m_store;
    IntakeRunner* m_runner;
    QPushButton* m_addClips{};
    QPushButton* m_addFolder{};
    QPushButton* m_setUp{};
    SessionBox* m_session{};
    QLineEdit* m_newName{};  ///< shown for a new filming day
    std::string m_awaited;   ///< name of a new one that clips are on their way to
    QCheckBox* m_readCards{};
    bool m_isReadCardsChosen{};  ///< by hand; else it follows the plan
    QCheckBox* m_readAhead{};
    QWidget* m_progress{};
    QLabel* m_progressWords{};
    QProgressBar* m_bar{};
    QPushButton* m_cancel{};
    QWidget* m_report{};
    QPlainTextEdit* m_reportText{};
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
