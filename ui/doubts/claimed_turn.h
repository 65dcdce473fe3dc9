#pragma once

#include <optional>
#include <vector>

#include "core/project/store.h"

namespace ui::doubts {

/// One turn as the reading in use has it: from the start to where the mark would be back.
struct ClaimedTurn {
    core::Rpm rate;
    double frames{};  ///< that the turn takes, on the clock of the reading
    core::timebase::FrameIndex start;
    core::timebase::FrameIndex back;
    /// Five over the turn, the start and `back` among them; fewer where it has no more. Ascending.
    std::vector<core::timebase::FrameIndex> shown;
};

/// Absent for a shot without a reading in use, without a film (a table of frame counts), or whose
/// frames have no times. Cost: about a millisecond.
[[nodiscard]] std::optional<ClaimedTurn> claimedTurn(const core::project::Store& store,
                                                     core::project::ShotId shot);

}  // namespace ui::doubts
