#include "ui/bridge/job_runner.h"

#include <algorithm>
#include <utility>

#include "core/base/scheduling.h"

namespace ui::bridge {

struct JobRunner::Job {
    JobId id{};
    QString title;
    Run run;
    std::stop_source stop;
    QString step;  // guarded by the runner's mutex, as the two below
    double fraction{};
    bool isRunning{false};
};

void JobContext::report(double fraction, const QString& step) {
    m_sink(std::clamp(fraction, 0.0, 1.0), step);
}

JobRunner::JobRunner(int maxParallel, QObject* parent) : QObject{parent} {
    for (int k = 0; k < std::max(1, maxParallel); ++k) {
        m_threads.emplace_back([this](const std::stop_token& stop) { runJobs(stop); });
    }
}

JobRunner::~JobRunner() {
    cancelAll();
    for (std::jthread& thread : m_threads) {
        thread.request_stop();
    }
    m_threads.clear();
}

JobRunner::JobId JobRunner::enqueue(const QString& title, Run run) {
    auto job = std::make_shared<Job>();
    job->id = ++m_lastId;
    job->title = title;
    job->run = std::move(run);
    m_jobs.append(job);
    {
        const std::lock_guard lock{m_mutex};
        m_waiting.push_back(job);
    }
    m_wake.notify_one();
    Q_EMIT changed();
    return job->id;
}

void JobRunner::cancel(JobId id) {
    for (const auto& job : std::as_const(m_jobs)) {
        if (job->id == id) {
            job->stop.request_stop();
        }
    }
}

void JobRunner::cancelAll() {
    for (const auto& job : std::as_const(m_jobs)) {
        job->stop.request_stop();
    }
}

QList<JobRunner::JobView> JobRunner::jobs() const {
    const std::lock_guard lock{m_mutex};
    QList<JobView> views;
    for (const auto& job : m_jobs) {
        views.append({job->id, job->title, job->step, job->fraction, job->isRunning});
    }
    return views;
}

void JobRunner::runJobs(const std::stop_token& stop) {
    core::giveWay(core::BackgroundWork::Batch);  // and the threads that the jobs start
    for (;;) {
        std::shared_ptr<Job> job;
        {
            std::unique_lock lock{m_mutex};
            m_wake.wait(lock, stop, [this] { return !m_waiting.empty(); });
            if (stop.stop_requested()) {
                return;
            }
            job = std::move(m_waiting.front());
            m_waiting.pop_front();
            job->isRunning = true;
        }
        runOne(job);
    }
}

void JobRunner::runOne(const std::shared_ptr<Job>& job) {
    announceProgress();
    JobContext context{job->stop.get_token(), [this, job](double fraction, const QString& step) {
                           {
                               const std::lock_guard lock{m_mutex};
                               job->fraction = fraction;
                               job->step = step;
                           }
                           announceProgress();
                       }};
    auto atHome = job->run(context);
    job->run = nullptr;  // what it held may be large and is let go here, not in the window's thread
    QMetaObject::invokeMethod(
        this,
        [this, job, atHome = std::move(atHome)] {
            m_jobs.removeAll(job);
            Q_EMIT changed();
            atHome();
        },
        Qt::QueuedConnection);
}

void JobRunner::announceProgress() {
    {
        const std::lock_guard lock{m_mutex};
        if (std::exchange(m_isAnnounced, true)) {
            return;
        }
    }
    QMetaObject::invokeMethod(
        this,
        [this] {
            {
                const std::lock_guard lock{m_mutex};
                m_isAnnounced = false;
            }
            Q_EMIT changed();
        },
        Qt::QueuedConnection);
}

}  // namespace ui::bridge
