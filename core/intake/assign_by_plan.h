#pragma once

#include "core/intake/slate_cards.h"

namespace core::intake {

/// How the shots that were found lie against the order of the plan.
struct PlanAlignment {
    std::size_t planned{};
    std::size_t found{};
    /// Clips that end amid a visit while the camera was probably stopped between visits, and a
    /// number of shots that is not the planned one: a sentence each. Empty when all fits.
    std::vector<std::string> differences;
};

/// Compares the shots of a session, in film order (film_order.h), with the order of the plan.
/// Errors: those of plan::scheduleOf() and filmOrder().
Result<PlanAlignment> compareWithPlan(project::Store& store, project::SessionId session);

enum class WhenCountsDiffer {
    Refuse,  ///< nothing is assigned
    Assign,  ///< shot by shot from the first one on, as far as both reach
};

/// Assigns the shots of a session by the order of the plan: the first shot found is the first one
/// planned, and so on. Shots that have a cell keep it and their place in the order. One edit.
/// Errors: Contradiction with all differences when the counts differ and that was not allowed;
/// those of compareWithPlan() and of the store.
Result<AssignmentReport> assignByPlanOrder(project::Store& store, project::SessionId session,
                                           WhenCountsDiffer whenCountsDiffer);

}  // namespace core::intake
