#include "core/jobs/aside.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>

namespace core::jobs {
namespace {

TEST(Aside, GivesWhatTheWorkGives) {
    Aside<int> sum{[] { return 40 + 2; }};
    EXPECT_EQ(sum.get(), 42);
}

TEST(Aside, ThrowsWhatTheWorkHasThrown) {
    Aside<int> broken{[]() -> int { throw std::runtime_error("broken"); }};
    EXPECT_THROW(broken.get(), std::runtime_error);
}

TEST(Aside, IsWaitedForWhenNobodyAsks) {
    std::atomic<bool> isDone{false};
    {
        const Aside<int> unasked{[&isDone] {
            isDone = true;
            return 1;
        }};
    }
    EXPECT_TRUE(isDone);
}

/// Every thread of the program's pool waits for work put aside, which none is free for.
TEST(Aside, DoesNotWaitForAPoolThatIsBusy) {
    const unsigned all = 2 * Pool::ofProgram().threads();
    std::atomic<unsigned> sum{0};
    std::vector<std::promise<void>> ends(all);
    for (unsigned i = 0; i < all; ++i) {
        Pool::ofProgram().add("", Priority::Usual, [&sum, &end = ends[i]](Context&) {
            Aside<unsigned> one{[] { return 1U; }};
            sum += one.get();
            end.set_value();
        });
    }
    for (auto& end : ends) {
        end.get_future().wait();
    }
    EXPECT_EQ(sum, all);
}

}  // namespace
}  // namespace core::jobs
