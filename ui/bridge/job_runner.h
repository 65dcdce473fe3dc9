#pragma once

#include <QList>
#include <QObject>
#include <QPointer>
#include <QString>
#include <atomic>
#include <functional>
#include <stop_token>

#include "core/base/guarded.h"
#include "core/jobs/source.h"
#include "ui/bridge/home.h"

namespace ui::bridge {

/// What the work of a job sees: whether it should stop, and where it reports how far it is.
class JobContext {
public:
    explicit JobContext(core::jobs::Context& context) : m_context{context} {}
    [[nodiscard]] std::stop_token stopToken() const noexcept { return m_context.stopToken(); }
    /// fraction from 0 to 1; step in plain words ("clip 3 of 40"). Cheap: only the newest counts.
    void report(double fraction, const QString& step) {
        m_context.report(fraction, step.toStdString());
    }

private:
    core::jobs::Context& m_context;
};

/// The pool of the window (core/jobs/pool.h), with progress told by a signal and results brought
/// home by queued calls. Confined to the thread it lives in. The destructor cancels all jobs and
/// joins; no result arrives afterwards.
class JobRunner : public QObject {
    Q_OBJECT

public:
    using JobId = core::jobs::JobId;
    using Priority = core::jobs::Priority;

    struct JobView {
        JobId id{};
        QString title;
        QString step;
        double fraction{};
        bool isRunning{};
    };

    /// threads: jobs at once, beside one that is looked at; 0: as many as the machine has
    /// processors.
    explicit JobRunner(unsigned threads, QObject* parent = nullptr);
    ~JobRunner() override;

    /// `work` runs on a thread and must not touch widgets; `home` runs here with its result unless
    /// the receiver is gone. A job cancelled before it began comes home with ErrorCode::Cancelled,
    /// an exception as an error.
    template <class T>
    JobId start(const QString& title, std::function<core::Result<T>(JobContext&)> work,
                QObject* receiver, std::function<void(core::Result<T>)> home,
                Priority priority = Priority::Usual) {
        return m_pool.add(
            title.toStdString(), priority,
            [work = std::move(work), home = std::move(home), guard = QPointer<QObject>{receiver},
             way = m_home](core::jobs::Context& context) {
                JobContext seen{context};
                auto result = context.isCancelled()
                                  ? core::Result<T>{core::fail(
                                        core::ErrorCode::Cancelled,
                                        tr("Cancelled before it began.").toStdString())}
                                  : core::guarded([&] { return work(seen); });
                context.then([way, guard, home, result = std::move(result)] {
                    way.post([guard, home, result] {
                        if (guard) {
                            home(result);
                        }
                    });
                });
            });
    }

    void cancel(JobId job) { m_pool.cancel(job); }
    void cancelAll() { m_pool.cancelAll(); }
    /// Holds the pieces of long work: the intake, reading ahead.
    void pause(bool isPaused) { m_pool.pause(isPaused); }
    [[nodiscard]] bool isPaused() const { return m_pool.isPaused(); }
    /// Waiting and running jobs, oldest first.
    [[nodiscard]] QList<JobView> jobs() const;

    /// For work in pieces (core/jobs/source.h): where it runs and how it comes home.
    [[nodiscard]] core::jobs::Pool& pool() noexcept { return m_pool; }
    [[nodiscard]] core::jobs::Conveyor::Home home() const;

Q_SIGNALS:
    /// The list of jobs or the progress of one is another.
    void changed();

private:
    void announce();

    Home m_home;
    std::atomic<bool> m_isAnnounced{false};
    core::jobs::Pool m_pool;  // last: joined first
};

}  // namespace ui::bridge
