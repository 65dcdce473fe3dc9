#include <gtest/gtest.h>
#include <sqlite3.h>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;

class Efforts : public ::testing::Test {
protected:
    [[nodiscard]] std::map<ShotId, ShotEffort> byShot() const {
        return effortByShot(*store->snapshot());
    }
    /// A visit of one key and one second.
    core::Result<void> visit(ShotId shot, bool namesHidden, VisitOutcome outcome) {
        ReadingEffort effort;
        effort.shot = shot;
        effort.keys = 1;
        effort.activeSeconds = 1.0;
        effort.namesHidden = namesHidden;
        effort.outcome = outcome;
        return store->noteEfforts(std::vector{effort});
    }

    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
};

TEST_F(Efforts, R32_AreThereAtOnceAndAfterClosing) {
    ASSERT_TRUE(store->setReader("R. Reader"));
    ReadingEffort second = smallEffort(small.shots[1]);
    second.reader = "somebody else";
    second.outcome = VisitOutcome::Left;
    ASSERT_TRUE(store->noteEfforts(std::vector{smallEffort(small.shots[0]), second}));
    ReadingEffort first = smallEffort(small.shots[0]);
    first.id = {1};
    first.reader = "R. Reader";
    second.id = {2};
    for (int opening = 0; opening < 2; ++opening) {
        const auto snapshot = store->snapshot();
        ASSERT_EQ(snapshot->efforts.size(), 2U);
        EXPECT_EQ(snapshot->efforts.begin()[0], first);
        EXPECT_EQ(snapshot->efforts.begin()[1], second);
        store.reset();
        store = Store::open(file).value();
    }
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

TEST_F(Efforts, R32_AreNoEdit) {
    const auto undo = store->undoText();
    const auto lines = store->history().value().size();
    const auto revision = store->snapshot()->revision;
    int told = 0;
    const auto listening = store->listen([&told](const Store::Change&) { ++told; });
    ASSERT_TRUE(store->noteEfforts(std::vector{smallEffort(small.shots[0])}));
    EXPECT_EQ(store->undoText(), undo);
    EXPECT_EQ(store->history().value().size(), lines);
    EXPECT_EQ(store->snapshot()->revision, revision);
    EXPECT_EQ(told, 0);
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(store->snapshot()->efforts.size(), 1U) << "the time was spent all the same";
}

TEST_F(Efforts, R32_OfAShotThatIsGoneStay) {
    ASSERT_TRUE(store->noteEfforts(std::vector{smallEffort(small.shots[0])}));
    ASSERT_TRUE(store->removeShots(std::vector{small.shots[0]}));
    ASSERT_TRUE(store->noteEfforts(std::vector{smallEffort(small.shots[0])}));
    store.reset();
    store = Store::open(file).value();
    EXPECT_EQ(store->snapshot()->efforts.size(), 2U);
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

TEST_F(Efforts, R32_ImpossibleOnesAreRefusedAndNothingIsWritten) {
    ReadingEffort negative = smallEffort(small.shots[1]);
    negative.keys = -1;
    ReadingEffort endless = smallEffort(small.shots[1]);
    endless.activeSeconds = std::numeric_limits<double>::infinity();
    const ReadingEffort sound = smallEffort(small.shots[0]);
    EXPECT_EQ(store->noteEfforts(std::vector{sound, negative}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(store->noteEfforts(std::vector{sound, endless}).error().code, ErrorCode::NotFinite);
    EXPECT_TRUE(store->snapshot()->efforts.isEmpty());
    EXPECT_TRUE(store->noteEfforts(std::vector{sound}));
    EXPECT_EQ(store->snapshot()->efforts.begin()->id, EffortId{1});
}

TEST_F(Efforts, R07_AreNotWrittenByWhoMayOnlyLook) {
    store.reset();
    store = Store::openReadOnly(file).value();
    EXPECT_EQ(store->noteEfforts(std::vector{smallEffort(small.shots[0])}).error().code,
              ErrorCode::Busy);
    EXPECT_TRUE(store->snapshot()->efforts.isEmpty());
}

TEST_F(Efforts, R08_AChangedNumberIsNoticed) {
    ASSERT_TRUE(store->noteEfforts(std::vector{smallEffort(small.shots[0])}));
    store.reset();
    sqlite3* handle = nullptr;
    sqlite3_open(file.c_str(), &handle);
    sqlite3_exec(handle, "UPDATE reading_effort SET keys = 7", nullptr, nullptr, nullptr);
    sqlite3_close(handle);
    const auto opened = Store::open(file);
    ASSERT_FALSE(opened);
    EXPECT_EQ(opened.error().code, ErrorCode::Damaged);
    EXPECT_NE(opened.error().message.find("table reading_effort, row 1"), std::string::npos);
}

TEST_F(Efforts, OfAShotAreAddedUp) {
    const ShotId shot = small.shots[0];
    ASSERT_TRUE(visit(shot, false, VisitOutcome::Left));
    ASSERT_TRUE(store->noteEfforts(std::vector{smallEffort(shot)}));
    ASSERT_EQ(byShot().size(), 1U);
    EXPECT_EQ(byShot().at(shot).keys, 1 + 8);
    EXPECT_EQ(byShot().at(shot).clicks, 1);
    EXPECT_EQ(byShot().at(shot).activeSeconds, 1.0 + 6.25);
}

TEST_F(Efforts, NamesWereHiddenWhenNobodySawThemUntilTheReadingWasKept) {
    ASSERT_TRUE(visit(small.shots[0], true, VisitOutcome::Left));
    EXPECT_EQ(byShot().at(small.shots[0]).namesHidden, std::nullopt);
    ASSERT_TRUE(visit(small.shots[0], true, VisitOutcome::Kept));
    ASSERT_TRUE(visit(small.shots[0], false, VisitOutcome::Left));
    EXPECT_EQ(byShot().at(small.shots[0]).namesHidden, true) << "looked at afterwards";
    ASSERT_TRUE(visit(small.shots[0], true, VisitOutcome::Kept));
    EXPECT_EQ(byShot().at(small.shots[0]).namesHidden, false) << "read again, knowing the names";
    ASSERT_TRUE(visit(small.shots[1], false, VisitOutcome::SetAside));
    EXPECT_EQ(byShot().at(small.shots[1]).namesHidden, std::nullopt);
}

}  // namespace
}  // namespace tests::project
