#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "core/media/file/file_watch.h"
#include "core/media/frames/frame_cache.h"
#include "core/media/frames/frame_decoder.h"

namespace core::media {

/// A clip of the service.
struct ServedClip {
    ServedClip(std::filesystem::path path, ClipIndex frames)
        : file{std::move(path)}, index{std::move(frames)}, watch{file, index.fingerprint} {}

    FrameService::ClipId id{};
    std::filesystem::path file;
    ClipIndex index;
    FileWatch watch;                        ///< used by the worker alone, outside the lock
    std::unique_ptr<FrameDecoder> decoder;  ///< the same
    std::map<std::int64_t, Error> damaged;  ///< frames that cannot be had
    std::size_t bytesPerFrame{};            ///< largest so far; before the first a low guess
    bool cannotOpen{};                      ///< no work in the background until a request succeeds
};
using ServedClipPtr = std::shared_ptr<ServedClip>;

/// The newest request of a clip.
struct PendingRequest {
    std::uint64_t number{};  ///< grows with time
    std::int64_t frame{};
    FrameService::Direction direction{};
    FrameService::Callback callback;
};

/// A caller that waits in fetch().
struct WaitingFetch {
    FrameService::ClipId clip{};
    std::int64_t frame{};
    std::optional<Result<FramePtr>> result;
};

/// Frames asked for with prepare().
struct Stretch {
    FrameService::ClipId clip{};
    std::int64_t next{};  ///< frames before it are done
    std::int64_t first{};
    std::int64_t last{};
    FrameService::Callback onEach;
};

/// Where the reviewer is.
struct Place {
    FrameService::ClipId clip{};
    std::int64_t frame{};
    FrameService::Direction direction{};
    int stepsBack{};  ///< steps backward in a row that led here
};

/// One piece of work for the worker: frames first to last of a clip.
struct Task {
    ServedClipPtr clip;
    std::int64_t first{};  ///< moves on as frames come out
    std::int64_t last{};
    bool isUrgent{};   ///< somebody waits for frame `last`
    bool isStretch{};  ///< of prepare(): its first frame may be there already

    /// True when going on with the task is the quickest way to the frame.
    [[nodiscard]] bool leadsTo(FrameService::ClipId toClip, std::int64_t frame) const;
};

/// Everything the service has been asked for, and what to do next. Internal; the service's lock
/// guards it.
///
/// Order: the newest request, callers of fetch() by age, frames around the place (in the direction
/// of movement first), a little ahead of the last fetch, stretches in the order they were asked
/// for. Around the place as many frames are kept as four fifths of the bounds hold, two thirds
/// of them in the direction of movement.
///
/// Whoever runs backward needs each group of pictures from its end to its key frame, while it can
/// only be decoded from the key frame on. A group of which a gibibyte holds little more than half
/// (2160p at 120 frames per second) is then decoded in equal parts, from the key frame anew for
/// each, while the part decoded before is being looked at: nearly all of the bound goes to the
/// frames behind, and work begins when the next part fits.
struct FramePlan {
    explicit FramePlan(std::size_t maxBytes, std::size_t maxPictures = SIZE_MAX)
        : cache{maxBytes, maxPictures} {}

    FrameCache cache;
    std::map<FrameService::ClipId, ServedClipPtr> clips;
    std::map<FrameService::ClipId, PendingRequest> requests;
    std::deque<std::shared_ptr<WaitingFetch>> fetches;
    std::deque<Stretch> stretches;
    std::optional<Place> place;
    std::optional<Place> lastFetch;

    [[nodiscard]] ServedClipPtr clipOf(FrameService::ClipId id) const;
    [[nodiscard]] std::optional<Task> urgentTask() const;
    void moveTo(const Place& to);
    [[nodiscard]] std::optional<Task> nextTask();
    /// For the cache: pictures around the place stay longest, then those ahead of the last fetch,
    /// then stretches, then by last use. What the background work fetches must never let go of
    /// what it fetched before, or it would not end: the two windows are nine tenths of the bound.
    [[nodiscard]] double disposability(const FrameCache::Key& key, std::uint64_t lastUse) const;

private:
    struct Window {
        std::int64_t first{};
        std::int64_t last{};
        std::int64_t worthBehind{};  ///< missing frames behind that are worth moving the decoder
        std::int64_t worthAhead{};   ///< the same ahead
    };
    [[nodiscard]] bool isDone(const ServedClip& clip, std::int64_t frame) const;
    [[nodiscard]] std::optional<Window> windowOf(const Place& at) const;
    [[nodiscard]] std::optional<Window> fetchWindow() const;
    [[nodiscard]] double framesIn(double share, const ServedClip& clip) const;
    [[nodiscard]] std::optional<Task> taskAhead(const ServedClipPtr& clip, std::int64_t from,
                                                std::int64_t last) const;
    [[nodiscard]] std::optional<Task> taskBehind(const ServedClipPtr& clip, std::int64_t from,
                                                 std::int64_t first) const;
    [[nodiscard]] bool runsBackward(const Place& at) const;
    [[nodiscard]] double runShare() const;
    [[nodiscard]] std::optional<Task> partBehind(const ServedClipPtr& clip) const;
    [[nodiscard]] std::optional<Task> windowTask() const;
    [[nodiscard]] std::optional<Task> fetchAheadTask() const;
    [[nodiscard]] std::optional<Task> stretchTask();
};

}  // namespace core::media
