#include "ui/footage/intake_runner.h"

#include <QDate>
#include <algorithm>

#include "core/intake/intake_words.h"
#include "core/intake/session_for.h"

namespace ui::footage {
namespace {

using bridge::JobContext;
using core::intake::FilmFiles;
using core::intake::TakeIn;
using core::intake::TakeInReport;

constexpr std::ptrdiff_t kAtWorkAtOnce = 2;

QString intakeTitle() {
    return QStringLiteral("Taking in footage");
}

/// What the list of jobs says beside the title.
QString stepOf(const core::intake::TakeInProgress& progress, const std::string& what) {
    const auto phase = core::intake::phaseWords(progress.phase);
    return QStringLiteral("%1: %2").arg(
        QString::fromUtf8(phase.data(), static_cast<qsizetype>(phase.size())),
        QString::fromStdString(what));
}

}  // namespace

IntakeRunner::IntakeRunner(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {}

IntakeRunner::~IntakeRunner() {
    stopJobs();
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
        intakeTitle(),
        [sources = m_current->sources](JobContext& context) -> core::Result<FilmFiles> {
            context.report(0.0, QStringLiteral("looking through the folders"));
            auto files = core::intake::filmFilesOf(sources, context.stopToken());
            if (context.stopToken().stop_requested()) {
                return core::fail(core::ErrorCode::Cancelled, "Cancelled.");
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
    giveJobs();
}

bool IntakeRunner::hasRoom() const {
    const auto atWork =
        std::count_if(m_away.begin(), m_away.end(), [](const Away& away) { return !away.result; });
    return atWork < kAtWorkAtOnce && m_away.size() < TakeIn::kMostAway;
}

void IntakeRunner::giveJobs() {
    while (hasRoom()) {
        auto job = m_work->next();
        if (!job) {
            break;
        }
        const auto progress = m_work->progress();
        const std::size_t number = ++m_given;
        // The work is kept alive by its jobs: they may end after this object has gone.
        const auto id = m_jobs.start<AtHome>(
            intakeTitle(),
            [work = m_work, slow = std::move(job->work), share = progress.share,
             step = stepOf(progress, job->what)](JobContext& context) -> core::Result<AtHome> {
                context.report(share, step);
                return slow(context.stopToken());
            },
            this, [this, number](const core::Result<AtHome>& result) { comeHome(number, result); });
        m_away.push_back({number, id, job->what, std::nullopt});
    }
    if (m_away.empty()) {
        end(m_work->report());
    } else {
        Q_EMIT changed();
    }
}

void IntakeRunner::comeHome(std::size_t number, const core::Result<AtHome>& result) {
    const auto ready = std::find_if(m_away.begin(), m_away.end(),
                                    [number](const Away& away) { return away.number == number; });
    ready->result = result;
    while (!m_away.empty() && m_away.front().result) {
        const Away home = std::move(m_away.front());
        m_away.pop_front();
        if (*home.result) {
            home.result->value()();
        } else {
            m_work->cancel();  // it was cancelled before it began
        }
    }
    if (m_work->report().isCancelled) {
        stopJobs();
    }
    giveJobs();
}

void IntakeRunner::cancel() {
    if (!isRunning()) {
        return;
    }
    m_isCancelled = true;
    m_dropped += m_waiting.size();
    m_waiting.clear();
    if (m_work) {
        m_work->cancel();
    }
    stopJobs();
    Q_EMIT changed();
}

void IntakeRunner::stopJobs() {
    if (m_looking) {
        m_jobs.cancel(*m_looking);
    }
    for (const Away& away : m_away) {
        m_jobs.cancel(away.job);
    }
}

void IntakeRunner::end(TakeInReport report) {
    const Ended what{std::move(*m_current), std::move(report), m_dropped};
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
    if (!m_away.empty()) {
        progress.what = m_away.front().what;
    }
    return progress;
}

}  // namespace ui::footage
