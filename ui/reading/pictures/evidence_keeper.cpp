#include "ui/reading/pictures/evidence_keeper.h"

#include <algorithm>

#include "core/base/guarded.h"
#include "core/evidence/gather.h"

namespace ui::reading {

using core::project::ShotId;
using core::project::StoredPictures;

EvidenceKeeper::EvidenceKeeper(core::project::Store& store, bridge::JobRunner& jobs,
                               QObject* parent)
    : QObject{parent},
      m_store{store},
      m_conveyor{jobs.pool(),
                 std::shared_ptr<Source>{std::shared_ptr<void>{}, this},
                 {.priority = core::jobs::Priority::Ahead, .home = jobs.home(), .moved = [this] {
                      if (isIdle()) {
                          Q_EMIT idle();
                      }
                  }}} {
    m_listening =
        store.listen([this](const core::project::Store::Change& change) { onStoreChange(change); });
    if (const auto wanting = core::evidence::wantingShots(store)) {
        m_queue.assign(wanting.value().begin(), wanting.value().end());
    }
    giveMore();
}

void EvidenceKeeper::onStoreChange(const core::project::Store::Change& change) {
    const bool isOneKept =
        std::any_of(change.shots.begin(), change.shots.end(), [&change](ShotId id) {
            const auto* shot = change.snapshot->shots.find(id);
            return shot != nullptr && shot->standing == core::project::ShotStanding::Kept;
        });
    if (!isOneKept) {
        return;
    }
    // One look for all of them: a step may keep hundreds.
    if (const auto wanting = core::evidence::wantingShots(m_store)) {
        for (const ShotId shot : wanting.value()) {
            if (std::find(change.shots.begin(), change.shots.end(), shot) != change.shots.end()) {
                queue(shot);
            }
        }
    }
    giveMore();
}

void EvidenceKeeper::queue(ShotId shot) {
    if (std::find(m_queue.begin(), m_queue.end(), shot) == m_queue.end()) {
        m_queue.push_front(shot);  // before what an earlier day left over
    }
}

void EvidenceKeeper::giveMore() {
    m_conveyor.go();
    if (isIdle()) {
        Q_EMIT idle();
    }
}

std::optional<core::jobs::Source::Piece> EvidenceKeeper::next() {
    while (!m_queue.empty()) {
        const ShotId shot = m_queue.front();
        m_queue.pop_front();
        auto task = core::evidence::gatherTask(m_store, shot);
        if (!task) {
            continue;  // no film: the screen says so where the shot is opened
        }
        return Piece{tr("Keeping the pictures of a shot").toStdString(),
                     {},
                     0.0,
                     {},
                     [this, shot, task = std::move(task).value()](core::jobs::Context& context) {
                         auto made = core::guarded(
                             [&] { return core::evidence::gather(task, context.stopToken()); });
                         return [this, shot, made = std::move(made)] { comeHome(shot, made); };
                     }};
    }
    return std::nullopt;
}

void EvidenceKeeper::comeHome(ShotId shot, const core::Result<StoredPictures>& made) {
    if (!made && made.error().code == core::ErrorCode::Cancelled) {
        m_queue.clear();  // by the tester; they are made when the project is opened again
    }
    if (made && m_store.notePictures(shot, made.value())) {
        Q_EMIT kept(shot);
    }
}

}  // namespace ui::reading
