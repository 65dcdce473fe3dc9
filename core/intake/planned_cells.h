#pragma once

#include <optional>
#include <string>

#include "core/plan/slate.h"
#include "core/project/store.h"

/// From the names in a plan to the implements, hitters and cells of a project.
namespace core::intake {

/// Keeps the plan, and gives its attributes to the implements of the project that have the same
/// name and condition, so that findings by attribute follow the plan. One edit.
/// Errors: those of project::Store::setPlan.
Result<void> keepPlan(project::Store& store, const plan::Plan& plan);

/// A plan with the implements, their attributes, and the hitters that the project has.
[[nodiscard]] plan::Plan planOfProject(const project::Snapshot& snapshot);

/// The cell of an implement and a hitter by their names. The implement is the one of this name and
/// condition; for an empty condition also the only one of the name. What is missing is added, an
/// implement with the attributes that the plan gives it. Errors: InvalidInput for an empty name.
Result<project::CellId> cellNamed(project::Store& store, project::SessionId session,
                                  const plan::SlateCard& names);

/// The same without adding anything: absent when the project has no such cell.
[[nodiscard]] std::optional<project::CellId> knownCell(const project::Snapshot& snapshot,
                                                       project::SessionId session,
                                                       const plan::SlateCard& names);

}  // namespace core::intake
