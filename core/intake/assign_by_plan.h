#pragma once

#include "core/intake/slate_cards.h"

namespace core::intake {

enum class WhenCountsDiffer {
    Refuse,  ///< nothing is assigned
    Assign,  ///< shot by shot from the first one on, as far as both reach
};

/// Assigns the shots of a session by the order of the plan: the first shot found is the first one
/// planned, and so on. Shots that have a cell keep it and their place in the order. One edit.
/// Errors: Contradiction with all differences when the counts differ and that was not allowed;
/// those of plan::scheduleOf(), filmOrder() and of the store.
Result<AssignmentReport> assignByPlanOrder(project::Store& store, project::SessionId session,
                                           WhenCountsDiffer whenCountsDiffer);

}  // namespace core::intake
