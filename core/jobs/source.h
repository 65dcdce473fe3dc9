#pragma once

#include <cstddef>
#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>

#include "core/jobs/pool.h"

namespace core::jobs {

/// Work that consists of pieces, in an order. Confined to the thread it is at home in; only
/// Piece::work runs elsewhere.
class Source {
public:
    /// Done at home when the slow part has ended.
    using AtHome = std::function<void()>;
    struct Piece {
        std::string title;  ///< for the list of jobs, as the two below
        std::string step;
        double fraction{};                     ///< of the whole work, done before this piece
        std::string what;                      ///< the clip or shot
        std::function<AtHome(Context&)> work;  ///< slow; touches nothing at home; never throws
    };

    virtual ~Source() = default;
    /// The next piece; absent while others must come home first, and when there is none.
    virtual std::optional<Piece> next() = 0;
    /// A piece was cancelled, or all: no more is wanted.
    virtual void cancel() = 0;
    /// What is at work is not wanted either.
    [[nodiscard]] virtual bool isCancelled() const = 0;
};

/// Gives the pieces of a source to a pool and brings them home in the order in which they were
/// given, which makes two runs equal; so that a long piece keeps nobody from working, up to
/// kMostAway pieces may wait for it. Confined to the source's thread. Gone, it cancels what is at
/// work, and nothing comes home.
class Conveyor {
public:
    static constexpr std::size_t kMostAway = 8;

    /// Runs a call at home, soon; may be called from any thread.
    using Home = std::function<void(std::function<void()>)>;
    struct Options {
        Priority priority{Priority::Usual};
        std::size_t atOnce{1};  ///< pieces at work
        Home home{};
        /// Told at home after something came home and what can follow it was given; may delete the
        /// conveyor.
        std::function<void()> moved{};
    };

    /// The pool must outlive the conveyor. Pieces at work keep the source alive.
    Conveyor(Pool& pool, std::shared_ptr<Source> source, Options options);
    ~Conveyor();
    Conveyor(const Conveyor&) = delete;
    Conveyor& operator=(const Conveyor&) = delete;

    /// Gives what may be at work. To be called at first, and when an idle source has got more.
    void go();
    /// Gives nothing until resume(); what is at work goes on and comes home.
    void pause() noexcept { m_isPaused = true; }
    void resume();
    /// No more pieces; those at work are told to stop, and come home.
    void cancel();

    /// Nothing is at work or waits to come home.
    [[nodiscard]] bool isIdle() const noexcept { return m_away.empty(); }
    /// Piece::what of the oldest piece that has not come home; empty when idle.
    [[nodiscard]] std::string atWork() const;

private:
    struct Away {
        std::size_t number{};
        JobId job{};
        std::string what;
        bool hasEnded{};
        Source::AtHome atHome;  ///< null: it was cancelled before it began
    };
    [[nodiscard]] bool hasRoom() const;
    void cancelJobs();
    void comeHome(std::size_t number, Source::AtHome atHome);

    Pool& m_pool;
    std::shared_ptr<Source> m_source;
    Options m_options;
    bool m_isPaused{false};
    bool m_isGiving{false};
    std::size_t m_given{0};
    std::deque<Away> m_away;            ///< in the order in which they were given
    std::shared_ptr<Conveyor*> m_self;  ///< for pieces that may outlive it
};

/// Works a source off on a thread without an event loop, which is its home.
void workOff(Source& source, Pool& pool, std::size_t atOnce, std::stop_token stop = {});

}  // namespace core::jobs
