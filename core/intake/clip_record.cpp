#include "core/intake/clip_record.h"

#include "core/media/file/lens.h"

namespace core::intake {

std::string_view warningName(media::ClipWarning::Kind kind) noexcept {
    using Kind = media::ClipWarning::Kind;
    switch (kind) {
        case Kind::Gap:
            return "gap";
        case Kind::RepeatedStamp:
            return "repeated_stamp";
        case Kind::BackwardStamp:
            return "backward_stamp";
        case Kind::RepeatedPicture:
            return "repeated_picture";
        case Kind::Truncated:
            return "truncated";
        case Kind::Damaged:
            return "damaged";
        case Kind::SlowMotionLikely:
            return "slow_motion_likely";
        case Kind::CoarseStamps:
            return "coarse_stamps";
    }
    return "unknown";
}

project::Clip recordOf(const media::ClipIndex& index) {
    project::Clip clip;
    clip.frameCount = index.frameCount();
    clip.width = index.facts.width;
    clip.height = index.facts.height;
    clip.rotationDegrees = index.facts.rotationDegrees;
    clip.codec = index.facts.codec;
    clip.container = index.facts.container;
    clip.hasSound = index.facts.hasSound;
    clip.playbackRate = index.playbackRate;
    for (const auto& tagged : index.taggedRates) {
        clip.evidence.emplace_back(timebase::ContainerTag{tagged.tag, tagged.rate, false});
    }
    if (const auto lens = media::lensOf(index.facts)) {
        clip.lensFocalLengthMm = lens->equivalentFocalLengthMm;
        clip.remarks.push_back(
            {"lens", std::nullopt, media::lensWords(*lens, clip.width, clip.height)});
    }
    for (const auto& warning : index.warnings) {
        clip.remarks.push_back(
            {std::string{warningName(warning.kind)}, warning.frame, warning.message});
    }
    return clip;
}

project::ClipFrames framesOf(const media::ClipIndex& index) {
    return {index.stamps, index.isKey};
}

media::ClipIndex indexOf(const project::Clip& clip, const project::ClipFrames& frames) {
    media::ClipIndex index;
    index.facts.width = clip.width;
    index.facts.height = clip.height;
    index.facts.rotationDegrees = clip.rotationDegrees;
    index.facts.codec = clip.codec;
    index.facts.container = clip.container;
    index.facts.hasSound = clip.hasSound;
    index.stamps = frames.stamps;
    index.isKey = frames.isKey;
    index.playbackRate = clip.playbackRate;
    index.fingerprint = clip.fingerprint;
    return index;
}

}  // namespace core::intake
