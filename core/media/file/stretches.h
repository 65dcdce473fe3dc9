#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <stop_token>
#include <vector>

#include "core/media/file/clip_index.h"

struct AVCodecParameters;
struct AVPacket;

namespace core::media {

/// Bytes [begin, end) of a file.
struct ByteRange {
    std::int64_t begin{};
    std::int64_t end{};
    bool operator==(const ByteRange&) const = default;
};

/// Frames of a clip; both belong to it.
struct FrameStretch {
    timebase::FrameIndex first;
    timebase::FrameIndex last;
};

/// The bytes of a clip's file from which the frames of the stretches decode to the same pictures,
/// sorted and apart from each other. A copy of the file that has zeros for all other bytes has the
/// same frames, stamps and fingerprint; each frame outside of the stretches is refused by the
/// decoder as Damaged. With the stretches come some frames on either side, the frames from the key
/// frame on, the first frames of the clip, everything that is no picture or sound, and the
/// mebibytes that the fingerprint looks at.
///
/// Absent where that cannot be had: outside of MP4 and QuickTime (ISO/IEC 14496-12), whose tables
/// say where each picture lies, for other codecs than H.264 and HEVC, and where stamps do not tell
/// the frames apart. Cost: one pass over the file's packets. Errors: as readClipIndex; OutOfRange
/// for a stretch outside the clip.
Result<std::optional<std::vector<ByteRange>>> bytesOfStretches(
    const std::filesystem::path& file, const ClipIndex& index,
    std::span<const FrameStretch> stretches, std::stop_token stop = {});

/// Codecs of which no picture is zeros alone: H.264 and HEVC, whose units begin with their length.
/// In others zeros may be a picture, or have not been tried.
[[nodiscard]] bool canBeLeftOut(const AVCodecParameters& pictures) noexcept;
/// Whether the file has no picture where a packet of such a codec should be: zeros alone.
[[nodiscard]] bool isLeftOut(const AVPacket& packet) noexcept;

}  // namespace core::media
