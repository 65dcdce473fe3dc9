#include "ui/footage/shot_finder.h"

#include "core/base/words.h"
#include "core/intake/clip_shots.h"
#include "ui/footage/tr.h"

namespace ui::footage {

using core::project::ClipId;
using core::project::Shot;

namespace {

/// found: one that spans the clip has no strike.
QString newShotsText(std::size_t added, const std::vector<Shot>& found) {
    const bool isWhole = found.size() == 1 && !found.front().strikeFrame;
    if (found.empty() || isWhole) {
        return added == 0 ? tr("no ball in flight was found; add shots by hand")
                          : tr("no ball in flight was found; the clip is taken for one shot");
    }
    if (added == 0) {
        return tr("no new shot was found");
    }
    return tr("%1 found")
        .arg(QString::fromStdString(
            core::counted(static_cast<std::size_t>(added), "shot", "shots")));
}

}  // namespace

ShotFinder::ShotFinder(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {}

void ShotFinder::find(ClipId clip) {
    if (m_running.contains(clip.value)) {
        return;
    }
    const QString name = QString::fromStdString(core::project::clipName(*m_store.snapshot(), clip));
    const auto search = core::intake::shotSearchOf(m_store, clip);
    if (!search) {
        Q_EMIT finished(
            QStringLiteral("%1: %2").arg(name, QString::fromStdString(search.error().message)),
            true);
        return;
    }
    m_running.insert(clip.value);
    m_jobs.start<std::vector<Shot>>(
        tr("Looking for shots in %1").arg(name),
        [search = search.value()](bridge::JobContext& context) {
            return core::intake::searchShots(search, context.stopToken());
        },
        this, [this, clip, name](const auto& found) { comeHome(clip, name, found); });
}

void ShotFinder::comeHome(ClipId clip, const QString& name,
                          const core::Result<std::vector<Shot>>& found) {
    m_running.erase(clip.value);
    if (!found && found.error().code == core::ErrorCode::Cancelled) {
        return;
    }
    if (!found) {
        Q_EMIT finished(
            QStringLiteral("%1: %2").arg(name, QString::fromStdString(found.error().message)),
            true);
        return;
    }
    const auto added = core::intake::addNewShots(m_store, clip, found.value());
    if (!added) {
        Q_EMIT finished(
            QStringLiteral("%1: %2").arg(name, QString::fromStdString(added.error().message)),
            true);
        return;
    }
    Q_EMIT finished(
        QStringLiteral("%1: %2.").arg(name, newShotsText(added.value().size(), found.value())),
        false);
}

}  // namespace ui::footage
