#include "ui/plan/plan_desk.h"

#include "core/intake/planned_cells.h"

namespace ui::plan {

PlanDesk::PlanDesk(core::project::Store& store, QObject* parent)
    : QObject{parent}, m_store{store}, m_snapshot{store.snapshot()} {
    m_listening = store.listen([this](const core::project::Store::Change& change) {
        m_snapshot = change.snapshot;
        Q_EMIT changed();
    });
}

const core::plan::Plan& PlanDesk::plan() const {
    return core::project::planOf(*m_snapshot);
}

bool PlanDesk::change(const std::function<void(core::plan::Plan&)>& edit) {
    core::plan::Plan next = plan();
    edit(next);
    if (next == plan()) {
        say({});
        return true;
    }
    const auto kept = core::intake::keepPlan(m_store, next);
    say(kept ? QString{} : QString::fromStdString(kept.error().message));
    return kept.has_value();
}

}  // namespace ui::plan
