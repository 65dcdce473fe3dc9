#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/project/model.h"
#include "core/spin/reading_by_marks.h"

namespace core::doubts {

/// Frames that are missing between two neighbours of a clip.
struct Hole {
    timebase::FrameIndex after;  ///< the last frame before it
    std::int64_t missing{};      ///< frames, by the usual interval
};

/// What stands in a kept reading besides its number. A reading never changes, nor do its facts.
struct ReadingFacts {
    timebase::FrameIndex first;  ///< of the frames that it rests on
    timebase::FrameIndex last;
    int turns{};  ///< of the last return; 0 for a reading that counts no turns
    std::optional<project::ClockSetting> clock;  ///< absent when the inputs cannot be read
    int markingSymmetry{1};  ///< the marking looks the same after this part of a turn
    std::vector<spin::MarksWarning> warnings;
    std::vector<Hole> holes;           ///< inside the frames
    std::optional<double> uniqueness;  ///< of a rotation fit
};

/// The facts of a reading, computed again from what was stored with it; what cannot be read is left
/// out. Cost: below a millisecond.
[[nodiscard]] ReadingFacts factsOf(const project::Reading& reading,
                                   const project::ClipFrames& frames, std::int64_t usualTicks);

/// The median interval between neighbours; 0 for fewer than three frames. O(n).
[[nodiscard]] std::int64_t usualInterval(const timebase::FrameStamps& stamps);
/// Where time stamps leave more than one and a half usual intervals between neighbours.
[[nodiscard]] std::vector<Hole> holesBetween(const timebase::FrameStamps& stamps,
                                             std::int64_t usualTicks, timebase::FrameIndex first,
                                             timebase::FrameIndex last);

}  // namespace core::doubts
