#pragma once

#include <optional>
#include <vector>

#include "core/project/store.h"

namespace core::doubts {

/// One turn as a reading has it: from the start to where the mark would be back.
struct ClaimedTurn {
    project::ShotId shot;
    Rpm rate;
    double frames{};  ///< that the turn takes, on the clock of the reading
    timebase::FrameIndex start;
    timebase::FrameIndex back;
    /// Five over the turn, the start and `back` among them; fewer where it has no more. Ascending.
    std::vector<timebase::FrameIndex> shown;
};

/// Absent for a reading that is not there, of a shot without a film (a table of frame counts), or
/// whose frames have no times. Cost: about a millisecond.
[[nodiscard]] std::optional<ClaimedTurn> claimedTurn(const project::Store& store,
                                                     project::ReadingId reading);

/// The reading of a shot that is in use, and the newest of those whose 95 % interval does not meet
/// its; absent where there is none.
struct RivalReadings {
    std::optional<project::ReadingId> inUse;
    std::optional<project::ReadingId> rival;
};
[[nodiscard]] RivalReadings rivalReadings(const project::Snapshot& snapshot, project::ShotId shot);

}  // namespace core::doubts
