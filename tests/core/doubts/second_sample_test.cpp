#include "core/doubts/second_sample.h"

#include <gtest/gtest.h>

#include <set>

#include "tests/core/doubts/doubts_project.h"

namespace tests::doubts {
namespace {

using core::doubts::drawSecondSample;
using core::doubts::shotsToSample;

class SecondSample : public ::testing::Test, protected DoubtsProject {
protected:
    SecondSample() {
        for (int i = 0; i < 10; ++i) {
            const auto shot = addShot(30 * i, 30 * i + 20);
            if (i < 8) {
                keepNumber(shot, 1500.0, 5.0);
                kept.push_back(shot);
            }
        }
    }
    std::vector<ShotId> kept;
};

TEST_F(SecondSample, IsDrawnFromKeptShotsWithoutRepeats) {
    const auto sample = drawSecondSample(*store->snapshot(), 5, 1).value();
    EXPECT_EQ(sample.size(), 5U);
    EXPECT_EQ(std::set(sample.begin(), sample.end()).size(), 5U);
    for (const auto shot : sample) {
        EXPECT_NE(std::find(kept.begin(), kept.end(), shot), kept.end());
    }
    EXPECT_EQ(drawSecondSample(*store->snapshot(), 99, 1).value().size(), 8U);
    EXPECT_EQ(shotsToSample(*store->snapshot()), 8U);
}

TEST_F(SecondSample, FollowsFromItsSeed) {
    const auto snapshot = store->snapshot();
    EXPECT_EQ(drawSecondSample(*snapshot, 8, 7).value(), drawSecondSample(*snapshot, 8, 7).value());
    EXPECT_NE(drawSecondSample(*snapshot, 8, 7).value(), drawSecondSample(*snapshot, 8, 8).value());
}

TEST_F(SecondSample, OfNothingIsRefused) {
    EXPECT_EQ(drawSecondSample(*store->snapshot(), 0, 1).error().code,
              core::ErrorCode::InvalidInput);
    EXPECT_EQ(drawSecondSample(Snapshot{}, 5, 1).error().code, core::ErrorCode::InvalidInput);
}

}  // namespace
}  // namespace tests::doubts
