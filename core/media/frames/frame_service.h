#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <stop_token>

#include "core/jobs/memory_budget.h"
#include "core/media/file/clip_index.h"
#include "core/media/frames/frame.h"

namespace core::media {

/// Frames of many clips without waiting: a byte-bounded cache of decoded pictures that is filled
/// ahead of and behind the place where the reviewer is. Shared: every member may be called from any
/// thread.
///
/// It holds less when the memory budget leaves it less, and nobody asks it for anything for 45 s:
/// then the pictures nearest to the reviewer's place stay, and the rest goes back to the system.
///
/// One newest request per clip counts: an older one that has not begun is dropped and its callback
/// called with Cancelled, so dragging along a clip never queues up.
class FrameService {
public:
    struct Options {
        std::size_t maxBytes{std::size_t{1} << 30U};  ///< decoded pictures kept, all clips together
        int threadsPerDecoder{0};                     ///< 0: the decoder chooses
        /// Pictures kept at most, however small they are: two seconds at 240 a second.
        std::size_t maxPictures{480};
        /// Kept whatever others hold of the memory budget.
        std::size_t leastBytes{std::size_t{128} << 20U};
        std::chrono::milliseconds untilRest{45'000};
        std::size_t restBytes{std::size_t{192} << 20U};  ///< kept while it rests
        jobs::MemoryBudget* budget{&jobs::MemoryBudget::ofProgram()};
    };
    struct Counters {
        std::uint64_t hits{};
        std::uint64_t misses{};
        std::uint64_t decoded{};
        std::size_t bytesHeld{};
    };
    enum class Direction { Forward, Backward };
    using ClipId = std::uint64_t;  ///< given by openClip, unique within the service
    using Callback = std::function<void(timebase::FrameIndex, Result<FramePtr>)>;

    static std::unique_ptr<FrameService> create(Options options);
    /// Cancels everything and joins its threads; no callback runs afterwards.
    virtual ~FrameService() = default;

    /// Opens no file yet: the decoder is opened by the first request. The index may come from the
    /// project's cache. When the file is later found gone or replaced by one of another content,
    /// requests for frames that are not decoded yet end with NotFound or InvalidInput; with the
    /// right file back in its place they are answered again.
    virtual ClipId openClip(const std::filesystem::path& file, ClipIndex index) = 0;
    virtual void closeClip(ClipId clip) = 0;

    /// The picture if it is decoded already, else null. Never blocks on decoding.
    virtual FramePtr ready(ClipId clip, timebase::FrameIndex frame) = 0;
    /// The decoded picture nearest to frame, null when none is.
    virtual FramePtr nearestReady(ClipId clip, timebase::FrameIndex frame) = 0;
    /// Asks for a frame; the callback comes on a thread of the service, or at once on the caller's
    /// when the frame is ready. Moves the place around which pictures are prepared.
    virtual void request(ClipId clip, timebase::FrameIndex frame, Direction direction,
                         Callback callback) = 0;
    /// Decodes a stretch [first, last] when nothing more urgent waits (a shot that comes next).
    /// A later call for the same clip adds to it; forgetPrepared() drops what has not begun.
    virtual void prepare(ClipId clip, timebase::FrameIndex first, timebase::FrameIndex last,
                         Callback onEach = {}) = 0;
    virtual void forgetPrepared() = 0;
    /// Blocks until the frame is there (for batch work, not for the window).
    /// Errors: OutOfRange, Damaged, NotFound, InvalidInput (another file), Cancelled.
    virtual Result<FramePtr> fetch(ClipId clip, timebase::FrameIndex frame,
                                   std::stop_token stop = {}) = 0;
    [[nodiscard]] virtual Counters counters() const = 0;
};

}  // namespace core::media
