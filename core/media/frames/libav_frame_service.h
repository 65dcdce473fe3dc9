#pragma once

#include <condition_variable>
#include <functional>
#include <list>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "core/media/frames/frame_plan.h"

namespace core::media {

/// FrameService with one worker thread. Internal; Shared: the lock guards all but the decoders and
/// the list of clips that have one, which are the worker's own. Callbacks run without the lock.
class LibavFrameService final : public FrameService {
public:
    explicit LibavFrameService(Options options)
        : m_options{options},
          m_plan{options.maxBytes, options.maxPictures},
          m_held{*options.budget, jobs::MemoryUse::Pictures},
          m_worker{[this](const std::stop_token& stop) { work(stop); }} {}
    LibavFrameService(const LibavFrameService&) = delete;
    LibavFrameService& operator=(const LibavFrameService&) = delete;
    ~LibavFrameService() override;

    ClipId openClip(const std::filesystem::path& file, ClipIndex index) override;
    void closeClip(ClipId clip) override;
    FramePtr ready(ClipId clip, timebase::FrameIndex frame) override;
    FramePtr nearestReady(ClipId clip, timebase::FrameIndex frame) override;
    void request(ClipId clip, timebase::FrameIndex frame, Direction direction,
                 Callback callback) override;
    void prepare(ClipId clip, timebase::FrameIndex first, timebase::FrameIndex last,
                 Callback onEach) override;
    void forgetPrepared() override;
    Result<FramePtr> fetch(ClipId clip, timebase::FrameIndex frame, std::stop_token stop) override;
    [[nodiscard]] Counters counters() const override;

private:
    /// Callbacks to be called once the lock is released.
    using Calls = std::vector<std::function<void()>>;

    void work(const std::stop_token& stop);
    void perform(const Task& task, const std::stop_token& stop);
    bool answerFromCache(const Task& task);
    Result<FrameDecoder*> decoderOf(const ServedClipPtr& clip);
    bool take(const Task& task, std::int64_t frame, const Result<FramePtr>& result);
    void keep(ServedClip& clip, std::int64_t frame, const Result<FramePtr>& result);
    void giveUp(const Task& task, const Error& error);
    void answer(ClipId clip, std::int64_t frame, const Result<FramePtr>& result, Calls& calls);
    std::list<ServedClipPtr> closedClips();
    void wakeWorker();
    void boundCache();
    void rest(std::unique_lock<std::mutex>& lock);
    void moveTo(const Place& place);
    void interruptUnlessLeadsTo(ClipId clip, std::int64_t frame);
    Callback dropRequest(ClipId clip, timebase::FrameIndex& frame);
    std::optional<Result<FramePtr>> known(ClipId clip, std::int64_t frame);

    const Options m_options;
    mutable std::mutex m_mutex;
    std::condition_variable_any m_news;  // the plan has changed
    bool m_hasNews{};
    bool m_isResting{};
    std::condition_variable_any m_fetched;
    FramePlan m_plan;
    jobs::MemoryBudget::Holding m_held;
    Counters m_counters;
    std::uint64_t m_lastNumber{};
    ClipId m_lastClip{};
    std::optional<Task> m_current;
    std::stop_source m_currentStop;
    std::list<ServedClipPtr> m_withDecoder;  // the worker's own, latest use in front
    std::jthread m_worker;                   // last: ends before what it uses
};

}  // namespace core::media
