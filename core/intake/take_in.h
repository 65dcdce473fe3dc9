#pragma once

#include <atomic>
#include <deque>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/intake/add_clip.h"
#include "core/intake/film_files.h"
#include "core/intake/reading_ahead.h"
#include "core/intake/slate_cards.h"
#include "core/jobs/source.h"
#include "core/project/store.h"

/// The clips of a filming day, taken into a project.
namespace core::intake {

/// What is done with the clips besides adding them.
struct TakeInOptions {
    bool findShots{};     ///< in clips that were not searched before
    bool readCards{};     ///< of the session, while one of its shots has no cell
    bool readPictures{};  ///< of the clips' open shots that were not read before
};

/// How far it is.
struct TakeInProgress {
    enum class Phase { Add, FindShots, ReadCards, ReadPictures };
    Phase phase{Phase::Add};
    std::size_t done{};  ///< clips or shots of this phase
    std::size_t of{};
    std::string what;  ///< the clip or shot that is begun or was ended
    double share{};    ///< of this phase, by the size of the clips
    /// Of this phase, as fast as its pieces went so far (core/jobs/time_left.h); absent until
    /// they took some seconds.
    std::optional<double> secondsLeft{};
};

/// What came of it.
struct TakeInReport {
    std::size_t added{};
    std::size_t alreadyThere{};  ///< clips whose content the project has
    std::size_t foundAgain{};    ///< of these, clips that were not found where they had been
    std::size_t passedOver{};    ///< files in folders that are no films
    std::size_t searched{};      ///< clips in which shots were looked for
    std::size_t shotsFound{};
    std::optional<AssignmentReport> cards;
    std::size_t shotsRead{};    ///< kept, with or without a rate
    std::size_t shotsUnread{};  ///< open shots whose pictures say nothing, such as no ball
    std::vector<Refused> refused;
    bool isCancelled{};
};

/// Takes in files step by step. Each clip is one edit as soon as it is ready, each search for shots
/// another, each shot read is kept at once; what is done is recognised from the project alone, so
/// that it may be stopped anywhere and begun again with the same files.
///
/// Confined to the thread of the store.
class TakeIn : public jobs::Source {
public:
    /// New clips come into the session. The store must outlive it.
    TakeIn(project::Store& store, project::SessionId session, FilmFiles files,
           TakeInOptions options);
    /// Looks through the folders at once.
    TakeIn(project::Store& store, project::SessionId session,
           const std::vector<std::filesystem::path>& sources, TakeInOptions options)
        : TakeIn{store, session, filmFilesOf(sources), options} {}
    TakeIn(const TakeIn&) = delete;
    TakeIn& operator=(const TakeIn&) = delete;

    std::optional<Piece> next() override;
    void cancel() noexcept override { m_report.isCancelled = true; }
    [[nodiscard]] bool isCancelled() const noexcept override { return m_report.isCancelled; }

    [[nodiscard]] TakeInProgress progress() const;
    /// Called after each file, clip or shot, before the next phase begins; null: nobody.
    void tellProgress(std::function<void(const TakeInProgress&)> told) { m_told = std::move(told); }
    [[nodiscard]] const TakeInReport& report() const noexcept { return m_report; }

private:
    using Phase = TakeInProgress::Phase;
    using Work = std::function<AtHome(jobs::Context&)>;
    struct Task {
        std::string what;
        double weight{1.0};
        std::function<std::optional<Work>()> begin;
    };

    /// When a task was worked on; written by the thread that does it.
    struct Stopwatch {
        double weight{};
        std::atomic<double> began{0.0};  ///< seconds of the steady clock, 0: not yet
        std::atomic<double> ended{0.0};
    };

    void queueFiles();
    void queueSearches();
    void queueCards();
    void queueReadings();
    void endPhase();
    void beginPhase();
    void ended(const Task& task);
    [[nodiscard]] Work timed(const Task& task, const std::shared_ptr<Stopwatch>& watch, Work work);
    [[nodiscard]] std::size_t atWork() const;
    [[nodiscard]] std::optional<double> secondsLeft() const;
    void refuse(const std::string& what, const Error& error);

    std::optional<Work> beginSearch(const std::string& name, project::ClipId clip);
    std::optional<Work> beginCards(const std::string& name, project::ClipId clip);
    std::optional<Work> beginReading(const std::string& name, project::ShotId shot);
    void wasRead(const ReadingAhead::Outcome& outcome);
    void addClip(const std::filesystem::path& film, const std::string& fingerprint,
                 const Result<std::optional<PreparedClip>>& prepared);
    void findAgain(const project::Clip& clip, const std::filesystem::path& film);

    project::Store& m_store;
    project::SessionId m_session;
    TakeInOptions m_options;
    TakeInReport m_report;
    std::function<void(const TakeInProgress&)> m_told;
    std::vector<std::filesystem::path> m_films;
    std::set<project::ClipId> m_clips;  ///< of the files, new or known
    std::vector<ClipSlates> m_slates;
    std::size_t m_cardFailures{};
    ReadingAhead m_readings;
    std::deque<Task> m_queue;
    Phase m_phase{Phase::Add};
    bool m_isOver{};
    std::deque<std::shared_ptr<Stopwatch>> m_away;  ///< tasks that have not come home
    std::size_t m_workers{};                        ///< the most that were at work at once
    std::size_t m_done{};
    std::size_t m_of{};
    double m_weightDone{};
    double m_weight{};
    double m_weightTimed{};   ///< of what was worked on and has come home in this phase, and
    double m_secondsTimed{};  ///< how long that was worked on
    std::string m_what;
};

/// What the list of jobs says while clips are taken in; for saidText().
inline constexpr std::string_view kTakeInTitle = toSay("Taking in footage");

/// Takes in to the end on at most so many threads of the program's pool, and brings home on this
/// one. `told` is called after each clip and shot.
TakeInReport takeIn(TakeIn& work, unsigned threads, std::stop_token stop = {},
                    const std::function<void(const TakeInProgress&)>& told = {});

}  // namespace core::intake
