#include <gtest/gtest.h>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;

class SecondReadings : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
    ShotId id = small.shots[0];

    void openAgain() {
        store.reset();
        store = Store::open(file).value();
    }
    [[nodiscard]] const Shot& shot() const { return *store->snapshot()->shots.find(id); }
};

TEST_F(SecondReadings, R29_WaitInTheirOrderWithMarksOfTheirOwn) {
    ASSERT_TRUE(store->setMarks(id, startAndReturn(12, 17)));
    ASSERT_TRUE(store->orderSecondReadings(std::vector{small.shots[2], id}));
    openAgain();
    const auto waiting = waitingSecondReadings(*store->snapshot());
    ASSERT_EQ(waiting.size(), 2U);
    EXPECT_EQ(waiting[0]->shot, small.shots[2]);
    EXPECT_EQ(waiting[1]->shot, id);
    EXPECT_FALSE(waiting[1]->marks.start);
    ASSERT_TRUE(store->setSecondMarks(waiting[1]->id, startAndReturn(20, 25)));
    EXPECT_EQ(shot().marks, startAndReturn(12, 17));
    openAgain();
    EXPECT_EQ(waitingSecondReadings(*store->snapshot())[1]->marks, startAndReturn(20, 25));
}

TEST_F(SecondReadings, R29_WhatIsReadIsAddedAndWaitsNoLonger) {
    const auto first = store->keepReading(readingOf(id, 1490)).value();
    ASSERT_TRUE(store->orderSecondReadings(std::vector{id}));
    const auto second = waitingSecondReadings(*store->snapshot()).front()->id;
    EXPECT_EQ(store->keepSecondReading(second, readingOf(small.shots[1], 1)).error().code,
              ErrorCode::InvalidInput);
    const auto reading = store->keepSecondReading(second, readingOf(id, 1510)).value();
    EXPECT_EQ(shot().counting, first);
    EXPECT_EQ(store->snapshot()->secondReadings.begin()->reading, reading);
    EXPECT_TRUE(waitingSecondReadings(*store->snapshot()).empty());
    EXPECT_EQ(store->keepSecondReading(second, readingOf(id, 1510)).error().code,
              ErrorCode::InvalidInput);
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(waitingSecondReadings(*store->snapshot()).size(), 1U);
    EXPECT_EQ(readingsOfShot(*store->snapshot(), id).size(), 1U);
    EXPECT_TRUE(store->faults().value().empty());
}

TEST_F(SecondReadings, R29_ANewOrderForgetsWhatWaitedAndKeepsWhatIsDone) {
    ASSERT_TRUE(store->orderSecondReadings(std::vector{id, small.shots[1]}));
    ASSERT_TRUE(store->keepSecondReading(waitingSecondReadings(*store->snapshot())[0]->id,
                                         readingOf(id, 1490)));
    ASSERT_TRUE(store->orderSecondReadings(std::vector{small.shots[2]}));
    EXPECT_EQ(store->snapshot()->secondReadings.size(), 2U);
    EXPECT_EQ(waitingSecondReadings(*store->snapshot()).front()->shot, small.shots[2]);
    EXPECT_EQ(store->orderSecondReadings(std::vector{id, id}).error().code,
              ErrorCode::InvalidInput);
}

TEST_F(SecondReadings, R29_GoWithTheirShotAndComeBackWithIt) {
    ASSERT_TRUE(store->orderSecondReadings(std::vector{id}));
    ASSERT_TRUE(store->addSecondLook(id, "wide_interval"));
    ASSERT_TRUE(store->removeShots(std::vector{id}));
    EXPECT_TRUE(store->snapshot()->secondReadings.isEmpty());
    EXPECT_TRUE(store->snapshot()->secondLooks.isEmpty());
    EXPECT_TRUE(store->faults().value().empty());
    ASSERT_TRUE(store->undo());
    openAgain();
    EXPECT_EQ(store->snapshot()->secondReadings.size(), 1U);
    EXPECT_EQ(store->snapshot()->secondLooks.size(), 1U);
}

TEST_F(SecondReadings, R29_TheLatestLookStands) {
    ASSERT_TRUE(store->addSecondLook(id, "wide_interval"));
    ASSERT_TRUE(store->addSecondLook(id, "wide_interval outlier"));
    openAgain();
    ASSERT_EQ(store->snapshot()->secondLooks.size(), 1U);
    EXPECT_EQ(store->snapshot()->secondLooks.begin()->reasons, "wide_interval outlier");
    EXPECT_EQ(store->undoText(), "Looked at shot 1 of clip b.mp4 again and kept it as it is.");
    EXPECT_EQ(store->addSecondLook({99}, "x").error().code, ErrorCode::NotFound);
}

}  // namespace
}  // namespace tests::project
