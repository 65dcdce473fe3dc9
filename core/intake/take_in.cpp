#include "core/intake/take_in.h"

#include <algorithm>
#include <chrono>
#include <future>

namespace core::intake {
namespace {

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
    m_phaseBegan = secondsNow();
}

void TakeIn::ended(const Piece& piece) {
    ++m_done;
    m_weightDone += piece.weight;
    m_what = piece.what;
}

std::optional<TakeIn::Job> TakeIn::next() {
    while (!m_isOver && !m_report.isCancelled) {
        if (m_queue.empty()) {
            if (m_away > 0) {
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
        ++m_away;
        m_weightAway += piece.weight;
        return Job{piece.what,
                   [this, piece, work = std::move(*work)](std::stop_token stop) -> AtHome {
                       return [this, piece, atHome = work(std::move(stop))] {
                           --m_away;
                           m_weightAway -= piece.weight;
                           atHome();
                           ended(piece);
                       };
                   }};
    }
    return std::nullopt;
}

bool TakeIn::isFinished() const noexcept {
    return m_away == 0 && (m_isOver || m_report.isCancelled);
}

TakeInProgress TakeIn::progress() const {
    TakeInProgress progress{m_phase, m_done, m_of, m_what, 1.0, std::nullopt};
    if (m_weight > 0.0) {
        progress.share = m_weightDone / m_weight;
    }
    if (m_weightDone > 0.0) {
        const double worked = m_weightDone + 0.5 * m_weightAway;
        progress.secondsLeft = (secondsNow() - m_phaseBegan) * (m_weight - worked) / worked;
    }
    return progress;
}

TakeInReport takeIn(TakeIn& work, unsigned threads, std::stop_token stop,
                    const std::function<void(const TakeInProgress&)>& told) {
    std::deque<std::future<TakeIn::AtHome>> running;
    for (;;) {
        if (stop.stop_requested()) {
            work.cancel();
        }
        while (running.size() < std::max(1U, threads)) {
            auto job = work.next();
            if (!job) {
                break;
            }
            running.push_back(std::async(std::launch::async, std::move(job->work), stop));
        }
        if (running.empty()) {
            return work.report();
        }
        const auto atHome = running.front().get();
        running.pop_front();
        atHome();
        if (told) {
            told(work.progress());
        }
    }
}

}  // namespace core::intake
