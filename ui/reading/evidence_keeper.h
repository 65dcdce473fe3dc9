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
class EvidenceKeeper : public QObject {
    Q_OBJECT

public:
    /// Both must outlive the keeper.
    EvidenceKeeper(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent = nullptr);
    ~EvidenceKeeper() override;

    [[nodiscard]] bool isIdle() const noexcept { return !m_running && m_queue.empty(); }

Q_SIGNALS:
    /// The pictures of a shot are in the project.
    void kept(core::project::ShotId shot);
    /// Nothing is left to do.
    void idle();

private:
    void onStoreChange(const core::project::Store::Change& change);
    void queue(core::project::ShotId shot);
    void next();
    bool start(core::project::ShotId shot);
    void comeHome(core::project::ShotId shot,
                  const core::Result<core::project::StoredPictures>& made);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    std::deque<core::project::ShotId> m_queue;
    std::optional<bridge::JobRunner::JobId> m_running;
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::reading
