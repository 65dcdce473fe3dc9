#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/project/store.h"

namespace core::evidence {

/// Which kept pictures to let go. Those of shots that were removed from the project go with any of
/// them.
struct PruneChoice {
    bool all{};
    bool ofShotsSetAside{};
    std::optional<std::string> madeBefore;  ///< ISO 8601 date, "2026-05-03": made before that day
};

/// Shots whose pictures the choice names, by id. Errors: those of the store; InvalidInput for a
/// text that is no date.
Result<std::vector<project::StoredSize>> chosenToPrune(const project::Store& store,
                                                       const PruneChoice& choice);

/// Lets them go and gives back what they were. Errors: as above.
Result<std::vector<project::StoredSize>> prune(project::Store& store, const PruneChoice& choice);

}  // namespace core::evidence
