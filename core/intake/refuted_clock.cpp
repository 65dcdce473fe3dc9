#include "core/intake/refuted_clock.h"

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/clock_evidence.h"
#include "core/intake/shot_pictures.h"

namespace core::intake {
namespace {

constexpr std::size_t kShotsAsked = 3;  // the flights of one clip say the same of its clock

/// The clip at this rate; a tag that says otherwise is set aside.
Result<project::Clip> atRate(const project::Clip& clip, const timebase::FrameStamps& stamps,
                             timebase::CaptureRate rate) {
    ReviewersWord word{.rate = rate};
    if (clip.clock && clip.clock->kind == timebase::ClockKind::Counted) {
        word.trust = timebase::StampTrust::NotTrusted;
    }
    auto stated = withReviewersWord(clip, stamps, word);
    if (!stated && stated.error().code == ErrorCode::Contradiction) {
        word.areTagsSetAside = true;
        stated = withReviewersWord(clip, stamps, word);
    }
    return stated;
}

}  // namespace

std::optional<RefutedClock> refutedClock(const reading::PictureReading& reading) {
    return reading.isClockRefuted() && reading.gravity->likelier
               ? std::optional{RefutedClock{*reading.gravity->likelier,
                                            saidKept(reading.gravity->statement)}}
               : std::nullopt;
}

std::optional<RefutedClock> refutedClock(const project::Store& store, project::ClipId clip) {
    const auto snapshot = store.snapshot();
    std::size_t asked = 0;
    for (const project::Shot* shot : project::shotsOfClip(*snapshot, clip)) {
        const auto request = reading::requestOf(*snapshot, shot->id);
        const auto read = request ? keptReading(store, shot->id, request.value()) : std::nullopt;
        if (!read) {
            continue;
        }
        if (auto refuted = refutedClock(*read)) {
            return refuted;
        }
        if (++asked == kShotsAsked) {
            break;
        }
    }
    return std::nullopt;
}

std::vector<project::ClipId> clipsOfTheSameClock(const project::Snapshot& snapshot,
                                                 project::ClipId id) {
    auto clips = clipsFilmedAlike(snapshot, id);
    const auto* clip = snapshot.clips.find(id);
    std::erase_if(clips, [&](project::ClipId other) {
        return snapshot.clips.find(other)->clock != clip->clock;
    });
    return clips;
}

Result<FactChange> rateChangeOf(const project::Store& store, timebase::CaptureRate rate,
                                std::span<const project::ClipId> clips) {
    const auto snapshot = store.snapshot();
    FactChange change;
    for (const project::ClipId id : clips) {
        const auto* clip = snapshot->clips.find(id);
        if (clip == nullptr) {
            return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
        }
        BOOST_OUTCOME_TRY(frames, store.clipFrames(id));
        auto changed = atRate(*clip, frames->stamps, rate);
        if (!changed) {
            return fail(changed.error().code,
                        clipName(*snapshot, id) + ": " + changed.error().message);
        }
        change.clips.push_back(std::move(changed).value());
    }
    return change;
}

Result<std::vector<project::ShotId>> useRate(project::Store& store, timebase::CaptureRate rate,
                                             std::span<const project::ClipId> clips) {
    BOOST_OUTCOME_TRY(change, rateChangeOf(store, rate, clips));
    auto resting = keptShotsRestingOn(*store.snapshot(), change);
    BOOST_OUTCOME_TRY(
        store.together(toKeep("Stated a capture rate of {:.6g} frames per second for {}.",
                              rate.fps.toDouble(), countToKeep(clips.size(), "clip", "clips")),
                       [&]() -> Result<void> {
                           for (const project::Clip& clip : change.clips) {
                               BOOST_OUTCOME_TRY(store.setClipClock(clip.id, clip.evidence,
                                                                    clip.clock, clip.clockRemarks));
                           }
                           return ok();
                       }));
    return resting;
}

}  // namespace core::intake
