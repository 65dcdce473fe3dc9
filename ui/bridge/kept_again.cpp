#include "ui/bridge/kept_again.h"

#include "core/base/words.h"
#include "ui/bridge/tr.h"

namespace ui::bridge {
namespace {

QString wordsOf(const core::Result<core::intake::ReadAgainReport>& done) {
    if (!done) {
        return QString::fromStdString(done.error().message);
    }
    const auto& report = done.value();
    if (report.isCancelled) {
        return tr("Cancelled: the kept shots have the numbers from before.");
    }
    QString words =
        tr("%1 read again; the numbers from before stay in the history.")
            .arg(QString::fromStdString(core::counted(report.kept, "kept shot", "kept shots")));
    for (const auto& each : report.refused) {
        words += QLatin1Char('\n') +
                 tr("%1 keeps its number from before: %2")
                     .arg(QString::fromStdString(each.what), QString::fromStdString(each.reason));
    }
    return words;
}

}  // namespace

KeptAgain::KeptAgain(core::project::Store& store, JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {}

KeptAgain::~KeptAgain() = default;

void KeptAgain::read(std::vector<core::project::ShotId> shots) {
    if (shots.empty()) {
        return;
    }
    m_waiting.push_back(std::move(shots));
    if (!isRunning()) {
        begin();
    }
}

void KeptAgain::begin() {
    m_work = std::make_shared<core::intake::ReadAgain>(m_store, std::move(m_waiting.front()));
    m_waiting.pop_front();
    m_conveyor = std::make_unique<core::jobs::Conveyor>(
        m_jobs.pool(), m_work,
        core::jobs::Conveyor::Options{.priority = core::jobs::Priority::Usual,
                                      .atOnce = 1,
                                      .home = m_jobs.home(),
                                      .moved = [this] { moved(); }});
    m_conveyor->go();
    moved();
}

void KeptAgain::moved() {
    if (!m_conveyor->isIdle()) {
        return;
    }
    const auto work = std::move(m_work);
    m_conveyor.reset();
    const QString words = wordsOf(work->keep());
    if (!m_waiting.empty()) {
        begin();
    }
    Q_EMIT ended(words);
}

}  // namespace ui::bridge
