#pragma once

#include <condition_variable>
#include <cstdint>
#include <exception>
#include <functional>
#include <list>
#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>
#include <vector>

#include "core/base/result.h"
#include "core/base/scheduling.h"

/// Work in the background.
namespace core::jobs {

/// What begins first. Jobs of one priority begin in the order in which they were added.
enum class Priority {
    Looked,  ///< somebody waits for it with their eyes on its place
    Usual,
    Ahead  ///< for later
};

/// Whether a pause holds a job that has not begun.
enum class InPause {
    Runs,   ///< somebody waits for its result
    Waits,  ///< a piece of long work
};

using JobId = std::uint64_t;

/// A job as a list shows it.
struct JobView {
    JobId id{};
    std::string title;
    std::string step;   ///< in plain words ("clip 3 of 40")
    double fraction{};  ///< 0 to 1
    bool isRunning{};
};

/// What the work of a job sees: whether it should stop, and where it reports how far it is.
class Context {
public:
    [[nodiscard]] std::stop_token stopToken() const noexcept { return m_stop; }
    [[nodiscard]] bool isCancelled() const noexcept { return m_stop.stop_requested(); }
    /// fraction from 0 to 1; step in plain words. Cheap: only the newest counts.
    void report(double fraction, std::string step) const { m_sink(fraction, std::move(step)); }
    /// Called once the job is over and off the list: brings its result home.
    void then(std::function<void()> call) { m_then = std::move(call); }

private:
    friend class Pool;
    using Sink = std::function<void(double, std::string)>;
    Context(std::stop_token stop, Sink sink) : m_stop{std::move(stop)}, m_sink{std::move(sink)} {}
    std::stop_token m_stop;
    Sink m_sink;
    std::function<void()> m_then;
};

/// Threads that do jobs. Shared: every member may be called from any thread, also by a job.
///
/// A job waits, runs and is gone. A cancelled job that has not begun still runs, so that whoever
/// waits for it hears of it: its work looks at the stop token first. The destructor cancels all
/// jobs and joins after those that have begun; what has not begun is dropped.
class Pool {
public:
    using Work = std::function<void(Context&)>;

    struct Options {
        unsigned threads{0};  ///< 0: one for each processor, at least two
        /// One thread more, which takes only what is looked at: that waits for no long job.
        bool hasOneForLooked{false};
        std::optional<BackgroundWork> givesWay{};  ///< absent: threads compete with all others
        /// Told, on any thread, that the list of jobs or the progress of one is another.
        std::function<void()> changed{};
    };
    explicit Pool(Options options);
    ~Pool();
    Pool(const Pool&) = delete;
    Pool& operator=(const Pool&) = delete;

    /// The one of the program, for work inside a job or a command.
    [[nodiscard]] static Pool& ofProgram();

    /// What the work holds is let go on the thread that did it. The work must not throw:
    /// core::guarded().
    JobId add(std::string title, Priority priority, Work work, InPause inPause = InPause::Runs);
    void cancel(JobId job);
    void cancelAll();
    /// Begins no piece of long work until it goes on; what runs is finished, what is cancelled too.
    void pause(bool isPaused);
    [[nodiscard]] bool isPaused() const;
    /// Waiting and running jobs, oldest first.
    [[nodiscard]] std::vector<JobView> jobs() const;
    /// Jobs that may run at once, without the one that is looked at.
    [[nodiscard]] unsigned threads() const noexcept { return m_threadCount; }

private:
    struct Job;
    using Jobs = std::list<std::shared_ptr<Job>>;

    void work(const std::stop_token& stop, bool onlyLooked);
    [[nodiscard]] std::shared_ptr<Job> nextJob(bool onlyLooked) const;
    void run(const std::shared_ptr<Job>& job);
    void tell() const;

    const Options m_options;
    const unsigned m_threadCount;
    mutable std::mutex m_mutex;  // guards all below
    std::condition_variable_any m_wake;
    Jobs m_jobs;  ///< oldest first
    JobId m_lastId{0};
    bool m_isPaused{false};
    std::vector<std::jthread> m_threads;  // last: joined first
};

}  // namespace core::jobs
