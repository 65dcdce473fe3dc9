#pragma once

#include <optional>
#include <string>

#include "core/project/snapshot.h"

/// Clocks that the flight of a ball refutes. Their shots stay out of every summary until the clock
/// is settled anew or a person overrules the flight with a reason (FORMAT.md R10). Pure functions.
namespace core::project {

struct ClockRefutation {
    std::string statement;  ///< "The flight fits a capture rate of 240, not 30."
    std::string overruled;  ///< why a person keeps the clock all the same; empty: nobody does
};

/// Absent when nothing was seen against the clock as it is now, with the ball's diameter as it is
/// now.
[[nodiscard]] std::optional<ClockRefutation> refutationOf(const Snapshot& snapshot,
                                                          const Clip& clip);
/// Whether the shots of the clip stay out of the summary.
[[nodiscard]] bool isLeftOut(const Snapshot& snapshot, const Clip& clip);
/// Whether the shot is in the numbers of the summary: kept, by a reading, and not left out.
[[nodiscard]] bool isCounted(const Snapshot& snapshot, const Shot& shot);

/// Names of the settings that hold it, and their values for the clip's clock as it is now.
[[nodiscard]] std::string refutationKey(ClipId clip);
[[nodiscard]] std::string overruledKey(ClipId clip);
[[nodiscard]] std::string refutationValue(const Snapshot& snapshot, const Clip& clip, ShotId shot,
                                          const std::string& statement);
[[nodiscard]] std::string overruledValue(const Snapshot& snapshot, const Clip& clip,
                                         const std::string& why);
/// The shot whose flight it was; absent where nothing is noted of the clock as it is now.
[[nodiscard]] std::optional<ShotId> refutingShot(const Snapshot& snapshot, const Clip& clip);

}  // namespace core::project
