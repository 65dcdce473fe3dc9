#pragma once

#include <QObject>
#include <deque>
#include <memory>
#include <optional>

#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

namespace ui::reading {

/// Sees to it that the pictures behind every kept reading are in the project: they are cut from the
/// film in the background, one shot after the other, and written when they are there. A shot whose
/// film is gone is passed over. Confined to the thread of the store.
class EvidenceKeeper : public QObject, private core::jobs::Source {
    Q_OBJECT

public:
    /// Both must outlive the keeper.
    EvidenceKeeper(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent = nullptr);

    [[nodiscard]] bool isIdle() const noexcept { return m_conveyor.isIdle() && m_queue.empty(); }

Q_SIGNALS:
    /// The pictures of a shot are in the project.
    void kept(core::project::ShotId shot);
    /// Nothing is left to do.
    void idle();

private:
    void onStoreChange(const core::project::Store::Change& change);
    void queue(core::project::ShotId shot);
    void giveMore();
    std::optional<Piece> next() override;
    void cancel() override { m_queue.clear(); }
    [[nodiscard]] bool isCancelled() const override { return false; }  // later shots are wanted
    void comeHome(core::project::ShotId shot,
                  const core::Result<core::project::StoredPictures>& made);

    core::project::Store& m_store;
    std::deque<core::project::ShotId> m_queue;
    core::jobs::Conveyor m_conveyor;
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::reading
