#include "core/jobs/memory_budget.h"

#include <gtest/gtest.h>

#include <thread>
#include <vector>

namespace core::jobs {
namespace {

TEST(MemoryBudget, CountsWhatEachUseHoldsAndTheMostAtOnce) {
    MemoryBudget budget{1000};
    MemoryBudget::Holding pictures{budget, MemoryUse::Pictures};
    pictures.set(300);
    {
        MemoryBudget::Holding readings{budget, MemoryUse::Readings};
        readings.set(500);
        readings.set(200);
        EXPECT_EQ(budget.counters().heldBytes,
                  (std::array<std::size_t, kMemoryUses>{300U, 0U, 200U}));
        EXPECT_EQ(budget.counters().allBytes(), 500U);
    }
    EXPECT_EQ(budget.counters().allBytes(), 300U);
    EXPECT_EQ(budget.counters().mostBytes, 800U);
    EXPECT_EQ(budget.counters().limitBytes, 1000U);
}

TEST(MemoryBudget, AllowsWhatOthersLeave) {
    MemoryBudget budget{1000};
    MemoryBudget::Holding first{budget, MemoryUse::Pictures};
    MemoryBudget::Holding second{budget, MemoryUse::CutOuts};
    first.set(600);
    EXPECT_EQ(first.allowedBytes(), 1000U);
    EXPECT_EQ(second.allowedBytes(), 400U);
    second.set(700);  // nobody is kept from it: the first must give way
    EXPECT_EQ(first.allowedBytes(), 300U);
    budget.setLimitBytes(500);
    EXPECT_EQ(first.allowedBytes(), 0U);
}

TEST(MemoryBudget, TheUsualLimitIsAtMostTwoGibibytes) {
    EXPECT_GT(MemoryBudget::usualLimitBytes(), 0U);
    EXPECT_LE(MemoryBudget::usualLimitBytes(), std::size_t{2} << 30U);
}

TEST(MemoryBudget, ManyThreadsLoseNothing) {
    MemoryBudget budget{1000};
    {
        std::vector<std::jthread> threads;
        for (int thread = 0; thread < 4; ++thread) {
            threads.emplace_back([&budget] {
                MemoryBudget::Holding holding{budget, MemoryUse::Readings};
                for (std::size_t i = 0; i < 1000; ++i) {
                    holding.set(i % 100);
                }
            });
        }
    }
    EXPECT_EQ(budget.counters().allBytes(), 0U);
    EXPECT_LE(budget.counters().mostBytes, std::size_t{4} * 99U);
    EXPECT_GE(budget.counters().mostBytes, 99U);
}

}  // namespace
}  // namespace core::jobs
