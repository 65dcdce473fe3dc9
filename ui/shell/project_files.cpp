#include "ui/shell/project_files.h"

#include "core/base/words.h"
#include "core/project/rescue.h"
#include "ui/models/number_text.h"
#include "ui/shell/backups_window.h"
#include "ui/shell/tr.h"
#include "ui/style/ask.h"

namespace ui::shell {
namespace {

namespace fs = std::filesystem;

QString packFilter() {
    return tr("Packed projects (*.tar)");
}

QString textOf(const fs::path& path) {
    return QString::fromStdString(path.string());
}

fs::path pathOf(const QString& text) {
    return fs::path{text.toStdString()};
}

QString packedText(const core::pack::Packed& packed, const fs::path& to) {
    QString text =
        tr("The project and %1 are in %2 (%3 MB).")
            .arg(QString::fromStdString(core::counted(packed.clips.size(), "clip", "clips")),
                 textOf(to))
            .arg(models::numberText(static_cast<double>(packed.bytes) / 1e6, 'f', 1));
    for (const std::string& remark : packed.remarks) {
        text += QLatin1Char('\n') + QString::fromStdString(remark);
    }
    return text;
}

QString rescuedText(const core::project::Rescue& saved, const fs::path& from) {
    QStringList lines{tr("%1 stays as it is. Saved here:").arg(textOf(from))};
    QStringList lost;
    for (const auto& kind : saved.kinds) {
        lines << QStringLiteral("%1: %2").arg(QString::fromStdString(kind.name)).arg(kind.saved);
        for (const std::string& each : kind.lost) {
            lost << QString::fromStdString(each);
        }
    }
    constexpr qsizetype kMostLines = 20;
    const auto more = lost.size() - kMostLines;
    lines << (lost.isEmpty() ? tr("Nothing is lost except the steps to undo.")
                             : tr("Lost, with the steps to undo:"));
    lines << lost.mid(0, kMostLines);
    if (more > 0) {
        lines << tr("and %1 more; turnmark-cli rescue lists them all").arg(more);
    }
    return lines.join(QLatin1Char('\n'));
}

}  // namespace

QString projectFilter() {
    return tr("Turnmark projects (*.turnmark)");
}

ProjectFiles::ProjectFiles(bridge::JobRunner& jobs, BackupKeeper& backups, QWidget& window)
    : QObject{&window}, m_jobs{jobs}, m_backups{backups}, m_window{window} {}

void ProjectFiles::showBackups(const Path& project) {
    auto* window = new BackupsWindow{project, m_jobs, m_backups, &m_window};
    connect(window, &BackupsWindow::restoreWanted, this,
            [this, project](const Path& backup) { Q_EMIT restoreWanted(project, backup); });
    window->show();
}

void ProjectFiles::askRescue(const Path& project) {
    const fs::path to = project.parent_path() / (project.stem().string() + " saved.turnmark");
    style::askWhereToSave(m_window, {tr("Save what can be read"), textOf(to), projectFilter()},
                          [this, project](const QString& file) { rescue(project, pathOf(file)); });
}

void ProjectFiles::rescue(const Path& project, const Path& to) {
    m_jobs.start<core::project::Rescue>(
        tr("Saving what can be read"),
        [project, to](bridge::JobContext&) { return core::project::rescueProject(project, to); },
        this,
        [this, project, to](const core::Result<core::project::Rescue>& saved) {
            if (saved) {
                Q_EMIT openWanted(to);
            }
            style::tell(m_window, saved ? tr("Saved what can be read") : tr("Nothing was saved"),
                        saved ? rescuedText(saved.value(), project)
                              : QString::fromStdString(saved.error().message));
        });
}

void ProjectFiles::askPack(const Path& project, core::pack::Footage footage) {
    style::askWhereToSave(
        m_window,
        {tr("Pack the project"), textOf(fs::path{project}.replace_extension(".tar")), packFilter()},
        [this, project, footage](const QString& file) { pack(project, pathOf(file), footage); });
}

void ProjectFiles::pack(const Path& project, const Path& to, core::pack::Footage footage) {
    m_jobs.start<core::pack::Packed>(
        tr("Packing the project"),
        [project, to, footage](bridge::JobContext& context) {
            return core::pack::pack(
                project, to, footage, context.stopToken(),
                [&context](double share) { context.report(share, {}); },
                core::Existing::Overwrite);  // whoever chose the file was asked about it
        },
        this,
        [this, to](const core::Result<core::pack::Packed>& packed) {
            style::tell(m_window, packed ? tr("Packed") : tr("Not packed"),
                        packed ? packedText(packed.value(), to)
                               : QString::fromStdString(packed.error().message));
        });
}

void ProjectFiles::askUnpack() {
    style::askForFile(m_window, {tr("Unpack a project"), {}, packFilter()},
                      [this](const QString& archive) {
                          style::askWhereToWrite(m_window, {tr("Folder to unpack into")},
                                                 [this, archive](const QString& folder) {
                                                     const fs::path from = pathOf(archive);
                                                     unpack(from, pathOf(folder) / from.stem());
                                                 });
                      });
}

void ProjectFiles::unpack(const Path& archive, const Path& folder) {
    m_jobs.start<core::pack::Unpacked>(
        tr("Unpacking a project"),
        [archive, folder](bridge::JobContext& context) {
            return core::pack::unpack(archive, folder, context.stopToken(),
                                      [&context](double share) { context.report(share, {}); });
        },
        this,
        [this](const core::Result<core::pack::Unpacked>& unpacked) {
            if (unpacked) {
                Q_EMIT openWanted(unpacked.value().project);
            } else {
                style::tell(m_window, tr("Not unpacked"),
                            QString::fromStdString(unpacked.error().message));
            }
        });
}

}  // namespace ui::shell
