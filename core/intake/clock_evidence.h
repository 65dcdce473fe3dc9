#pragma once

#include <span>
#include <vector>

#include "core/project/store.h"
#include "core/timebase/clock_check.h"

/// What people say of the clocks of clips: it goes into the evidence, and the clocks follow.
namespace core::intake {

/// What the reviewer says of a clip's clock.
struct ReviewersWord {
    std::optional<timebase::CaptureRate> rate;  ///< absent: the rest of the evidence decides
    timebase::StampTrust trust{timebase::StampTrust::Trusted};
    bool areTagsSetAside{false};  ///< the capture rate that the file states is wrong
};

/// The clip with its evidence weighed anew, the reviewer's word in place of an earlier one.
/// Errors: Contradiction when the evidence cannot hold together.
Result<project::Clip> withReviewersWord(project::Clip clip, const timebase::FrameStamps& stamps,
                                        const ReviewersWord& word);

/// The same in a project: evidence and clock are stored as one edit. Errors: also NotFound; nothing
/// is changed then.
Result<void> setReviewersWord(project::Store& store, project::ClipId clip,
                              const ReviewersWord& word);

/// The clips of the filming day that seem to be filmed with the settings of this one, itself first:
/// films with the same size of picture and codec, a playback rate that agrees
/// (timebase::kPlaybackAgreement) and the same capture rate in their tags.
[[nodiscard]] std::vector<project::ClipId> clipsFilmedAlike(const project::Snapshot& snapshot,
                                                            project::ClipId clip);

/// Adds a clock check, whose instants are frames of the clip `filmedIn`, to the evidence of these
/// clips and weighs it anew: one edit, one step of undo. Returns what the check says.
/// Errors: those of timebase::evaluateClockCheck(); NotFound; OutOfRange for an instant outside the
/// clip; Untrustworthy when frames are missing or repeated between the instants; InvalidInput for
/// no clip; Contradiction when the evidence of a clip, which is named, cannot hold together with
/// it. Nothing is changed then.
Result<timebase::ClockCheckResult> addClockCheck(project::Store& store, project::ClipId filmedIn,
                                                 timebase::ClockCheck check,
                                                 std::span<const project::ClipId> clips);

/// Takes the clock checks of this clip out of its evidence, and out of that of all other clips that
/// have them: one edit. Errors: NotFound when it has none; Contradiction as addClockCheck().
Result<void> withdrawClockChecks(project::Store& store, project::ClipId clip);

}  // namespace core::intake
