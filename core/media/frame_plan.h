#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "core/media/frame_cache.h"
#include "core/media/frame_decoder.h"

namespace core::media {

/// A clip of the service.
struct ServedClip {
    FrameService::ClipId id{};
    std::filesystem::path file;
    ClipIndex index;
    std::unique_ptr<FrameDecoder> decoder;  ///< used by the worker alone, outside the lock
    std::map<std::int64_t, Error> damaged;  ///< frames that cannot be had
    std::size_t bytesPerFrame{};            ///< largest so far; 0 before the first
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
};

/// One piece of work for the worker: frames first to last of a clip.
struct Task {
    ServedClipPtr clip;
    std::int64_t first{};
    std::int64_t last{};
    bool isUrgent{};   ///< somebody waits for frame `last`
    bool isStretch{};  ///< of prepare(): its first frame may be there already
};

/// Everything the service has been asked for, and what to do next. Internal; the service's lock
/// guards it.
///
/// Order: the newest request, callers of fetch() by age, frames around the place (in the direction
/// of movement first), a little ahead of the last fetch, stretches in the order they were asked
/// for. Around the place as many frames are kept as four fifths of the byte bound hold, two thirds
/// of them in the direction of movement.
struct FramePlan {
    explicit FramePlan(std::size_t maxBytes) : cache{maxBytes} {}

    FrameCache cache;
    std::map<FrameService::ClipId, ServedClipPtr> clips;
    std::map<FrameService::ClipId, PendingRequest> requests;
    std::deque<std::shared_ptr<WaitingFetch>> fetches;
    std::deque<Stretch> stretches;
    std::optional<Place> place;
    std::optional<Place> lastFetch;

    [[nodiscard]] ServedClipPtr clipOf(FrameService::ClipId id) const;
    [[nodiscard]] bool hasUrgent() const { return !requests.empty() || !fetches.empty(); }
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
    [[nodiscard]] std::optional<Task> urgentTask() const;
    [[nodiscard]] std::optional<Task> taskAhead(const ServedClipPtr& clip, std::int64_t from,
                                                std::int64_t last) const;
    [[nodiscard]] std::optional<Task> taskBehind(const ServedClipPtr& clip, std::int64_t from,
                                                 std::int64_t first) const;
    [[nodiscard]] std::optional<Task> windowTask() const;
    [[nodiscard]] std::optional<Task> fetchAheadTask() const;
    [[nodiscard]] std::optional<Task> stretchTask();
};

}  // namespace core::media
