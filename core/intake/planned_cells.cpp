#include "core/intake/planned_cells.h"

#include <algorithm>
#include <set>

#include "core/base/kept_words.h"

namespace core::intake {
namespace {

const project::Implement* implementFor(const project::Snapshot& snapshot,
                                       const plan::SlateCard& names) {
    const project::Implement* ofName = nullptr;
    int namesakes = 0;
    for (const auto& implement : snapshot.implements) {
        if (implement.name != names.implement) {
            continue;
        }
        if (implement.condition == names.condition) {
            return &implement;
        }
        ofName = &implement;
        ++namesakes;
    }
    return names.condition.empty() && namesakes == 1 ? ofName : nullptr;
}

const project::Hitter* hitterFor(const project::Snapshot& snapshot, const std::string& name) {
    const auto found = std::find_if(snapshot.hitters.begin(), snapshot.hitters.end(),
                                    [&name](const auto& hitter) { return hitter.name == name; });
    return found == snapshot.hitters.end() ? nullptr : &*found;
}

const plan::PlannedImplement* plannedFor(const plan::Plan& plan, const std::string& name,
                                         const std::string& condition) {
    const auto found =
        std::find_if(plan.implements.begin(), plan.implements.end(), [&](const auto& implement) {
            return implement.name == name && implement.condition == condition;
        });
    return found == plan.implements.end() ? nullptr : &*found;
}

Result<project::ImplementId> implementOfCard(project::Store& store, const plan::SlateCard& names) {
    const auto snapshot = store.snapshot();
    if (const auto* known = implementFor(*snapshot, names)) {
        return known->id;
    }
    project::Implement implement;
    implement.name = names.implement;
    implement.condition = names.condition;
    if (const auto* planned = plannedFor(planOf(*snapshot), names.implement, names.condition)) {
        implement.attributes = planned->attributes;
    }
    return store.addImplement(implement);
}

Result<project::HitterId> hitterOfCard(project::Store& store, const std::string& name) {
    const auto snapshot = store.snapshot();
    if (const auto* known = hitterFor(*snapshot, name)) {
        return known->id;
    }
    project::Hitter hitter;
    hitter.name = name;
    return store.addHitter(hitter);
}

}  // namespace

Result<void> keepPlan(project::Store& store, const plan::Plan& plan) {
    const auto before = store.snapshot();
    std::vector<project::Implement> changed;
    for (const auto& implement : before->implements) {
        const auto* planned = plannedFor(plan, implement.name, implement.condition);
        if (planned == nullptr) {
            continue;
        }
        project::Implement next = implement;
        for (const auto& column : plan.attributeNames) {
            const auto value = planned->attributes.find(column);
            if (value != planned->attributes.end()) {
                next.attributes[column] = value->second;
            } else {
                next.attributes.erase(column);
            }
        }
        if (next != implement) {
            changed.push_back(std::move(next));
        }
    }
    if (changed.empty()) {
        return store.setPlan(plan);
    }
    return store.together(toKeep("Changed the plan and what is known of its implements."),
                          [&]() -> Result<void> {
                              BOOST_OUTCOME_TRY(store.setPlan(plan));
                              for (const auto& implement : changed) {
                                  BOOST_OUTCOME_TRY(store.changeImplement(implement));
                              }
                              return ok();
                          });
}

plan::Plan planOfProject(const project::Snapshot& snapshot) {
    plan::Plan plan;
    std::set<std::string> columns;
    for (const auto& implement : snapshot.implements) {
        plan.implements.push_back({implement.name, implement.condition, implement.attributes});
        for (const auto& [column, value] : implement.attributes) {
            columns.insert(column);
        }
    }
    plan.attributeNames.assign(columns.begin(), columns.end());
    for (const auto& hitter : snapshot.hitters) {
        plan.hitters.push_back(hitter.name);
    }
    return plan;
}

Result<project::CellId> cellNamed(project::Store& store, project::SessionId session,
                                  const plan::SlateCard& names) {
    BOOST_OUTCOME_TRY(implement, implementOfCard(store, names));
    BOOST_OUTCOME_TRY(hitter, hitterOfCard(store, names.hitter));
    return store.cellFor(session, implement, hitter);
}

std::optional<project::CellId> knownCell(const project::Snapshot& snapshot,
                                         project::SessionId session, const plan::SlateCard& names) {
    const auto* implement = implementFor(snapshot, names);
    const auto* hitter = hitterFor(snapshot, names.hitter);
    if (implement == nullptr || hitter == nullptr) {
        return std::nullopt;
    }
    for (const auto& cell : snapshot.cells) {
        if (cell.session == session && cell.implement == implement->id &&
            cell.hitter == hitter->id) {
            return cell.id;
        }
    }
    return std::nullopt;
}

}  // namespace core::intake
