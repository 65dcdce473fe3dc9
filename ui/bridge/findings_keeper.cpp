#include "ui/bridge/findings_keeper.h"

#include <utility>

#include "core/project/clock_refutation.h"

namespace ui::bridge {

using core::findings::FindingsPtr;

FindingsKeeper::FindingsKeeper(core::project::Store& store, JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {}

FindingsKeeper::State FindingsKeeper::stateOf(const core::project::Snapshot& snapshot) {
    State state{snapshot.revision, snapshot.efforts.size(), {}};
    for (const auto& clip : snapshot.clips) {
        if (core::project::isLeftOut(snapshot, clip)) {
            state.leftOut.push_back(clip.id);
        }
    }
    return state;
}

bool FindingsKeeper::isUpToDate() const {
    return m_known == stateOf(*m_store.snapshot());
}

void FindingsKeeper::want() {
    if (isUpToDate()) {
        return;
    }
    if (std::exchange(m_isComputing, true)) {
        m_isWanted = true;
        return;
    }
    const auto snapshot = m_store.snapshot();
    m_jobs.start<FindingsPtr>(
        tr("Computing findings"),
        [snapshot, earlier = m_findings](JobContext& context) -> core::Result<FindingsPtr> {
            auto found =
                core::findings::findFindings(*snapshot, {}, context.stopToken(), earlier.get());
            if (!found) {
                return found.error();
            }
            return FindingsPtr{
                std::make_shared<core::findings::Findings>(std::move(found).value())};
        },
        this, [this, state = stateOf(*snapshot)](const auto& found) { comeHome(state, found); },
        JobRunner::Priority::Looked);
}

void FindingsKeeper::comeHome(const State& state, const core::Result<FindingsPtr>& found) {
    m_isComputing = false;
    m_known = state;
    m_trouble = found ? QString{} : QString::fromStdString(found.error().message);
    if (found) {
        m_findings = found.value();
    }
    Q_EMIT changed();
    if (std::exchange(m_isWanted, false)) {
        want();
    }
}

}  // namespace ui::bridge
