#pragma once

#include <QList>
#include <QObject>
#include <QPointer>
#include <QString>
#include <condition_variable>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <stop_token>
#include <thread>
#include <vector>

#include "core/base/result.h"

namespace ui::bridge {

class JobRunner;

/// What the work of a job sees: whether it should stop, and where it reports how far it is.
class JobContext {
public:
    [[nodiscard]] std::stop_token stopToken() const noexcept { return m_stop; }
    /// fraction from 0 to 1; step in plain words ("clip 3 of 40"). Cheap: only the newest counts.
    void report(double fraction, const QString& step);

private:
    friend class JobRunner;
    JobContext(std::stop_token stop, std::function<void(double, const QString&)> sink)
        : m_stop{std::move(stop)}, m_sink{std::move(sink)} {}
    std::stop_token m_stop;
    std::function<void(double, const QString&)> m_sink;
};

/// Runs everything slow: with progress, cancel, and the result brought home by a queued call.
/// Confined to the thread it lives in. Jobs start in the order in which they were added, at most
/// maxParallel at a time. The destructor cancels all jobs and joins; no result arrives afterwards.
class JobRunner : public QObject {
    Q_OBJECT

public:
    using JobId = quint64;

    struct JobView {
        JobId id{};
        QString title;
        QString step;
        double fraction{};
        bool isRunning{};
    };

    explicit JobRunner(int maxParallel, QObject* parent = nullptr);
    ~JobRunner() override;

    /// `work` runs on a thread and must not touch widgets; `home` runs here with its result unless
    /// the receiver is gone. A job cancelled before it began comes home with ErrorCode::Cancelled.
    template <class T>
    JobId start(const QString& title, std::function<core::Result<T>(JobContext&)> work,
                QObject* receiver, std::function<void(core::Result<T>)> home) {
        const QPointer<QObject> guard{receiver};
        return enqueue(title,
                       [work = std::move(work), home = std::move(home),
                        guard](JobContext& context) -> std::function<void()> {
                           auto result =
                               context.stopToken().stop_requested()
                                   ? core::Result<T>{core::fail(core::ErrorCode::Cancelled,
                                                                "Cancelled before it began.")}
                                   : work(context);
                           return [result = std::move(result), home, guard] {
                               if (guard) {
                                   home(result);
                               }
                           };
                       });
    }

    void cancel(JobId job);
    void cancelAll();
    /// Waiting and running jobs, oldest first.
    [[nodiscard]] QList<JobView> jobs() const;

Q_SIGNALS:
    /// The list of jobs or the progress of one is another.
    void changed();

private:
    /// Does the work and returns what is to be done at home.
    using Run = std::function<std::function<void()>(JobContext&)>;
    struct Job;

    JobId enqueue(const QString& title, Run run);
    void runJobs(const std::stop_token& stop);
    void runOne(const std::shared_ptr<Job>& job);
    void announceProgress();

    mutable std::mutex m_mutex;  // guards the queue and what jobs report
    std::condition_variable_any m_wake;
    std::deque<std::shared_ptr<Job>> m_waiting;
    bool m_isAnnounced{false};
    QList<std::shared_ptr<Job>> m_jobs;  // this thread only
    JobId m_lastId{0};
    std::vector<std::jthread> m_threads;  // last: joined first
};

}  // namespace ui::bridge
