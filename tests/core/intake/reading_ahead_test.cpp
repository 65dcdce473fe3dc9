#include "core/intake/reading_ahead.h"

#include <gtest/gtest.h>

#include "core/intake/take_in.h"
#include "tests/core/intake/clip_project.h"

namespace core::intake {
namespace {

using tests::must;

/// A project with one clip of one shot (tests/data/footage/README.md), and the same shot again over
/// fewer frames.
class ReadingAheadTest : public testing::Test {
protected:
    ReadingAheadTest() {
        project::Shot whole;
        whole.clip = project.clip;
        whole.lastFrame = {project.record().frameCount - 1};
        project::Shot part = whole;
        part.firstFrame = {2};
        shots = must(project.store->addShots(std::vector{whole, part}));
    }
    [[nodiscard]] ReadingAhead source() {
        return {*project.store,
                {.begun = [this](project::ShotId shot) { begun.push_back(shot); },
                 .ended = [this](const auto& outcome) { ended.push_back(outcome); }}};
    }
    void work(ReadingAhead& source) { jobs::workOff(source, jobs::Pool::ofProgram(), 1); }

    tests::intake::ClipProject project;
    std::vector<project::ShotId> shots;
    std::vector<project::ShotId> begun;
    std::vector<ReadingAhead::Outcome> ended;
};

TEST_F(ReadingAheadTest, ReadsInTheOrderOfTheQueueAndKeepsWhatItRead) {
    auto ahead = source();
    ahead.queue(shots[1]);
    ahead.queue(shots[0]);
    ahead.queue(shots[1]);  // waits already
    EXPECT_EQ(ahead.waiting(), 2U);
    work(ahead);
    EXPECT_EQ(begun, (std::vector{shots[1], shots[0]}));
    ASSERT_EQ(ended.size(), 2U);
    EXPECT_TRUE(ahead.shotsAtWork().empty());
    for (const auto& outcome : ended) {
        ASSERT_TRUE(outcome.reading.has_value()) << outcome.reading.error().message;
        EXPECT_TRUE(outcome.kept.has_value());
        EXPECT_TRUE(keptReading(*project.store, outcome.shot, outcome.request).has_value());
    }
}

TEST_F(ReadingAheadTest, WhatIsKeptIsPassedOver) {
    auto first = source();
    first.queue(shots[0]);
    work(first);
    auto second = source();
    second.setQueue({shots[0], shots[1]});
    work(second);
    EXPECT_EQ(begun, (std::vector{shots[0], shots[1]}));
}

TEST_F(ReadingAheadTest, CancelledItGivesNothing) {
    auto ahead = source();
    ahead.queue(shots[0]);
    ahead.cancel();
    work(ahead);
    EXPECT_TRUE(ended.empty());
    EXPECT_EQ(ahead.waiting(), 0U);
}

}  // namespace
}  // namespace core::intake
