#pragma once

#include <QObject>
#include <QString>
#include <filesystem>

#include "core/pack/pack.h"
#include "ui/bridge/job_runner.h"

class QWidget;

namespace ui::shell {

class BackupKeeper;

/// For dialogs that ask for a project.
[[nodiscard]] QString projectFilter();

/// What is done with project files as a whole: the copies of one and the way back to them, packing
/// for another machine and unpacking, saving what can be read of a damaged one. Confined.
class ProjectFiles : public QObject {
    Q_OBJECT

public:
    using Path = std::filesystem::path;

    /// window: over which questions are asked. All outlive it.
    ProjectFiles(bridge::JobRunner& jobs, BackupKeeper& backups, QWidget& window);

    void showBackups(const Path& project);
    void askRescue(const Path& project);
    void rescue(const Path& project, const Path& to);
    void askPack(const Path& project, core::pack::Footage footage);
    void pack(const Path& project, const Path& to, core::pack::Footage footage);
    void askUnpack();
    void unpack(const Path& archive, const Path& folder);

Q_SIGNALS:
    void openWanted(const std::filesystem::path& project);
    void restoreWanted(const std::filesystem::path& project, const std::filesystem::path& backup);

private:
    bridge::JobRunner& m_jobs;
    BackupKeeper& m_backups;
    QWidget& m_window;
};

}  // namespace ui::shell
