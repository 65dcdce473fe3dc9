#pragma once

#include <optional>
#include <vector>

#include "core/project/store.h"

namespace ui::doubts {

/// One turn as a reading has it: from the start to where the mark would be back.
struct ClaimedTurn {
    core::project::ShotId shot;
    core::Rpm rate;
    double frames{};  ///< that the turn takes, on the clock of the reading
    core::timebase::FrameIndex start;
    core::timebase::FrameIndex back;
    /// Five over the turn, the start and `back` among them; fewer where it has no more. Ascending.
    std::vector<core::timebase::FrameIndex> shown;
};

/// Absent for a reading that is not there, of a shot without a film (a table of frame counts), or
/// whose frames have no times. Cost: about a millisecond.
[[nodiscard]] std::optional<ClaimedTurn> claimedTurn(const core::project::Store& store,
                                                     core::project::ReadingId reading);

/// The reading of a shot that is in use, and the newest of those whose 95 % interval does not meet
/// its; absent where there is none.
struct RivalReadings {
    std::optional<core::project::ReadingId> inUse;
    std::optional<core::project::ReadingId> rival;
};
[[nodiscard]] RivalReadings rivalReadings(const core::project::Snapshot& snapshot,
                                          core::project::ShotId shot);

}  // namespace ui::doubts
