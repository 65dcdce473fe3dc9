#include "core/media/file/clip_index.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/media/file/clip_file.h"
#include "core/media/file/packet_scan.h"
#include "core/media/file/playback_rate.h"
#include "core/media/file/stamp_warnings.h"
#include "core/media/frames/orientation.h"

namespace core::media {
namespace {

using timebase::Rational;
using Kind = ClipWarning::Kind;

/// The one documented statement of a capture rate: Android's recorder writes this key of the
/// QuickTime metadata list (Android Open Source Project, MPEG4Writer.cpp) as a 32-bit float, other
/// writers as text; FFmpeg gives both as text.
constexpr const char* kCaptureRateTag = "com.android.capture.fps";
/// Phones film a struck ball at 120 frames per second and more; a clip that plays at no more than
/// this without saying how it was captured may be a slow-motion export.
constexpr std::int64_t kOrdinaryPlaybackFps = 60;

void addTags(std::map<std::string, std::string>& tags, const AVDictionary* dictionary) {
    const AVDictionaryEntry* entry = nullptr;
    while ((entry = av_dict_get(dictionary, "", entry, AV_DICT_IGNORE_SUFFIX)) != nullptr) {
        std::string key{entry->key};
        std::transform(key.begin(), key.end(), key.begin(), [](unsigned char c) {
            return static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
        });
        tags.try_emplace(std::move(key), entry->value);
    }
}

StreamFacts factsOf(const ClipFile& clip) {
    const AVStream& stream = clip.stream();
    const AVCodecParameters& parameters = *stream.codecpar;
    StreamFacts facts;
    facts.container = clip.format().iformat->name;
    facts.codec = avcodec_get_name(parameters.codec_id);
    const auto format = static_cast<AVPixelFormat>(parameters.format);
    if (const AVPixFmtDescriptor* pixels = av_pix_fmt_desc_get(format)) {
        facts.pixelFormat = pixels->name;
        facts.bitsPerComponent = pixels->comp[0].depth;
    }
    const Orientation orientation = orientationOf(stream);
    facts.rotationDegrees = orientation.rotationDegrees;
    facts.width = orientation.swapsSides() ? parameters.height : parameters.width;
    facts.height = orientation.swapsSides() ? parameters.width : parameters.height;
    facts.hasSound = clip.hasSound();
    addTags(facts.tags, clip.format().metadata);
    addTags(facts.tags, stream.metadata);
    return facts;
}

std::optional<timebase::CaptureRate> rateFromText(const std::string& text) {
    double fps = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), fps);
    if (error != std::errc{} || end != text.data() + text.size()) {
        return std::nullopt;
    }
    auto rate = timebase::captureRateFromDecimal(fps);
    return rate.has_value() ? std::optional{rate.value()} : std::nullopt;
}

void readCaptureRate(ClipIndex& index) {
    const auto tag = index.facts.tags.find(kCaptureRateTag);
    if (tag != index.facts.tags.end()) {
        if (const auto rate = rateFromText(tag->second)) {
            index.taggedRates.push_back({tag->first, *rate});
            return;
        }
    }
    const bool hasUnusableTag = tag != index.facts.tags.end();
    const bool playsAtOrdinaryRate =
        index.playbackRate && index.playbackRate->fps <= Rational{kOrdinaryPlaybackFps};
    std::string message;
    if (playsAtOrdinaryRate && hasUnusableTag) {
        message = toKeep(
            "The clip plays at {:.4g} frames per second and no tag gives the capture rate (the tag "
            "{:s} says '{:s}', which is no rate). If it is a slow-motion export, enter the rate at "
            "which the camera filmed; otherwise every spin rate is too low by the same factor.",
            index.playbackRate->fps.toDouble(), tag->first, tag->second);
    } else if (playsAtOrdinaryRate) {
        message = toKeep(
            "The clip plays at {:.4g} frames per second and no tag gives the capture rate. If it "
            "is a slow-motion export, enter the rate at which the camera filmed; otherwise every "
            "spin rate is too low by the same factor.",
            index.playbackRate->fps.toDouble());
    } else if (hasUnusableTag) {
        message = toKeep(
            "The capture rate is not known (the tag {:s} says '{:s}', which is no rate). Enter the "
            "rate at which the camera filmed.",
            tag->first, tag->second);
    }
    if (!message.empty()) {
        index.warnings.push_back({Kind::SlowMotionLikely, std::nullopt, std::move(message)});
    }
}

