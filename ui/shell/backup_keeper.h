#pragma once

#include <QObject>
#include <QTimer>
#include <filesystem>
#include <optional>

#include "ui/bridge/job_runner.h"

namespace ui::shell {

/// Has the open project copied on opening and then every few minutes, when something has changed.
/// What goes wrong is told and stops nobody. Confined.
class BackupKeeper : public QObject {
    Q_OBJECT

public:
    /// The runner must outlive the keeper.
    explicit BackupKeeper(bridge::JobRunner& jobs, QObject* parent = nullptr);

    void watch(const std::filesystem::path& project);
    void stop();
    /// Minutes between copies, kept in the settings; 0: only on opening.
    [[nodiscard]] static int minutes();
    void setMinutes(int minutes);

Q_SIGNALS:
    /// Why the latest copy could not be made; empty when it could.
    void troubleChanged(const QString& trouble);
    void made();

private:
    void copyNow();

    bridge::JobRunner& m_jobs;
    std::optional<std::filesystem::path> m_project;
    bool m_isCopying{false};
    QTimer m_timer;
};

}  // namespace ui::shell
