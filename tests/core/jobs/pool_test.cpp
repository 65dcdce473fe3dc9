#include "core/jobs/pool.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>

namespace core::jobs {
namespace {

/// Keeps the only thread of a pool busy until it is opened.
class Gate {
public:
    explicit Gate(Pool& pool) {
        pool.add("gate", Priority::Looked, [this](Context&) {
            m_reached.set_value();
            m_opened.get_future().wait();
        });
        m_reached.get_future().wait();
    }
    void open() { m_opened.set_value(); }

private:
    std::promise<void> m_reached;
    std::promise<void> m_opened;
};

/// Blocks until all that was added is done. The pool has one thread.
void waitForAll(Pool& pool) {
    std::promise<void> done;
    pool.add("last", Priority::Ahead, [&done](Context&) { done.set_value(); });
    done.get_future().wait();
}

TEST(Pool, WhatIsLookedAtComesFirstThenTheOlder) {
    Pool pool{{.threads = 1}};
    Gate gate{pool};
    std::string order;  // written by the pool's only thread
    const auto writing = [&order](char letter) {
        return [&order, letter](Context&) { order += letter; };
    };
    pool.add("", Priority::Ahead, writing('e'));
    pool.add("", Priority::Usual, writing('c'));
    pool.add("", Priority::Looked, writing('a'));
    pool.add("", Priority::Usual, writing('d'));
    pool.add("", Priority::Looked, writing('b'));
    gate.open();
    waitForAll(pool);
    EXPECT_EQ(order, "abcde");
}

TEST(Pool, APauseHoldsPiecesOfLongWorkAndNothingElse) {
    Pool pool{{.threads = 1}};
    std::promise<bool> heard;
    std::atomic<bool> hasRun{false};
    pool.pause(true);
    const auto piece = [&](Context&) { hasRun = true; };
    pool.add("piece", Priority::Looked, piece, InPause::Waits);
    const JobId given = pool.add(
        "given up", Priority::Usual,
        [&](Context& context) { heard.set_value(context.isCancelled()); }, InPause::Waits);
    waitForAll(pool);
    EXPECT_FALSE(hasRun);
    pool.cancel(given);
    EXPECT_TRUE(heard.get_future().get()) << "what is cancelled is heard of in a pause too";
    EXPECT_FALSE(hasRun);
    pool.pause(false);
    waitForAll(pool);
    EXPECT_TRUE(hasRun);
}

TEST(Pool, ALongJobDoesNotKeepWhatIsLookedAtWaiting) {
    Pool pool{{.threads = 1, .hasOneForLooked = true}};
    std::promise<void> begun;
    std::promise<void> seen;
    pool.add("long", Priority::Usual, [&](Context&) {
        begun.set_value();
        seen.get_future().wait();
    });
    begun.get_future().wait();
    pool.add("looked at", Priority::Looked, [&](Context&) { seen.set_value(); });
    waitForAll(pool);  // ends: the long job waited for the other
}

TEST(Pool, ACancelledJobThatWaitsRunsAndSeesIt) {
    Pool pool{{.threads = 1}};
    Gate gate{pool};
    bool wasCancelled = false;
    const auto job = pool.add("waiting", Priority::Usual,
                              [&](Context& context) { wasCancelled = context.isCancelled(); });
    pool.cancel(job);
    gate.open();
    waitForAll(pool);
    EXPECT_TRUE(wasCancelled);
}

TEST(Pool, ShowsWhatWaitsAndHowFarTheRunningJobIs) {
    std::atomic<int> told{0};
    Pool pool{{.threads = 1, .changed = [&told] { ++told; }}};
    std::promise<void> reported;
    std::promise<void> goOn;
    pool.add("clips", Priority::Usual, [&](Context& context) {
        context.report(0.25, "clip 1 of 4");
        reported.set_value();
        goOn.get_future().wait();
    });
    reported.get_future().wait();
    pool.add("behind", Priority::Usual, [](Context&) {});
    const auto jobs = pool.jobs();
    ASSERT_EQ(jobs.size(), 2U);
    EXPECT_EQ(jobs[0].title, "clips");
    EXPECT_EQ(jobs[0].step, "clip 1 of 4");
    EXPECT_DOUBLE_EQ(jobs[0].fraction, 0.25);
    EXPECT_TRUE(jobs[0].isRunning);
    EXPECT_FALSE(jobs[1].isRunning);
    EXPECT_GE(told, 4);  // added, begun, reported, added
    goOn.set_value();
    waitForAll(pool);
}

TEST(Pool, TheEndCancelsWaitsForWhatRunsAndDropsTheRest) {
    std::atomic<bool> hasEnded{false};
    std::atomic<bool> wasRun{false};
    {
        Pool pool{{.threads = 1}};
        std::promise<void> begun;
        pool.add("long", Priority::Usual, [&](Context& context) {
            begun.set_value();
            while (!context.isCancelled()) {
                std::this_thread::yield();
            }
            hasEnded = true;
        });
        begun.get_future().wait();
        pool.add("behind", Priority::Usual, [&](Context&) { wasRun = true; });
    }
    EXPECT_TRUE(hasEnded);
    EXPECT_FALSE(wasRun);
}

TEST(Pool, ManyThreadsAddAndCancel) {
    std::atomic<int> done{0};
    constexpr int kEach = 200;
    {
        Pool pool{{.threads = 3, .hasOneForLooked = true}};
        {
            std::vector<std::jthread> threads;
            for (int thread = 0; thread < 3; ++thread) {
                threads.emplace_back([&, thread] {
                    for (int i = 0; i < kEach; ++i) {
                        const auto job =
                            pool.add("", static_cast<Priority>(i % 3), [&done](Context& context) {
                                context.report(0.5, "half");
                                ++done;
                            });
                        if (thread == 0) {
                            pool.cancel(job);
                        }
                    }
                });
            }
        }
        while (!pool.jobs().empty()) {
            std::this_thread::yield();
        }
    }
    EXPECT_EQ(done, 3 * kEach);
}

}  // namespace
}  // namespace core::jobs
