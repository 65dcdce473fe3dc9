#include "ui/footage/intake_runner.h"

#include <QDate>

#include "core/base/words.h"
#include "core/intake/session_for.h"

namespace ui::footage {
namespace {

using bridge::JobContext;
using core::intake::FilmFiles;
using core::intake::TakeIn;
using core::intake::TakeInReport;

constexpr std::size_t kAtWorkAtOnce = 2;

}  // namespace

IntakeRunner::IntakeRunner(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {}

IntakeRunner::~IntakeRunner() {
    if (m_looking) {
        m_jobs.cancel(*m_looking);
    }
}

void IntakeRunner::add(Request request) {
    m_waiting.push_back(std::move(request));
    if (!isRunning()) {
        begin();
    }
    Q_EMIT changed();
}

void IntakeRunner::begin() {
    m_current = std::move(m_waiting.front());
    m_waiting.pop_front();
    m_isCancelled = false;
    m_dropped = 0;
    m_looking = m_jobs.start<FilmFiles>(
        QString::fromStdString(core::saidText(core::intake::kTakeInTitle)),
        [sources = m_current->sources](JobContext& context) -> core::Result<FilmFiles> {
            context.report(0.0, tr("looking through the folders"));
            auto files = core::intake::filmFilesOf(sources, context.stopToken());
            if (context.stopToken().stop_requested()) {
                return core::fail(core::ErrorCode::Cancelled, tr("Cancelled.").toStdString());
            }
            return files;
        },
        this, [this](const core::Result<FilmFiles>& files) { lookedThrough(files); });
}

void IntakeRunner::lookedThrough(const core::Result<FilmFiles>& files) {
    m_looking.reset();
    TakeInReport nothing;
    if (!files || m_isCancelled) {
        nothing.isCancelled = true;
        end(std::move(nothing));
        return;
    }
    nothing.refused = files.value().refused;
    nothing.passedOver = files.value().passedOver;
    if (files.value().films.empty()) {
        end(std::move(nothing));
        return;
    }
    const auto session = core::intake::sessionFor(
        m_store, m_current->session, QDate::currentDate().toString(Qt::ISODate).toStdString());
    if (!session) {
        nothing.refused.push_back({m_current->session, session.error().message});
        end(std::move(nothing));
        return;
    }
    m_work = std::make_shared<TakeIn>(m_store, session.value(), files.value(), m_current->options);
    m_conveyor = std::make_unique<core::jobs::Conveyor>(
        m_jobs.pool(), m_work,
        core::jobs::Conveyor::Options{.priority = core::jobs::Priority::Usual,
                                      .atOnce = kAtWorkAtOnce,
                                      .home = m_jobs.home(),
                                      .moved = [this] { moved(); }});
    m_conveyor->go();
    moved();
}

void IntakeRunner::moved() {
    if (m_conveyor->isIdle()) {
        end(m_work->report());
    } else {
        Q_EMIT changed();
    }
}

void IntakeRunner::cancel() {
    if (!isRunning()) {
        return;
    }
    m_isCancelled = true;
    m_dropped += m_waiting.size();
    m_waiting.clear();
    if (m_looking) {
        m_jobs.cancel(*m_looking);
    }
    if (m_conveyor) {
        m_conveyor->cancel();
    }
    Q_EMIT changed();
}

void IntakeRunner::end(TakeInReport report) {
    const Ended what{std::move(*m_current), std::move(report), m_dropped};
    m_conveyor.reset();
    m_work.reset();
    m_current.reset();
    if (!m_waiting.empty()) {
        begin();
    }
    Q_EMIT ended(what);
    Q_EMIT changed();
}

std::optional<core::intake::TakeInProgress> IntakeRunner::progress() const {
    if (!m_work) {
        return std::nullopt;
    }
    auto progress = m_work->progress();
    if (!m_conveyor->isIdle()) {
        progress.what = m_conveyor->atWork();
    }
    return progress;
}

}  // namespace ui::footage
