#include "core/jobs/recycled_memory.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <thread>
#include <vector>

#ifdef __linux__
#include <sys/resource.h>
#endif

namespace core::jobs {
namespace {

constexpr std::size_t kMebibyte = std::size_t{1} << 20U;

void fill(const RecycledMemory::Block& block, int value) {
    std::fill_n(block.data, block.bytes, static_cast<std::byte>(value));
}

TEST(RecycledMemory, GivesWhatCameBackToTheNextOfThatSize) {
    RecycledMemory memory;
    const auto first = memory.take(3 * kMebibyte);
    ASSERT_NE(first.data, nullptr);
    EXPECT_GE(first.bytes, 3 * kMebibyte);
    EXPECT_EQ(memory.counters().takenBytes, first.bytes);
    memory.giveBack(first);
    EXPECT_EQ(memory.counters().takenBytes, 0U);
    EXPECT_EQ(memory.counters().waitingBytes, first.bytes);
    const auto second = memory.take(3 * kMebibyte);
    EXPECT_EQ(second.data, first.data);
    EXPECT_EQ(memory.counters().waitingBytes, 0U);
    memory.giveBack(second);
}

TEST(RecycledMemory, BlocksThatAreTakenTogetherShareNoByte) {
    RecycledMemory memory;
    std::vector<RecycledMemory::Block> blocks;
    for (int i = 0; i < 12; ++i) {
        blocks.push_back(memory.take(i % 2 == 0 ? 3 * kMebibyte : 5 * kMebibyte + 1));
        fill(blocks.back(), i);
    }
    for (int i = 0; i < 12; ++i) {
        const auto& block = blocks[static_cast<std::size_t>(i)];
        EXPECT_TRUE(std::all_of(block.data, block.data + block.bytes,
                                [i](std::byte b) { return b == static_cast<std::byte>(i); }));
        memory.giveBack(block);
    }
}

TEST(RecycledMemory, WhatWaitsNeverAddsToNewMemory) {
    RecycledMemory memory;
    std::vector<RecycledMemory::Block> blocks;
    for (int i = 0; i < 20; ++i) {
        blocks.push_back(memory.take(3 * kMebibyte));
    }
    for (const auto& block : blocks) {
        memory.giveBack(block);
    }
    EXPECT_GE(memory.counters().waitingBytes, 60 * kMebibyte);
    const auto other = memory.take(4 * kMebibyte);
    EXPECT_EQ(memory.counters().waitingBytes, 0U);
    EXPECT_EQ(memory.counters().takenBytes, other.bytes);
    memory.giveBack(other);
    memory.letGo();
    EXPECT_EQ(memory.counters().waitingBytes, 0U);
}

TEST(RecycledMemory, SaysWhenTheSystemHasNoMemory) {
    RecycledMemory memory;
    EXPECT_EQ(memory.take(SIZE_MAX).data, nullptr);
    EXPECT_EQ(memory.take(std::size_t{1} << 62U).data, nullptr);
    EXPECT_EQ(memory.counters().takenBytes, 0U);
}

#ifdef __linux__

std::size_t residentBytes() {
    std::ifstream statm{"/proc/self/statm"};
    std::size_t all = 0;
    std::size_t resident = 0;
    statm >> all >> resident;
    return resident * 4096;
}

// A picture of 2160p, forty times: recycled memory faults for its first time only, and what it
// leaves behind goes back to the system.
TEST(RecycledMemory, IsTouchedForTheFirstTimeOnceAndGoesBackToTheSystem) {
    RecycledMemory memory;
    const auto faults = [] {
        rusage usage{};
        getrusage(RUSAGE_SELF, &usage);
        return usage.ru_minflt;
    };
    const std::size_t before = residentBytes();
    const auto once = [&] {
        std::array<RecycledMemory::Block, 4> blocks;
        for (auto& block : blocks) {
            block = memory.take(12 * kMebibyte);
            fill(block, 1);
        }
        for (const auto& block : blocks) {
            memory.giveBack(block);
        }
    };
    once();
    EXPECT_GE(residentBytes(), before + 47 * kMebibyte);
    const auto first = faults();
    for (int i = 0; i < 40; ++i) {
        once();
    }
    EXPECT_LT(faults() - first, 100);  // 480 MiB in pages of 4 KiB are 122,880
    memory.letGo();
    EXPECT_LT(residentBytes(), before + 8 * kMebibyte);
}

#endif

TEST(RecycledMemory, ManyThreadsTakeAndGiveBack) {
    RecycledMemory memory;
    {
        std::vector<std::jthread> threads;
        for (int thread = 0; thread < 4; ++thread) {
            threads.emplace_back([&memory, thread] {
                for (int i = 0; i < 100; ++i) {
                    const auto block =
                        memory.take(static_cast<std::size_t>(1 + (i + thread) % 3) << 16U);
                    fill(block, thread);
                    const auto wrong = std::count_if(
                        block.data, block.data + block.bytes,
                        [thread](std::byte b) { return b != static_cast<std::byte>(thread); });
                    EXPECT_EQ(wrong, 0);
                    memory.giveBack(block);
                }
            });
        }
    }
    EXPECT_EQ(memory.counters().takenBytes, 0U);
}

}  // namespace
}  // namespace core::jobs
