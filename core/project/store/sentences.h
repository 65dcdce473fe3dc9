#pragma once

#include <string>

#include "core/project/snapshot.h"

/// Sentences of the history that take more than one line to make, in kept words
/// (core/base/kept_words.h). Private to core/project.
namespace core::project {

/// "Marked shot 3 of clip b.mp4: start at frame 12; return at frame 17 (1 turn) added." from the
/// difference between the marks of the shot and the new ones.
[[nodiscard]] std::string marksSentence(const Snapshot& snapshot, const Shot& shot,
                                        const spin::MarkSet& marks);
/// "Changed the plan: implements gut added; shots per cell 10, before 6." from the difference.
[[nodiscard]] std::string planSentence(const plan::Plan& before, const plan::Plan& after);
/// "shot 3 of clip b.mp4" for one, "12 shots of clip b.mp4", "12 shots of 3 clips".
[[nodiscard]] std::string shotsName(const Snapshot& snapshot, const std::vector<Shot>& shots);
/// "1490.3 rpm (1467.2 to 1514.0)".
[[nodiscard]] std::string readingText(const Reading& reading);
/// "topspin", "backspin", "not known".
[[nodiscard]] std::string strokeText(Stroke stroke);
/// "counted at 240/1 per second", "stretched 8/1", "stamped", "not settled".
[[nodiscard]] std::string clockText(const std::optional<ClockSetting>& clock);

}  // namespace core::project