void warnOfMissingStamps(ClipIndex& index) {
    index.warnings.push_back({Kind::CoarseStamps, std::nullopt,
                              toKeep("This file stores no time stamps for showing, only an order "
                                     "of decoding: frames are laid at the file's fixed rate. Check "
                                     "the capture rate, or use the camera's original file.")});
}

std::optional<std::string> lengthShortfall(const ClipFile& clip, const ClipIndex& index) {
    const AVStream& stream = clip.stream();
    const AVFormatContext& format = clip.format();
    if (index.stamps.ticks.empty() || !index.playbackRate) {
        return std::nullopt;
    }
    const double end =
        static_cast<double>(index.stamps.ticks.back()) * index.stamps.timeBase.toDouble() +
        1.0 / index.playbackRate->fps.toDouble();
    double promised = 0.0;
    if (stream.duration != AV_NOPTS_VALUE && stream.duration > 0) {
        const std::int64_t start = stream.start_time == AV_NOPTS_VALUE ? 0 : stream.start_time;
        promised = static_cast<double>(start + stream.duration) * av_q2d(stream.time_base);
    } else if (format.duration != AV_NOPTS_VALUE && !clip.hasSound() &&
               format.duration_estimation_method != AVFMT_DURATION_FROM_BITRATE) {
        promised = static_cast<double>(format.duration) / AV_TIME_BASE;
    }
    constexpr double kShortFrames = 3.0;  // headers round the length; a cut loses far more
    if (promised - end <= kShortFrames / index.playbackRate->fps.toDouble()) {
        return std::nullopt;
    }
    return toKeep("its header promises {:.3f} s", promised);
}

/// Pictures that lost a part on the way into the file, as a transport stream may.
void warnOfLostParts(const PacketScan& scan, ClipIndex& index) {
    std::int64_t count = 0;
    std::int64_t first = index.frameCount();
    for (const PacketRecord& packet : scan.packets) {
        if (packet.isCut && packet.frame) {
            ++count;
            first = std::min(first, *packet.frame);
        }
    }
    if (count > 0) {
        index.warnings.push_back(
            {ClipWarning::Kind::Damaged, timebase::FrameIndex{first},
             toKeep("A part of {} was lost before it was written to the file, the first at "
                    "frame {}. Up to the next key picture nothing can be read there.",
                    countToKeep(count, "picture", "pictures"), first)});
    }
}

void warnOfEarlyEnd(const ClipFile& clip, const PacketScan& scan, ClipIndex& index) {
    std::string reason = scan.endedEarly;
    if (reason.empty()) {
        const auto shortfall = lengthShortfall(clip, index);
        if (!shortfall) {
            return;
        }
        reason = *shortfall;
    }
    const std::int64_t last = index.frameCount() - 1;
    index.warnings.push_back(
        {Kind::Truncated, timebase::FrameIndex{last},
         toKeep("The file ends early: it can be read up to frame {} ({}). Copy it from the "
                "camera again if later frames are needed.",
                last, reason)});
}

}  // namespace

std::optional<std::int64_t> ClipIndex::keyAtOrBefore(std::int64_t frame) const {
    for (std::int64_t at = frame; at >= 0; --at) {
        if (isKey[static_cast<std::size_t>(at)]) {
            return at;
        }
    }
    return std::nullopt;
}

Result<ClipIndex> readClipIndex(const std::filesystem::path& file, std::stop_token stop) {
    BOOST_OUTCOME_TRY(clip, ClipFile::open(file, stop));
    BOOST_OUTCOME_TRY(scan, scanPackets(*clip));
    if (scan.stamps.empty()) {
        return fail(
            ErrorCode::Unreadable,
            aboutFile(
                file,
                scan.endedEarly.empty()
                    ? said(
                          "The video holds no readable frame. Copy the file from the camera again.")
                    : said("The video holds no readable frame ({}). Copy the file from the camera "
                           "again.",
                           saidKept(scan.endedEarly))));
    }
    const AVRational timeBase = clip->stream().time_base;
    ClipIndex index;
    index.facts = factsOf(*clip);
    index.stamps = {scan.stamps, Rational{timeBase.num, timeBase.den}};
    index.isKey = scan.isKey;
    const auto steps = analyseSteps(index.stamps);
    if (steps) {
        index.playbackRate = steps->rate;
    }
    index.warnings = stampWarnings(index.stamps, steps);
    if (!scan.hasStamps) {
        warnOfMissingStamps(index);
    }
    readCaptureRate(index);
    warnOfLostParts(scan, index);
    warnOfEarlyEnd(*clip, scan, index);
    return index;
}

}  // namespace core::media
