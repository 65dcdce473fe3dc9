#pragma once

#include <span>
#include <string>

#include "core/project/store.h"

namespace core::intake {

/// Whose the shots are, by name as a person types it.
struct CellNames {
    std::string implement;
    std::string hitter;
};

/// Assigns shots to the cell of an implement and a hitter, in the session of each shot's clip; an
/// implement or a hitter of a name that the project does not know yet is added. One edit.
/// Errors: InvalidInput for an empty name or no shots; NotFound when a shot is gone.
Result<void> assignShots(project::Store& store, std::span<const project::ShotId> shots,
                         const CellNames& names);

}  // namespace core::intake
