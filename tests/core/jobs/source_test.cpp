#include "core/jobs/source.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <thread>

namespace core::jobs {
namespace {

/// So many pieces; each does what it is told and notes at home that it came.
class Numbers : public Source {
public:
    explicit Numbers(int count, std::function<void(int, Context&)> work = {})
        : m_count{count}, m_work{std::move(work)} {}

    std::optional<Piece> next() override {
        if (m_isCancelled || m_next == m_count) {
            return std::nullopt;
        }
        const int number = m_next++;
        return Piece{"numbers", "", 0.0, std::to_string(number), [this, number](Context& context) {
                         if (m_work) {
                             m_work(number, context);
                         }
                         return [this, number] { home.push_back(number); };
                     }};
    }
    void cancel() override { m_isCancelled = true; }
    [[nodiscard]] bool isCancelled() const override { return m_isCancelled; }
    [[nodiscard]] int given() const { return m_next; }

    std::vector<int> home;

private:
    int m_count;
    int m_next{0};
    bool m_isCancelled{false};
    std::function<void(int, Context&)> m_work;
};

/// A home whose calls are run by hand.
class HomeByHand {
public:
    [[nodiscard]] Conveyor::Home home() {
        return [this](std::function<void()> call) {
            const std::lock_guard lock{m_mutex};
            m_calls.push_back(std::move(call));
        };
    }
    /// Runs calls until so many have been run.
    void run(int calls) {
        runWhile([&calls] { return calls-- > 0; });
    }
    /// Asks before each call.
    void runWhile(const std::function<bool()>& goesOn) {
        while (goesOn()) {
            runOne();
        }
    }

private:
    void runOne() {
        for (;;) {
            std::function<void()> call;
            {
                const std::lock_guard lock{m_mutex};
                if (!m_calls.empty()) {
                    call = std::move(m_calls.front());
                    m_calls.pop_front();
                }
            }
            if (call) {
                return call();
            }
            std::this_thread::yield();
        }
    }

    std::mutex m_mutex;
    std::deque<std::function<void()>> m_calls;
};

const std::vector<int> kFirstTen{0, 1, 2, 3, 4, 5, 6, 7, 8, 9};

TEST(WorkOff, PiecesComeHomeInTheirOrder) {
    Pool pool{{.threads = 3}};
    // Every third takes longer than those after it.
    Numbers numbers{
        10, [](int number, Context&) {
            std::this_thread::sleep_for(std::chrono::milliseconds{number % 3 == 0 ? 20 : 1});
        }};
    workOff(numbers, pool, 3);
    EXPECT_EQ(numbers.home, kFirstTen);
}

TEST(WorkOff, NoMoreThanAskedForAreAtWorkAtOnce) {
    Pool pool{{.threads = 4}};
    std::atomic<int> atWork{0};
    std::atomic<int> most{0};
    Numbers numbers{10, [&](int, Context&) {
                        most = std::max(most.load(), ++atWork);
                        std::this_thread::sleep_for(std::chrono::milliseconds{2});
                        --atWork;
                    }};
    workOff(numbers, pool, 2);
    EXPECT_EQ(numbers.home, kFirstTen);
    EXPECT_LE(most, 2);
}

TEST(WorkOff, StoppedItGivesNoMoreAndStopsWhatIsAtWork) {
    Pool pool{{.threads = 2}};
    std::stop_source stop;
    std::atomic<int> cancelled{0};
    Numbers numbers{1000, [&](int number, Context& context) {
                        if (number == 3) {
                            stop.request_stop();
                        }
                        while (number >= 3 && !context.isCancelled()) {
                            std::this_thread::yield();
                        }
                        cancelled += number >= 3 ? 1 : 0;
                    }};
    workOff(numbers, pool, 2, stop.get_token());
    EXPECT_TRUE(numbers.isCancelled());
    EXPECT_LE(numbers.given(), 5);
    // Those before it, and the one that stopped all; its neighbour, if that was cancelled before it
    // began, does not come home.
    EXPECT_GE(numbers.home.size(), 3U);
    EXPECT_LE(static_cast<int>(numbers.home.size()), numbers.given());
    EXPECT_GE(cancelled, 1);
}

TEST(WorkOff, StoppedBeforeItDoesNothing) {
    Pool pool{{.threads = 1}};
    std::stop_source stop;
    stop.request_stop();
    Numbers numbers{10};
    workOff(numbers, pool, 2, stop.get_token());
    EXPECT_EQ(numbers.given(), 0);
}

TEST(Conveyor, PausedItGivesNothingUntilItGoesOn) {
    HomeByHand byHand;
    Pool pool{{.threads = 1}};
    const auto numbers = std::make_shared<Numbers>(10);
    Conveyor conveyor{pool, numbers, {.home = byHand.home()}};
    conveyor.go();
    EXPECT_EQ(conveyor.atWork(), "0");
    conveyor.pause();
    byHand.run(1);
    EXPECT_EQ(numbers->home, (std::vector<int>{0}));
    EXPECT_TRUE(conveyor.isIdle());
    EXPECT_EQ(numbers->given(), 1);
    conveyor.resume();
    byHand.run(9);
    EXPECT_EQ(numbers->home, kFirstTen);
}

TEST(Conveyor, APieceCancelledBeforeItBeganCancelsTheWhole) {
    HomeByHand byHand;
    Pool pool{{.threads = 1}};
    std::atomic<bool> hasBegun{false};
    const auto numbers = std::make_shared<Numbers>(10, [&hasBegun](int, Context& context) {
        hasBegun = true;
        while (!context.isCancelled()) {
            std::this_thread::yield();
        }
    });
    int moved = 0;
    Conveyor conveyor{
        pool, numbers, {.atOnce = 2, .home = byHand.home(), .moved = [&moved] { ++moved; }}};
    conveyor.go();
    const auto jobs = pool.jobs();
    ASSERT_EQ(jobs.size(), 2U);
    while (!hasBegun) {
        std::this_thread::yield();
    }
    pool.cancel(jobs[1].id);
    pool.cancel(jobs[0].id);
    byHand.runWhile([&conveyor] { return !conveyor.isIdle(); });
    EXPECT_TRUE(numbers->isCancelled());
    EXPECT_EQ(numbers->home.front(), 0);
    EXPECT_LE(numbers->given(), 3);  // one may be given before the cancelled one comes home
    EXPECT_EQ(moved, numbers->given());
}

TEST(Conveyor, NothingComesHomeAfterItsEnd) {
    HomeByHand byHand;
    Pool pool{{.threads = 1}};
    const auto numbers = std::make_shared<Numbers>(1);
    {
        Conveyor conveyor{pool, numbers, {.home = byHand.home()}};
        conveyor.go();
    }
    byHand.run(1);
    EXPECT_TRUE(numbers->home.empty());
}

TEST(Conveyor, MayGoWhileSomethingComesHome) {
    HomeByHand byHand;
    Pool pool{{.threads = 1}};
    std::unique_ptr<Conveyor> conveyor;
    const auto numbers = std::make_shared<Numbers>(3);
    conveyor = std::make_unique<Conveyor>(
        pool, numbers,
        Conveyor::Options{.home = byHand.home(), .moved = [&conveyor] { conveyor.reset(); }});
    conveyor->go();
    byHand.run(1);
    EXPECT_EQ(conveyor, nullptr);
    EXPECT_EQ(numbers->home, (std::vector<int>{0}));
}

}  // namespace
}  // namespace core::jobs
