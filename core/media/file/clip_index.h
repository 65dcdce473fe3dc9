#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/timebase/frame_time.h"

namespace core::media {

/// What the container and the video stream say of themselves. Immutable value.
struct StreamFacts {
    std::string container;  ///< FFmpeg's short name of the format, for example "mov,mp4,m4a,…"
    std::string codec;      ///< FFmpeg's short name, for example "h264"
    std::string pixelFormat;
    int width{};  ///< as shown: after rotation, in square pixels of the stored picture
    int height{};
    /// Clockwise turn applied for showing: 0, 90, 180 or 270. As the file says; a decoder obeys what
    /// stands here, with width and height that fit it.
    int rotationDegrees{};
    int bitsPerComponent{};
    bool hasSound{};
    /// Tags of the container and of the video stream by lower-case key.
    std::map<std::string, std::string> tags;
};

/// Something a reviewer should know about the clip, in plain words, with the frame it begins at.
struct ClipWarning {
    enum class Kind {
        Gap,               ///< time stamps leave a hole: frames dropped
        RepeatedStamp,     ///< two frames with one time stamp
        BackwardStamp,     ///< time stamps that go backwards
        RepeatedPicture,   ///< an editor's duplicate
        Truncated,         ///< the file ends early
        Damaged,           ///< a stretch that cannot be decoded
        SlowMotionLikely,  ///< plays far slower than phones capture; no tag says so
        CoarseStamps,      ///< the time base does not resolve the frames
    };
    Kind kind;
    std::optional<timebase::FrameIndex> frame;
    std::string message;
};

/// A statement in the file about the capture rate: which tag, and what it says.
struct TaggedCaptureRate {
    std::string tag;  ///< for example "com.android.capture.fps"
    timebase::CaptureRate rate;
};

/// The frames of a clip, known without decoding. Immutable value.
struct ClipIndex {
    StreamFacts facts;
    timebase::FrameStamps stamps;  ///< in presentation order
    std::vector<bool> isKey;       ///< one a frame, presentation order
    /// From the median frame interval (not from an average that counts the last sample's own
    /// duration); absent for a clip of one frame.
    std::optional<timebase::PlaybackRate> playbackRate;
    std::vector<TaggedCaptureRate> taggedRates;
    std::vector<ClipWarning> warnings;
    /// Of the file that the index was read from, where it is known (readClipIndex leaves it empty):
    /// frames are then given from a file of this content only.
    std::string fingerprint;

    [[nodiscard]] std::int64_t frameCount() const noexcept {
        return static_cast<std::int64_t>(stamps.ticks.size());
    }
    /// The last key frame at or before a frame; absent when there is none (a clip cut out of a
    /// longer one may begin between two key frames) or the frame is negative.
    [[nodiscard]] std::optional<std::int64_t> keyAtOrBefore(std::int64_t frame) const;
};

/// Reads the index by demultiplexing only, edit lists applied, so that frames and stamps equal what
/// `ffprobe -show_entries frame=pts` reports. Cost: one pass over the file's packets.
///
/// A file that ends early gives the readable part and a Truncated warning.
/// Errors: NotFound; Unreadable (not a video, no video stream, empty file) with file and reason;
/// Unsupported (no decoder); Cancelled.
Result<ClipIndex> readClipIndex(const std::filesystem::path& file, std::stop_token stop = {});

/// Content fingerprint: SHA-256 over the file's size (64 bits, little-endian) and its first, middle
/// and last mebibyte (the whole file three times when it is shorter), in lower-case hexadecimal.
/// Fast on large files, and the same wherever the file lies.
/// Errors: NotFound, Unreadable.
Result<std::string> fingerprint(const std::filesystem::path& file);

}  // namespace core::media
