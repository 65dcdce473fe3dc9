#include <algorithm>
#include <iterator>
#include <utility>

#include "core/base/guarded.h"
#include "core/base/scheduling.h"
#include "core/media/frames/libav_frame_service.h"

namespace core::media {

using timebase::FrameIndex;

namespace {

/// Open decoders kept; each holds threads and pictures of its own.
constexpr std::size_t kMostDecoders = 4;
/// A target this far behind its key frame takes a while: the key frame is shown meanwhile.
constexpr std::int64_t kFarFromKey = 8;

}  // namespace

/// Clips that were closed and whose decoders can be let go. Called under the lock.
std::list<ServedClipPtr> LibavFrameService::closedClips() {
    std::list<ServedClipPtr> closed;
    for (auto at = m_withDecoder.begin(); at != m_withDecoder.end();) {
        const auto next = std::next(at);
        if (!m_plan.clips.contains((*at)->id)) {
            closed.splice(closed.end(), m_withDecoder, at);
        }
        at = next;
    }
    return closed;
}

/// What the cache may hold now. Called under the lock, between two tasks: within one it stays.
void LibavFrameService::boundCache() {
    const std::size_t most =
        m_isResting ? std::min(m_options.restBytes, m_options.maxBytes) : m_options.maxBytes;
    m_plan.cache.setMaxBytes(
        std::min(most, std::max(m_options.leastBytes, m_held.allowedBytes())),
        [this](const auto& key, auto lastUse) { return m_plan.disposability(key, lastUse); });
    m_held.set(m_plan.cache.bytesHeld());
}

/// Nobody has asked for anything for a while. Decoders keep the memory of the pictures that came
/// from them, so they are closed after the pictures have gone. Called under the lock.
void LibavFrameService::rest(std::unique_lock<std::mutex>& lock) {
    m_isResting = true;
    boundCache();
    const std::list<ServedClipPtr> open = std::exchange(m_withDecoder, {});
    lock.unlock();
    for (const ServedClipPtr& clip : open) {
        clip->decoder.reset();
    }
    jobs::giveBackMemory();
    lock.lock();
}

void LibavFrameService::work(const std::stop_token& stop) {
    giveWay(BackgroundWork::Pictures);  // and the decoder's own threads
    std::unique_lock lock{m_mutex};
    while (!stop.stop_requested()) {
        std::list<ServedClipPtr> closed = closedClips();
        m_hasNews = false;
        boundCache();
        m_current = m_isResting ? std::nullopt : m_plan.nextTask();
        if (!m_current && closed.empty()) {
            const auto hasNews = [this] { return m_hasNews; };
            if (m_isResting) {
                m_news.wait(lock, stop, hasNews);
            } else if (!m_news.wait_for(lock, stop, m_options.untilRest, hasNews) &&
                       !stop.stop_requested()) {
                rest(lock);
            }
            continue;
        }
        m_currentStop = std::stop_source{};
        const std::optional<Task> task = m_current;
        const std::stop_token taskStop = m_currentStop.get_token();
        lock.unlock();
        closed.clear();  // closing a decoder takes a while
        if (task) {
            const auto done = guarded([&]() -> Result<void> {
                perform(*task, taskStop);
                return ok();
            });
            if (!done) {
                giveUp(*task, done.error());
            }
        }
        lock.lock();
        m_current.reset();
    }
}

Result<FrameDecoder*> LibavFrameService::decoderOf(const ServedClipPtr& clip) {
    BOOST_OUTCOME_TRY(mustOpen, clip->watch.check());
    if (mustOpen || clip->decoder == nullptr) {
        BOOST_OUTCOME_TRY(decoder,
                          FrameDecoder::open(clip->file, clip->index, m_options.threadsPerDecoder));
        clip->decoder = std::move(decoder);
    }
    m_withDecoder.remove(clip);
    m_withDecoder.push_front(clip);
    if (m_withDecoder.size() > kMostDecoders) {
        m_withDecoder.back()->decoder.reset();
        m_withDecoder.pop_back();
    }
    return clip->decoder.get();
}

void LibavFrameService::perform(const Task& task, const std::stop_token& stop) {
    if (answerFromCache(task)) {
        return;
    }
    auto decoder = decoderOf(task.clip);
    if (decoder.has_error()) {
        giveUp(task, decoder.error());
        return;
    }
    const auto sink = [&](FrameIndex frame, const Result<FramePtr>& result) {
        if (!task.clip->watch.isUntouched()) {
            return false;  // the next attempt finds out what has happened
        }
        {
            const std::scoped_lock lock{m_mutex};
            m_counters.decoded += result.has_value() ? 1U : 0U;
        }
        return take(task, frame.value, result) && !stop.stop_requested();
    };
    // A cancelled range is no failure: what is still wanted comes back as the next task.
    const std::int64_t key = task.clip->index.keyAtOrBefore(task.first).value_or(task.first);
    if (task.isUrgent && task.first - key > kFarFromKey &&
        !decoder.value()->goesOnTo({task.first})) {
        static_cast<void>(decoder.value()->decodeRange({key}, {key}, sink, stop));
    }
    static_cast<void>(decoder.value()->decodeRange({task.first}, {task.last}, sink, stop));
}

/// True when the task is a stretch whose first frame is there already and has been handed on.
bool LibavFrameService::answerFromCache(const Task& task) {
    if (!task.isStretch) {
        return false;
    }
    FramePtr picture = ready(task.clip->id, {task.first});
    if (picture == nullptr) {
        return false;
    }
    take(task, task.first, Result<FramePtr>{std::move(picture)});
    return true;
}

/// Called under the lock.
void LibavFrameService::keep(ServedClip& clip, std::int64_t frame, const Result<FramePtr>& result) {
    if (result.has_error()) {
        if (result.error().code == ErrorCode::Damaged) {
            clip.damaged.try_emplace(frame, result.error());
        } else {
            clip.cannotOpen = true;  // or the background work would try again and again
        }
        return;
    }
    clip.cannotOpen = false;
    clip.bytesPerFrame = std::max(clip.bytesPerFrame, result.value()->bytesHeld());
    m_plan.cache.insert({clip.id, frame}, result.value(), [this](const auto& key, auto lastUse) {
        return m_plan.disposability(key, lastUse);
    });
    m_held.set(m_plan.cache.bytesHeld());
}

/// A frame has come, or why it cannot. False when the task should end.
bool LibavFrameService::take(const Task& task, std::int64_t frame, const Result<FramePtr>& result) {
    Calls calls;
    bool goesOn = false;
    {
        const std::scoped_lock lock{m_mutex};
        if (!m_plan.clips.contains(task.clip->id)) {
            return false;
        }
        keep(*task.clip, frame, result);
        answer(task.clip->id, frame, result, calls);
        m_current->first = std::max(m_current->first, frame + 1);
        const auto urgent = m_plan.urgentTask();
        goesOn = task.isUrgent || !urgent || m_current->leadsTo(urgent->clip->id, urgent->last);
    }
    for (const auto& call : calls) {
        call();
    }
    return goesOn;
}

/// Finds out who waits for the frame. Called under the lock.
void LibavFrameService::answer(ClipId clip, std::int64_t frame, const Result<FramePtr>& result,
                               Calls& calls) {
    const auto addCall = [&](Callback callback) {
        calls.emplace_back([callback = std::move(callback), frame, result] {
            callback(FrameIndex{frame}, result);
        });
    };
    const auto request = m_plan.requests.find(clip);
    if (request != m_plan.requests.end() && request->second.frame == frame) {
        addCall(std::move(request->second.callback));
        m_plan.requests.erase(request);
    }
    std::erase_if(m_plan.fetches, [&](const auto& one) {
        const bool isThis = one->clip == clip && one->frame == frame;
        if (isThis) {
            one->result.emplace(result);
        }
        return isThis;
    });
    m_fetched.notify_all();
    for (Stretch& stretch : m_plan.stretches) {
        if (stretch.clip == clip && stretch.next == frame && frame <= stretch.last) {
            ++stretch.next;
            if (stretch.onEach) {
                addCall(stretch.onEach);
            }
        }
    }
}

/// The clip's file cannot be opened: everybody who waits for a frame of it is told.
void LibavFrameService::giveUp(const Task& task, const Error& error) {
    Callback refused;
    FrameIndex frame;
    {
        const std::scoped_lock lock{m_mutex};
        const ClipId clip = task.clip->id;
        task.clip->cannotOpen = true;
        refused = dropRequest(clip, frame);
        std::erase_if(m_plan.fetches, [&](const auto& one) {
            if (one->clip == clip) {
                one->result.emplace(error);
            }
            return one->clip == clip;
        });
        m_fetched.notify_all();
    }
    if (refused) {
        refused(frame, error);
    }
}

}  // namespace core::media
