#include "ui/shell/jobs_button.h"

#include <QMenu>
#include <QTimer>

#include "core/jobs/memory_budget.h"

namespace ui::shell {
namespace {

/// Jobs shorter than this are not shown: a flicker tells nobody anything.
constexpr int kPatienceMs = 300;

QString lineOf(const bridge::JobRunner::JobView& job) {
    QString line = job.title;
    if (!job.isRunning) {
        return line + QStringLiteral(" (waiting)");
    }
    if (job.fraction > 0.0) {
        line += QStringLiteral(" %1 %").arg(static_cast<int>(100.0 * job.fraction));
    }
    return job.step.isEmpty() ? line : line + QStringLiteral(" · ") + job.step;
}

}  // namespace

JobsButton::JobsButton(bridge::JobRunner& jobs, QWidget* parent)
    : QToolButton{parent}, m_jobs{jobs}, m_menu{new QMenu{this}} {
    setPopupMode(QToolButton::InstantPopup);
    setMenu(m_menu);
    setToolButtonStyle(Qt::ToolButtonTextOnly);
    setAutoRaise(true);
    hide();
    auto* patience = new QTimer{this};
    patience->setSingleShot(true);
    patience->setInterval(kPatienceMs);
    connect(patience, &QTimer::timeout, this, &JobsButton::refresh);
    connect(&m_jobs, &bridge::JobRunner::changed, this, [this, patience] {
        if (isVisible()) {
            refresh();
        } else if (!patience->isActive()) {
            patience->start();
        }
    });
}

void JobsButton::refresh() {
    constexpr std::size_t kMebibyte = std::size_t{1} << 20U;
    const auto memory = core::jobs::MemoryBudget::ofProgram().counters();
    setToolTip(QStringLiteral(
                   "Work in the background; open to pause or cancel. Pictures and readings hold "
                   "%1 of the %2 MiB that they may")
                   .arg(memory.allBytes() / kMebibyte)
                   .arg(memory.limitBytes / kMebibyte));
    const auto jobs = m_jobs.jobs();
    setVisible(!jobs.isEmpty());
    m_menu->clear();
    if (jobs.isEmpty()) {
        return;
    }
    const bool isPaused = m_jobs.isPaused();
    QString text = isPaused ? QStringLiteral("Paused: ") : QString{};
    text += lineOf(jobs.front());
    if (jobs.size() > 1) {
        text += QStringLiteral("  (+%1)").arg(jobs.size() - 1);
    }
    setText(fontMetrics().elidedText(text, Qt::ElideRight, 320));
    m_menu->addAction(isPaused ? QStringLiteral("Go on") : QStringLiteral("Pause"), this,
                      [this, isPaused] { m_jobs.pause(!isPaused); });
    m_menu->addSeparator();
    for (const auto& job : jobs) {
        m_menu->addAction(QStringLiteral("Cancel: %1").arg(lineOf(job)), this,
                          [this, id = job.id] { m_jobs.cancel(id); });
    }
}

}  // namespace ui::shell
