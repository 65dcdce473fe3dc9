#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <future>
#include <mutex>

#include "core/intake/take_in.h"

/// Taking in without an event loop.
namespace core::intake {
namespace {

/// Jobs on threads of their own; they come home in the order in which they were given.
class JobsAway {
public:
    explicit JobsAway(unsigned threads) : m_threads{std::max(1U, threads)} {}

    [[nodiscard]] bool isEmpty() const noexcept { return m_jobs.empty(); }
    [[nodiscard]] bool hasRoom() const {
        const std::lock_guard lock{m_mutex};
        return m_jobs.size() - m_ended < m_threads && m_jobs.size() < TakeIn::kMostAway;
    }
    void give(TakeIn::Job job, const std::stop_token& stop) {
        std::packaged_task<TakeIn::AtHome()> task{
            [work = std::move(job.work), stop] { return work(stop); }};
        auto atHome = task.get_future();
        auto thread = std::async(std::launch::async, [this, task = std::move(task)]() mutable {
            task();
            const std::lock_guard lock{m_mutex};
            ++m_ended;
            m_oneEnded.notify_one();
        });
        m_jobs.push_back({std::move(atHome), std::move(thread)});
    }
    /// Blocks until more than so many have ended that were not taken.
    void waitForMoreThan(std::size_t ended) {
        std::unique_lock lock{m_mutex};
        m_oneEnded.wait(lock, [&] { return m_ended > ended; });
    }
    [[nodiscard]] std::size_t ended() const {
        const std::lock_guard lock{m_mutex};
        return m_ended;
    }
    /// The first one's result if it has ended.
    std::optional<TakeIn::AtHome> takeFirst() {
        using std::chrono::seconds;
        if (m_jobs.empty() ||
            m_jobs.front().atHome.wait_for(seconds{0}) != std::future_status::ready) {
            return std::nullopt;
        }
        Away first = std::move(m_jobs.front());
        m_jobs.pop_front();
        first.thread.wait();
        const std::lock_guard lock{m_mutex};
        --m_ended;
        return first.atHome.get();
    }

private:
    struct Away {
        std::future<TakeIn::AtHome> atHome;
        std::future<void> thread;
    };
    std::size_t m_threads;
    mutable std::mutex m_mutex;
    std::condition_variable m_oneEnded;
    std::size_t m_ended{};  ///< and not taken
    std::deque<Away> m_jobs;
};

}  // namespace

TakeInReport takeIn(TakeIn& work, unsigned threads, std::stop_token stop,
                    const std::function<void(const TakeInProgress&)>& told) {
    JobsAway away{threads};
    for (;;) {
        if (stop.stop_requested()) {
            work.cancel();
        }
        while (away.hasRoom()) {
            auto job = work.next();
            if (!job) {
                break;
            }
            away.give(std::move(*job), stop);
        }
        if (away.isEmpty()) {
            return work.report();
        }
        const std::size_t ended = away.ended();
        if (const auto atHome = away.takeFirst()) {
            (*atHome)();
            if (told) {
                told(work.progress());
            }
        } else {
            away.waitForMoreThan(ended);
        }
    }
}

}  // namespace core::intake
