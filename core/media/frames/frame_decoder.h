#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <stop_token>

#include "core/media/file/clip_index.h"
#include "core/media/frames/frame.h"

namespace core::media {

/// Going on over this many frames costs no more than emptying and refilling a decoder.
inline constexpr std::int64_t kCheapToGoOn = 8;

/// Exact access to the frames of one clip. Confined: one thread at a time.
///
/// Frame i is the i-th in presentation order, the one whose stamp is index.stamps.ticks[i]. Seeks
/// to the key frame before it when that is cheaper than going on.
///
/// Every frame has the size that the index gives: one of another size is Damaged. A frame is also
/// Damaged when its own data or data it is predicted from cannot be decoded without
/// error; it is never replaced by a patched-up picture or by a neighbour. What cannot be noticed:
/// most codecs carry no checksum, and a few wrong bits in them may decode to some picture without
/// any error (FFV1, and HEVC with picture hashes, do carry one, and it is checked).
class FrameDecoder {
public:
    /// Takes each frame in turn; false ends the run.
    using Sink = std::function<bool(timebase::FrameIndex, Result<FramePtr>)>;

    /// threads = 0 lets the decoder choose. Errors: as readClipIndex.
    static Result<std::unique_ptr<FrameDecoder>> open(const std::filesystem::path& file,
                                                      ClipIndex index, int threads = 0);
    virtual ~FrameDecoder() = default;

    [[nodiscard]] virtual const ClipIndex& index() const noexcept = 0;
    /// Errors: OutOfRange; Damaged (this frame cannot be decoded, others may); Cancelled.
    virtual Result<FramePtr> decode(timebase::FrameIndex frame, std::stop_token stop = {}) = 0;
    /// Decodes [first, last] in presentation order, each packet once, and hands every frame, or why
    /// it cannot be had, to the sink: for working through a stretch or a group of pictures.
    /// Errors: OutOfRange; Cancelled.
    virtual Result<void> decodeRange(timebase::FrameIndex first, timebase::FrameIndex last,
                                     const Sink& sink, std::stop_token stop = {}) = 0;
    /// The frame from which decoding has to start to get the given one: the last key frame at or
    /// before it, else frame 0.
    [[nodiscard]] virtual timebase::FrameIndex keyBefore(timebase::FrameIndex frame) const = 0;
    /// True when the frame is reached by going on, without a new start from a key frame.
    [[nodiscard]] virtual bool goesOnTo(timebase::FrameIndex frame) const = 0;
};

}  // namespace core::media
