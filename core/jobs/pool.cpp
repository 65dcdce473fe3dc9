#include "core/jobs/pool.h"

#include <algorithm>
#include <chrono>
#include <new>

#include "core/jobs/memory_budget.h"

namespace core::jobs {
namespace {

constexpr std::chrono::seconds kRest{5};  // without a job, after which batches give memory back

}  // namespace

struct Pool::Job {
    JobId id{};
    std::string title;
    Priority priority{};
    InPause inPause{};
    Work work;
    std::stop_source stop;
    std::string step;  // guarded by the pool's mutex, as the two below
    double fraction{};
    bool isRunning{false};
};

Pool::Pool(Options options)
    : m_options{std::move(options)},
      m_threadCount{m_options.threads > 0 ? m_options.threads
                                          : std::max(2U, std::thread::hardware_concurrency())} {
    const unsigned all = m_threadCount + (m_options.hasOneForLooked ? 1 : 0);
    for (unsigned i = 0; i < all; ++i) {
        m_threads.emplace_back([this, onlyLooked = i >= m_threadCount](
                                   const std::stop_token& stop) { work(stop, onlyLooked); });
    }
}

Pool::~Pool() {
    cancelAll();
    for (std::jthread& thread : m_threads) {
        thread.request_stop();
    }
    m_threads.clear();
}

Pool& Pool::ofProgram() {
    static Pool pool{{}};
    return pool;
}

JobId Pool::add(std::string title, Priority priority, Work work, InPause inPause) {
    auto job = std::make_shared<Job>();
    job->title = std::move(title);
    job->priority = priority;
    job->inPause = inPause;
    job->work = std::move(work);
    JobId id{};
    {
        const std::lock_guard lock{m_mutex};
        id = job->id = ++m_lastId;
        m_jobs.push_back(std::move(job));
    }
    m_wake.notify_all();
    tell();
    return id;
}

void Pool::cancel(JobId id) {
    {
        const std::lock_guard lock{m_mutex};
        for (const auto& job : m_jobs) {
            if (job->id == id) {
                job->stop.request_stop();
            }
        }
    }
    m_wake.notify_all();  // a pause does not hold it any longer
}

void Pool::cancelAll() {
    {
        const std::lock_guard lock{m_mutex};
        for (const auto& job : m_jobs) {
            job->stop.request_stop();
        }
    }
    m_wake.notify_all();
}

void Pool::pause(bool isPaused) {
    {
        const std::lock_guard lock{m_mutex};
        m_isPaused = isPaused;
    }
    m_wake.notify_all();
    tell();
}

bool Pool::isPaused() const {
    const std::lock_guard lock{m_mutex};
    return m_isPaused;
}

std::vector<JobView> Pool::jobs() const {
    const std::lock_guard lock{m_mutex};
    std::vector<JobView> views;
    for (const auto& job : m_jobs) {
        views.push_back({job->id, job->title, job->step, job->fraction, job->isRunning});
    }
    return views;
}

/// Called under the lock.
std::shared_ptr<Pool::Job> Pool::nextJob(bool onlyLooked) const {
    std::shared_ptr<Job> next;
    for (const auto& job : m_jobs) {
        const bool isHeld =
            m_isPaused && job->inPause == InPause::Waits && !job->stop.stop_requested();
        if (!job->isRunning && !isHeld && (!onlyLooked || job->priority == Priority::Looked) &&
            (next == nullptr || job->priority < next->priority)) {
            next = job;
        }
    }
    return next;
}

void Pool::work(const std::stop_token& stop, bool onlyLooked) {
    if (m_options.givesWay) {
        giveWay(*m_options.givesWay);  // and the threads that the jobs start
    }
    for (bool mayRest = false;;) {
        std::shared_ptr<Job> job;
        {
            std::unique_lock lock{m_mutex};
            const auto hasJob = [&] { return (job = nextJob(onlyLooked)) != nullptr; };
            if (mayRest && !m_wake.wait_for(lock, stop, kRest, hasJob)) {
                mayRest = false;
                const bool isResting = m_jobs.empty() && !stop.stop_requested();
                lock.unlock();
                if (isResting) {
                    giveBackMemory();
                }
                continue;
            }
            if (!mayRest) {
                m_wake.wait(lock, stop, hasJob);
            }
            if (stop.stop_requested()) {
                return;
            }
            job->isRunning = true;
        }
        run(job);
        const std::lock_guard lock{m_mutex};
        mayRest = m_jobs.empty() && m_options.givesWay == BackgroundWork::Batch;
    }
}

void Pool::run(const std::shared_ptr<Job>& job) {
    tell();
    Context context{job->stop.get_token(), [this, &job](double fraction, std::string step) {
                        {
                            const std::lock_guard lock{m_mutex};
                            job->fraction = std::clamp(fraction, 0.0, 1.0);
                            job->step = std::move(step);
                        }
                        tell();
                    }};
    job->work(context);
    job->work = nullptr;  // what it held may be large
    {
        const std::lock_guard lock{m_mutex};
        m_jobs.remove(job);
    }
    tell();
    if (context.m_then) {
        context.m_then();
    }
}

void Pool::tell() const {
    if (m_options.changed) {
        m_options.changed();
    }
}

}  // namespace core::jobs
