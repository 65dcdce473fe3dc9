#include "ui/shell/backup_keeper.h"

#include <QSettings>

#include "core/project/backups.h"

namespace ui::shell {
namespace {

using core::project::Backup;

constexpr QLatin1String kMinutesSetting{"backup_minutes"};
constexpr int kUsualMinutes = 10;

}  // namespace

BackupKeeper::BackupKeeper(bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_jobs{jobs} {
    connect(&m_timer, &QTimer::timeout, this, &BackupKeeper::copyNow);
}

int BackupKeeper::minutes() {
    return std::max(0, QSettings{}.value(kMinutesSetting, kUsualMinutes).toInt());
}

void BackupKeeper::setMinutes(int minutes) {
    QSettings{}.setValue(kMinutesSetting, minutes);
    minutes > 0 && m_project ? m_timer.start(std::chrono::minutes{minutes}) : m_timer.stop();
}

void BackupKeeper::watch(const std::filesystem::path& project) {
    m_project = project;
    if (minutes() > 0) {
        m_timer.start(std::chrono::minutes{minutes()});
    }
    copyNow();
}

void BackupKeeper::stop() {
    m_project.reset();
    m_timer.stop();
    Q_EMIT troubleChanged({});
}

void BackupKeeper::copyNow() {
    if (!m_project || m_isCopying) {
        return;
    }
    m_isCopying = true;
    const auto project = *m_project;
    m_jobs.start<std::optional<Backup>>(
        tr("Copying the project"),
        [project](bridge::JobContext& context) {
            return core::project::makeBackup(project, context.stopToken());
        },
        this,
        [this, project](const core::Result<std::optional<Backup>>& copied) {
            m_isCopying = false;
            if (m_project != project) {
                copyNow();  // another project was opened meanwhile
            } else if (copied) {
                Q_EMIT troubleChanged({});
                Q_EMIT made();
            } else if (copied.error().code != core::ErrorCode::Cancelled) {
                Q_EMIT troubleChanged(
                    tr("No copy was made: %1").arg(QString::fromStdString(copied.error().message)));
            }
        });
}

}  // namespace ui::shell
