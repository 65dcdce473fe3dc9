#include "core/intake/clock_evidence.h"
#include "core/base/kept_words.h"
#include "core/base/words.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/intake/clip_clock_setting.h"

namespace core::intake {
namespace {

using timebase::ClockCheck;
using Evidence = std::vector<timebase::CaptureRateEvidence>;

Result<project::Clip> foundClip(const project::Snapshot& snapshot, project::ClipId id) {
    const project::Clip* clip = snapshot.clips.find(id);
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
    }
    return *clip;
}

timebase::StampTrust trustIn(const project::Clip& clip) {
    return clip.clock && clip.clock->kind == timebase::ClockKind::Counted
               ? timebase::StampTrust::NotTrusted
               : timebase::StampTrust::Trusted;
}

/// The clip with this evidence, and the clock that it gives. Errors: Contradiction.
Result<project::Clip> settledBy(Evidence evidence, project::Clip clip,
                                const timebase::FrameStamps& stamps, timebase::StampTrust trust) {
    auto settled = settleClock(clip.playbackRate, stamps, evidence, trust);
    if (!settled.setting) {
        return fail(ErrorCode::Contradiction, saidKept(settled.remarks.front().message));
    }
    clip.evidence = std::move(evidence);
    clip.clock = settled.setting;
    clip.clockRemarks = std::move(settled.remarks);
    return clip;
}

/// The same, stored. Errors: also NotFound.
Result<void> weighAnew(project::Store& store, const project::Clip& clip, Evidence evidence) {
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip.id));
    BOOST_OUTCOME_TRY(settled, settledBy(std::move(evidence), clip, frames->stamps, trustIn(clip)));
    return store.setClipClock(clip.id, settled.evidence, settled.clock, settled.clockRemarks);
}

const timebase::ContainerTag* tagOf(const project::Clip& clip) {
    for (const auto& one : clip.evidence) {
        if (const auto* tag = std::get_if<timebase::ContainerTag>(&one)) {
            return tag;
        }
    }
    return nullptr;
}

bool areFilmedAlike(const project::Clip& a, const project::Clip& b) {
    const auto* tagA = tagOf(a);
    const auto* tagB = tagOf(b);
    const bool tagsAgree =
        tagA != nullptr && tagB != nullptr ? tagA->rate == tagB->rate : tagA == tagB;
    const double fpsA = a.playbackRate ? a.playbackRate->fps.toDouble() : 0.0;
    const double fpsB = b.playbackRate ? b.playbackRate->fps.toDouble() : 0.0;
    return a.session == b.session && !isTally(a) && !isTally(b) &&
           std::minmax(a.width, a.height) == std::minmax(b.width, b.height) && a.codec == b.codec &&
           std::abs(fpsA - fpsB) <= timebase::kPlaybackAgreement * std::max(fpsA, fpsB) &&
           tagsAgree;
}

/// Frames are counted between the instants: each must be there once.
Result<void> checkFramesBetween(const project::Clip& clip, const ClockCheck& check) {
    const auto [first, last] =
        std::minmax_element(check.instants.begin(), check.instants.end(),
                            [](const auto& a, const auto& b) { return a.frame < b.frame; });
    if (first->frame.value < 0 || last->frame.value >= clip.frameCount) {
        return fail(ErrorCode::OutOfRange,
                    said("The clock check has an instant outside the clip, which has frames "
                         "0 to {}.",
                         clip.frameCount - 1));
    }
    for (const auto& remark : clip.remarks) {
        const bool isBetween =
            remark.frame && first->frame < *remark.frame && *remark.frame <= last->frame;
        if (isBetween && (remark.kind == "gap" || remark.kind == "repeated_picture")) {
            return fail(ErrorCode::Untrustworthy,
                        said("Frames cannot be counted between the instants of the clock "
                             "check. {} Mark instants on one side of frame {}.",
                             saidKept(remark.message), remark.frame->value));
        }
    }
    return ok();
}

bool isCheckOf(const Evidence& evidence, const timebase::CaptureRateEvidence& one) {
    return std::holds_alternative<ClockCheck>(one) &&
           std::find(evidence.begin(), evidence.end(), one) != evidence.end();
}

}  // namespace

