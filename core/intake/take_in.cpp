#include "core/intake/take_in.h"

#include <algorithm>
#include <chrono>

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
    : m_store{store}, m_session{session}, m_options{options}, m_films{std::move(files.films)} {
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
            refuse("slate cards", assigned.error());
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
    for (const Piece& piece : m_queue) {
        m_weight += piece.weight;
    }
    m_weightTimed = 0.0;
    m_secondsTimed = 0.0;
}

void TakeIn::ended(const Piece& piece) {
    ++m_done;
    m_weightDone += piece.weight;
    m_what = piece.what;
}

std::optional<TakeIn::Job> TakeIn::next() {
    while (!m_isOver && !m_report.isCancelled) {
        if (m_queue.empty()) {
            if (!m_away.empty()) {
                return std::nullopt;
            }
            endPhase();
            continue;
        }
        const Piece piece = std::move(m_queue.front());
        m_queue.pop_front();
        auto work = piece.begin();
        if (!work) {
            ended(piece);
            continue;
        }
        const auto watch = std::make_shared<Stopwatch>();
        watch->weight = piece.weight;
        m_away.push_back(watch);
        m_workers = std::max(m_workers, atWork());
        return Job{piece.what,
                   [this, piece, watch, work = std::move(*work)](std::stop_token stop) -> AtHome {
                       watch->began = secondsNow();
                       auto atHome = work(std::move(stop));
                       watch->ended = secondsNow();
                       return [this, piece, watch, atHome = std::move(atHome)] {
                           std::erase(m_away, watch);
                           m_weightTimed += watch->weight;
                           m_secondsTimed += watch->ended - watch->began;
                           atHome();
                           ended(piece);
                       };
                   }};
    }
    return std::nullopt;
}

bool TakeIn::isFinished() const noexcept {
    return m_away.empty() && (m_isOver || m_report.isCancelled);
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
    for (const Piece& piece : m_queue) {
        waiting.push_back(piece.weight);
    }
    return jobs::secondsLeft(atWork, waiting, seconds / weight, m_workers);
}

}  // namespace core::intake
