#include "core/intake/take_in.h"

#include <algorithm>
#include <chrono>

#include "core/base/guarded.h"
#include "core/base/words.h"
#include "core/intake/intake_words.h"
#include "core/jobs/time_left.h"

namespace core::intake {
namespace {

constexpr double kLeastSecondsTimed = 3.0;  // before which a promise would rest on nothing

double secondsNow() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

}  // namespace

TakeIn::TakeIn(project::Store& store, project::SessionId session, FilmFiles files,
               TakeInOptions options)
    : m_store{store},
      m_session{session},
      m_options{options},
      m_films{std::move(files.films)},
      m_readings{store, {.ended = [this](const auto& outcome) { wasRead(outcome); }}} {
    m_report.refused = std::move(files.refused);
    m_report.passedOver = files.passedOver;
    queueFiles();
    beginPhase();
}

void TakeIn::refuse(const std::string& what, const Error& error) {
    if (error.code == ErrorCode::Cancelled) {
        m_report.isCancelled = true;
    } else {
        m_report.refused.push_back({what, error.message});
    }
}

void TakeIn::endPhase() {
    if (m_phase == Phase::ReadCards && m_of > 0 && m_cardFailures == 0) {
        auto assigned = assignBySlateCards(m_store, m_session, m_slates);
        if (assigned) {
            m_report.cards = std::move(assigned).value();
        } else {
            refuse(said("slate cards"), assigned.error());
        }
    }
    switch (m_phase) {
        case Phase::Add:
            m_phase = Phase::FindShots;
            if (m_options.findShots) {
                queueSearches();
            }
            break;
        case Phase::FindShots:
            m_phase = Phase::ReadCards;
            if (m_options.readCards) {
                queueCards();
            }
            break;
        case Phase::ReadCards:
            m_phase = Phase::ReadPictures;
            if (m_options.readPictures) {
                queueReadings();
            }
            break;
        case Phase::ReadPictures:
            m_isOver = true;
            break;
    }
    beginPhase();
}

void TakeIn::beginPhase() {
    m_done = 0;
    m_weightDone = 0.0;
    m_of = m_queue.size();
    m_weight = 0.0;
    for (const Task& task : m_queue) {
        m_weight += task.weight;
    }
    m_weightTimed = 0.0;
    m_secondsTimed = 0.0;
}

void TakeIn::ended(const Task& task) {
    ++m_done;
    m_weightDone += task.weight;
    m_what = task.what;
    if (m_told) {
        m_told(progress());
    }
}

std::optional<jobs::Source::Piece> TakeIn::next() {
    while (!m_isOver && !m_report.isCancelled) {
        if (m_queue.empty()) {
            if (!m_away.empty()) {
                return std::nullopt;
            }
            endPhase();
            continue;
        }
        const Task task = std::move(m_queue.front());
        m_queue.pop_front();
        auto work = task.begin();
        if (!work) {
            ended(task);
            continue;
        }
        const auto watch = std::make_shared<Stopwatch>();
        watch->weight = task.weight;
        m_away.push_back(watch);
        m_workers = std::max(m_workers, atWork());
        return Piece{saidText(kTakeInTitle), std::string{phaseWords(m_phase)} + ": " + task.what,
                     progress().share, task.what, timed(task, watch, std::move(*work))};
    }
    return std::nullopt;
}

/// The work, and what is counted when it comes home.
TakeIn::Work TakeIn::timed(const Task& task, const std::shared_ptr<Stopwatch>& watch, Work work) {
    return [this, task, watch, work = std::move(work)](jobs::Context& context) -> AtHome {
        watch->began = secondsNow();
        auto atHome = guarded([&]() -> Result<AtHome> { return work(context); });
        watch->ended = secondsNow();
        return [this, task, watch, atHome = std::move(atHome)] {
            std::erase(m_away, watch);
            m_weightTimed += watch->weight;
            m_secondsTimed += watch->ended - watch->began;
            if (atHome) {
                atHome.value()();
            } else {
                m_cardFailures += m_phase == Phase::ReadCards ? 1 : 0;
                refuse(task.what, atHome.error());
            }
            ended(task);
        };
    };
}

std::size_t TakeIn::atWork() const {
    return static_cast<std::size_t>(std::count_if(
        m_away.begin(), m_away.end(), [](const auto& watch) { return watch->ended == 0.0; }));
}

TakeInProgress TakeIn::progress() const {
    TakeInProgress progress{m_phase, m_done, m_of, m_what, 1.0, secondsLeft()};
    if (m_weight > 0.0) {
        progress.share = m_weightDone / m_weight;
    }
    return progress;
}

std::optional<double> TakeIn::secondsLeft() const {
    double weight = m_weightTimed;
    double seconds = m_secondsTimed;
    std::vector<jobs::PieceAtWork> atWork;
    for (const auto& watch : m_away) {
        const double began = watch->began;
        const double ended = watch->ended;
        if (ended > 0.0) {
            weight += watch->weight;
            seconds += ended - began;
        } else {
            atWork.push_back({watch->weight, began > 0.0 ? secondsNow() - began : 0.0});
        }
    }
    if (weight <= 0.0 || seconds < kLeastSecondsTimed) {
        return std::nullopt;
    }
    std::vector<double> waiting;
    for (const Task& task : m_queue) {
        waiting.push_back(task.weight);
    }
    return jobs::secondsLeft(atWork, waiting, seconds / weight, m_workers);
}

TakeInReport takeIn(TakeIn& work, unsigned threads, std::stop_token stop,
                    const std::function<void(const TakeInProgress&)>& told) {
    work.tellProgress([&](const TakeInProgress& progress) {
        if (told) {
            told(progress);
        }
        if (stop.stop_requested()) {
            work.cancel();  // at once: what has ended meanwhile must not begin the next phase
        }
    });
    jobs::workOff(work, jobs::Pool::ofProgram(), threads, stop);
    work.tellProgress(nullptr);
    return work.report();
}

}  // namespace core::intake