Result<project::Clip> withReviewersWord(project::Clip clip, const timebase::FrameStamps& stamps,
                                        const ReviewersWord& word) {
    Evidence evidence = clip.evidence;
    std::erase_if(evidence, [](const auto& one) {
        return std::holds_alternative<timebase::ReviewerEntry>(one);
    });
    for (auto& item : evidence) {
        if (auto* tag = std::get_if<timebase::ContainerTag>(&item)) {
            tag->isSetAside = word.areTagsSetAside;
        }
    }
    if (word.rate) {
        evidence.emplace_back(timebase::ReviewerEntry{*word.rate, std::nullopt});
    }
    return settledBy(std::move(evidence), std::move(clip), stamps, word.trust);
}

Result<void> setReviewersWord(project::Store& store, project::ClipId clipId,
                              const ReviewersWord& word) {
    BOOST_OUTCOME_TRY(clip, foundClip(*store.snapshot(), clipId));
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clipId));
    BOOST_OUTCOME_TRY(settled, withReviewersWord(std::move(clip), frames->stamps, word));
    return store.setClipClock(clipId, settled.evidence, settled.clock, settled.clockRemarks);
}

std::vector<project::ClipId> clipsFilmedAlike(const project::Snapshot& snapshot,
                                              project::ClipId id) {
    std::vector<project::ClipId> alike;
    const project::Clip* clip = snapshot.clips.find(id);
    if (clip == nullptr) {
        return alike;
    }
    alike.push_back(id);
    for (const project::Clip& other : snapshot.clips) {
        if (other.id != id && areFilmedAlike(*clip, other)) {
            alike.push_back(other.id);
        }
    }
    return alike;
}

Result<timebase::ClockCheckResult> addClockCheck(project::Store& store, project::ClipId filmedIn,
                                                 ClockCheck check,
                                                 std::span<const project::ClipId> clips) {
    BOOST_OUTCOME_TRY(result, timebase::evaluateClockCheck(check));
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(filmed, foundClip(*snapshot, filmedIn));
    BOOST_OUTCOME_TRY(checkFramesBetween(filmed, check));
    if (clips.empty()) {
        return fail(ErrorCode::InvalidInput, said("Say for which clips the clock check counts."));
    }
    check.filmed =
        toKeep("{}, frames {} to {} of {:s}", check.filmed, check.instants.front().frame.value,
               check.instants.back().frame.value, clipName(*snapshot, filmedIn));
    const auto addToAll = [&]() -> Result<void> {
        for (const project::ClipId id : clips) {
            BOOST_OUTCOME_TRY(clip, foundClip(*snapshot, id));
            Evidence evidence = clip.evidence;
            evidence.emplace_back(check);
            const auto done = weighAnew(store, clip, std::move(evidence));
            if (!done) {
                return fail(done.error().code,
                            clipName(*snapshot, id) + ": " + done.error().message);
            }
        }
        return ok();
    };
    const std::string sentence = [&check] {
        const KeptSpeech kept;
        return timebase::describe(check);
    }();
    BOOST_OUTCOME_TRY(store.together(
        toKeep("{} Counts for {}.", sentence, countToKeep(clips.size(), "clip", "clips")),
        addToAll));
    return result;
}

Result<void> withdrawClockChecks(project::Store& store, project::ClipId id) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(clip, foundClip(*snapshot, id));
    const auto isTheirs = [&clip](const auto& one) { return isCheckOf(clip.evidence, one); };
    if (std::none_of(clip.evidence.begin(), clip.evidence.end(), isTheirs)) {
        return fail(ErrorCode::NotFound, said("{} has no clock check.", clipName(*snapshot, id)));
    }
    return store.together(
        toKeep("Withdrew the clock checks of clip {:s}.", clipName(*snapshot, id)),
        [&]() -> Result<void> {
            for (const project::Clip& other : snapshot->clips) {
                Evidence evidence = other.evidence;
                if (std::erase_if(evidence, isTheirs) > 0) {
                    BOOST_OUTCOME_TRY(weighAnew(store, other, std::move(evidence)));
                }
            }
            return ok();
        });
}

}  // namespace core::intake
