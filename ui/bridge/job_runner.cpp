#include "ui/bridge/job_runner.h"

namespace ui::bridge {

JobRunner::JobRunner(unsigned threads, QObject* parent)
    : QObject{parent},
      m_home{*this},
      m_pool{{.threads = threads,
              .hasOneForLooked = true,
              .givesWay = core::BackgroundWork::Batch,
              .changed = [this] { announce(); }}} {}

JobRunner::~JobRunner() {
    m_home.close();
}

QList<JobRunner::JobView> JobRunner::jobs() const {
    QList<JobView> views;
    for (const auto& job : m_pool.jobs()) {
        views.append({job.id, QString::fromStdString(job.title), QString::fromStdString(job.step),
                      job.fraction, job.isRunning});
    }
    return views;
}

core::jobs::Conveyor::Home JobRunner::home() const {
    return [way = m_home](std::function<void()> call) { way.post(std::move(call)); };
}

/// On any thread. One signal for all that changes until it is sent.
void JobRunner::announce() {
    if (!m_isAnnounced.exchange(true)) {
        m_home.post([this] {
            m_isAnnounced = false;
            Q_EMIT changed();
        });
    }
}

}  // namespace ui::bridge
