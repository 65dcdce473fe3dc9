#include "core/media/frames/frame_service.h"

#include <algorithm>
#include <utility>

#include "core/base/words.h"
#include "core/media/frames/libav_frame_service.h"

namespace core::media {

using timebase::FrameIndex;

namespace {

Error cancelledError() {
    return {ErrorCode::Cancelled, said("The frame is not wanted any more.")};
}

/// The memory of a picture of the most frugal usual format: 4:2:0 with 8 bits.
std::size_t leastBytesOf(const StreamFacts& facts) {
    const auto pixels = std::int64_t{facts.width} * facts.height;
    return static_cast<std::size_t>(std::max<std::int64_t>(0, pixels) * 3 / 2);
}

}  // namespace

LibavFrameService::~LibavFrameService() {
    {
        const std::scoped_lock lock{m_mutex};
        m_worker.request_stop();
        m_currentStop.request_stop();
    }
    m_news.notify_all();
    m_worker.join();
}

FrameService::ClipId LibavFrameService::openClip(const std::filesystem::path& file,
                                                 ClipIndex index) {
    auto clip = std::make_shared<ServedClip>(file, std::move(index));
    clip->bytesPerFrame = leastBytesOf(clip->index.facts);
    const std::scoped_lock lock{m_mutex};
    clip->id = ++m_lastClip;
    m_plan.clips.emplace(clip->id, clip);
    return clip->id;
}

/// Tells the worker that the plan has changed. Called under the lock.
void LibavFrameService::wakeWorker() {
    m_hasNews = true;
    m_isResting = false;
    m_news.notify_all();
}

/// Takes the clip's request out; an empty callback when there is none. Called under the lock.
FrameService::Callback LibavFrameService::dropRequest(ClipId clip, FrameIndex& frame) {
    const auto request = m_plan.requests.find(clip);
    if (request == m_plan.requests.end()) {
        return {};
    }
    frame = {request->second.frame};
    Callback callback = std::move(request->second.callback);
    m_plan.requests.erase(request);
    return callback;
}

void LibavFrameService::closeClip(ClipId clip) {
    Callback dropped;
    FrameIndex frame;
    {
        const std::scoped_lock lock{m_mutex};
        dropped = dropRequest(clip, frame);
        m_plan.clips.erase(clip);
        m_plan.cache.dropClip(clip);
        m_held.set(m_plan.cache.bytesHeld());
        std::erase_if(m_plan.stretches, [clip](const auto& one) { return one.clip == clip; });
        std::erase_if(m_plan.fetches, [clip](const auto& one) {
            if (one->clip == clip) {
                one->result.emplace(cancelledError());
            }
            return one->clip == clip;
        });
        if (m_current && m_current->clip->id == clip) {
            m_currentStop.request_stop();
        }
        m_fetched.notify_all();
        wakeWorker();
    }
    if (dropped) {
        dropped(frame, cancelledError());
    }
}

FramePtr LibavFrameService::ready(ClipId clip, FrameIndex frame) {
    const std::scoped_lock lock{m_mutex};
    return m_plan.cache.find({clip, frame.value});
}

FramePtr LibavFrameService::nearestReady(ClipId clip, FrameIndex frame) {
    const std::scoped_lock lock{m_mutex};
    return m_plan.cache.nearest({clip, frame.value});
}

/// The answer that needs no decoding. Called under the lock.
std::optional<Result<FramePtr>> LibavFrameService::known(ClipId clip, std::int64_t frame) {
    const ServedClipPtr served = m_plan.clipOf(clip);
    if (served == nullptr) {
        return Error{ErrorCode::NotFound, said("This clip is not open.")};
    }
    if (frame < 0 || frame >= served->index.frameCount()) {
        return Error{ErrorCode::OutOfRange,
                     said("{}: There is no frame {}; the clip has frames 0 to {}.",
                          served->file.string(), frame, served->index.frameCount() - 1)};
    }
    if (const auto damaged = served->damaged.find(frame); damaged != served->damaged.end()) {
        return damaged->second;
    }
    FramePtr picture = m_plan.cache.find({clip, frame});
    picture != nullptr ? ++m_counters.hits : ++m_counters.misses;
    if (picture == nullptr) {
        return std::nullopt;
    }
    return Result<FramePtr>{std::move(picture)};
}

/// Ends what the worker does unless it leads straight to the frame. Called under the lock.
void LibavFrameService::interruptUnlessLeadsTo(ClipId clip, std::int64_t frame) {
    if (m_current && !m_current->leadsTo(clip, frame)) {
        m_currentStop.request_stop();
    }
}

/// Called under the lock. Of frames that are not there the place stays where it is.
void LibavFrameService::moveTo(const Place& place) {
    const ServedClipPtr clip = m_plan.clipOf(place.clip);
    if (clip == nullptr || place.frame < 0 || place.frame >= clip->index.frameCount()) {
        return;
    }
    const bool turns = m_plan.place && (m_plan.place->clip != place.clip ||
                                        m_plan.place->direction != place.direction);
    m_plan.moveTo(place);
    if (turns && m_current && !m_current->isUrgent) {
        m_currentStop.request_stop();  // other frames come first now
    }
}

void LibavFrameService::request(ClipId clip, FrameIndex frame, Direction direction,
                                Callback callback) {
    Callback dropped;
    FrameIndex droppedFrame;
    std::optional<Result<FramePtr>> answer;
    {
        const std::scoped_lock lock{m_mutex};
        dropped = dropRequest(clip, droppedFrame);
        answer = known(clip, frame.value);
        moveTo({clip, frame.value, direction});
        if (!answer) {
            m_plan.requests[clip] = {++m_lastNumber, frame.value, direction, std::move(callback)};
            interruptUnlessLeadsTo(clip, frame.value);
        }
        wakeWorker();
    }
    if (dropped) {
        dropped(droppedFrame, cancelledError());
    }
    if (answer) {
        callback(frame, std::move(*answer));
    }
}

void LibavFrameService::prepare(ClipId clip, FrameIndex first, FrameIndex last, Callback onEach) {
    const std::scoped_lock lock{m_mutex};
    const ServedClipPtr served = m_plan.clipOf(clip);
    if (served == nullptr) {
        return;
    }
    const std::int64_t from = std::max<std::int64_t>(0, first.value);
    const std::int64_t to = std::min(served->index.frameCount() - 1, last.value);
    if (from <= to) {
        m_plan.stretches.push_back({clip, from, from, to, std::move(onEach)});
        wakeWorker();
    }
}

void LibavFrameService::forgetPrepared() {
    const std::scoped_lock lock{m_mutex};
    m_plan.stretches.clear();
}

Result<FramePtr> LibavFrameService::fetch(ClipId clip, FrameIndex frame, std::stop_token stop) {
    CORE_EXPECTS(std::this_thread::get_id() != m_worker.get_id());
    std::unique_lock lock{m_mutex};
    m_plan.lastFetch = Place{clip, frame.value, Direction::Forward};
    wakeWorker();
    if (auto answer = known(clip, frame.value)) {
        return std::move(*answer);
    }
    const auto waiting = std::make_shared<WaitingFetch>(WaitingFetch{clip, frame.value, {}});
    m_plan.fetches.push_back(waiting);
    if (m_current && !m_current->isUrgent && !m_current->leadsTo(clip, frame.value)) {
        m_currentStop.request_stop();
    }
    if (!m_fetched.wait(lock, std::move(stop), [&] { return waiting->result.has_value(); })) {
        std::erase(m_plan.fetches, waiting);
        return cancelledError();
    }
    return std::move(*waiting->result);
}

FrameService::Counters LibavFrameService::counters() const {
    const std::scoped_lock lock{m_mutex};
    Counters counters = m_counters;
    counters.bytesHeld = m_plan.cache.bytesHeld();
    return counters;
}

std::unique_ptr<FrameService> FrameService::create(Options options) {
    return std::make_unique<LibavFrameService>(options);
}

}  // namespace core::media
