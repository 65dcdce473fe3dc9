#include "core/base/scheduling.h"

#include <gtest/gtest.h>

#ifdef __linux__
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <thread>

namespace core {
namespace {

/// Of the calling thread, as the system says (getpriority(2), "C library/kernel differences").
int niceValue() {
    return getpriority(PRIO_PROCESS, 0);
}

/// Nanoseconds of the calling thread's slice of time; 0 before Linux 6.12 (sched_setattr(2)).
std::uint64_t slice() {
    struct {
        std::uint32_t size, policy;
        std::uint64_t flags;
        std::int32_t nice;
        std::uint32_t priority;
        std::uint64_t runtime, deadline, period;
    } attributes{};
    EXPECT_EQ(syscall(SYS_sched_getattr, 0, &attributes, sizeof attributes, 0), 0);
    return attributes.runtime;
}

/// How much nicer than its starter a thread is that gives way, and one that it starts.
std::pair<int, int> stepsOf(BackgroundWork work) {
    const int before = niceValue();
    int itself = 0;
    int started = 0;
    std::jthread{[&] {
        giveWay(work);
        itself = niceValue();
        std::jthread{[&] { started = niceValue(); }}.join();
    }}.join();
    EXPECT_EQ(niceValue(), before);  // nobody else gives way
    return {itself - before, started - before};
}

TEST(Scheduling, AThreadThatGivesWayAndThoseItStartsGetNicer) {
    const auto [itself, started] = stepsOf(BackgroundWork::Pictures);
    EXPECT_GT(itself, 0);
    EXPECT_EQ(started, itself);
}

TEST(Scheduling, BatchWorkGivesWayToPictures) {
    EXPECT_GT(stepsOf(BackgroundWork::Batch).first, stepsOf(BackgroundWork::Pictures).first);
}

TEST(Scheduling, AThreadOfTheBackgroundDoesNotKeepThePromptnessOfItsStarter) {
    const auto usual = slice();
    if (usual == 0) {
        GTEST_SKIP() << "This system has no slices of time for single threads.";
    }
    std::uint64_t prompt = 0;
    std::uint64_t background = 0;
    int niceBefore = 0;
    int niceAfter = 0;
    std::jthread{[&] {
        niceBefore = niceValue();
        wakePromptly();
        niceAfter = niceValue();
        prompt = slice();
        std::jthread{[&] {
            giveWay(BackgroundWork::Batch);
            background = slice();
        }}.join();
    }}.join();
    EXPECT_LT(prompt, usual);
    EXPECT_EQ(niceAfter, niceBefore);
    EXPECT_EQ(background, usual);
}

}  // namespace
}  // namespace core
#endif
