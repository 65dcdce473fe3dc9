#pragma once

#include <QDialog>
#include <filesystem>
#include <vector>

#include "core/project/backups.h"
#include "ui/bridge/job_runner.h"

class QLabel;
class QPushButton;
class QTableWidget;

namespace ui::shell {

class BackupKeeper;

/// The copies of a project with what is in them, newest first, and the way back to one of them.
class BackupsWindow : public QDialog {
    Q_OBJECT

public:
    BackupsWindow(const std::filesystem::path& project, bridge::JobRunner& jobs,
                  BackupKeeper& keeper, QWidget* parent = nullptr);

Q_SIGNALS:
    void restoreWanted(const std::filesystem::path& backup);

private:
    using Previews = std::vector<core::project::BackupPreview>;
    void look();
    void showPreviews(const Previews& previews);
    void refreshButton();

    std::filesystem::path m_project;
    bridge::JobRunner& m_jobs;
    Previews m_previews;
    /// A copy that is looked into cannot be restored, nor be looked into a second time meanwhile.
    bool m_isLooking{false};
    bool m_isOld{false};  ///< there are other copies since the look began
    QLabel* m_hint;
    QTableWidget* m_table;
    QPushButton* m_restore;
};

}  // namespace ui::shell
