#include <gtest/gtest.h>

#include <stdexcept>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
using core::fail;
using core::ok;
using core::Result;

class ProjectTogether : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
    std::vector<Store::Change> changes;
    std::shared_ptr<void> token =
        store->listen([this](const Store::Change& change) { changes.push_back(change); });
};

TEST_F(ProjectTogether, ManyEditsAreOneStepOneLineAndOneNotice) {
    const auto lines = store->history().value().size();
    const std::string before = contentOf(*store->snapshot());
    ASSERT_TRUE(store->together("Set two aside.", [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(store->setAside(small.shots[0], "wind"));
        BOOST_OUTCOME_TRY(store->setAside(small.shots[2], "wind"));
        EXPECT_EQ(store->snapshot()->shots.find(small.shots[2])->reason, "wind");
        EXPECT_TRUE(changes.empty());
        return ok();
    }));
    EXPECT_EQ(store->history().value().size(), lines + 1);
    EXPECT_EQ(store->undoText(), "Set two aside.");
    ASSERT_EQ(changes.size(), 1U);
    EXPECT_EQ(changes[0].shots, (std::vector{small.shots[0], small.shots[2]}));
    EXPECT_EQ(store->historyOf(small.shots[2]).value().back().what, "Set two aside.");
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(contentOf(*store->snapshot()), before);
}

TEST_F(ProjectTogether, AnExceptionLeavesNothingAndTheStoreGoesOn) {
    const std::string before = contentOf(*store->snapshot());
    const auto done = store->together("Tried.", [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(store->setAside(small.shots[0], "wind"));
        throw std::runtime_error{"sizes differ"};
    });
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::Unexpected);
    EXPECT_EQ(contentOf(*store->snapshot()), before);
    EXPECT_TRUE(changes.empty());
    EXPECT_TRUE(store->setAside(small.shots[0], "wind"));
    EXPECT_TRUE(store->undo());
    EXPECT_EQ(contentOf(*store->snapshot()), before);
}

TEST_F(ProjectTogether, AFailureLeavesNothing) {
    const std::string before = contentOf(*store->snapshot());
    const std::int64_t revision = store->snapshot()->revision;
    const auto done = store->together("Tried.", [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(store->setAside(small.shots[0], "wind"));
        BOOST_OUTCOME_TRY(store->addHitter({{}, "hitter C"}));
        return fail(ErrorCode::Unsupported, "no");
    });
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::Unsupported);
    EXPECT_EQ(contentOf(*store->snapshot()), before);
    EXPECT_EQ(store->snapshot()->revision, revision);
    EXPECT_TRUE(changes.empty());
    store.reset();
    store = Store::open(file).value();
    EXPECT_EQ(contentOf(*store->snapshot()), before);
}

TEST_F(ProjectTogether, AnInnerFailureThatIsDealtWithLeavesTheRest) {
    ASSERT_TRUE(store->together("Did what could be done.", [&]() -> Result<void> {
        const auto inner = store->together("Inner.", [&]() -> Result<void> {
            BOOST_OUTCOME_TRY(store->setAside(small.shots[0], "wind"));
            return store->setAside(small.shots[1], "");
        });
        EXPECT_FALSE(inner);
        return store->setAside(small.shots[2], "sun");
    }));
    EXPECT_EQ(store->snapshot()->shots.find(small.shots[0])->standing, ShotStanding::Open);
    EXPECT_EQ(store->snapshot()->shots.find(small.shots[2])->standing, ShotStanding::SetAside);
    const std::string after = contentOf(*store->snapshot());
    EXPECT_EQ(store->historyOf(small.shots[0]).value().size(), 1U);
    store.reset();
    store = Store::open(file).value();
    EXPECT_EQ(contentOf(*store->snapshot()), after);
}

TEST_F(ProjectTogether, ASentenceIsNeeded) {
    EXPECT_EQ(store->together(" ", [] { return Result<void>{ok()}; }).error().code,
              ErrorCode::InvalidInput);
}

TEST_F(ProjectTogether, TwoNamesMayBeSwappedAndTheSwapUndone) {
    const std::string before = contentOf(*store->snapshot());
    ASSERT_TRUE(store->together("Swapped the names.", [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(store->changeImplement({small.implement, "between", "", {}}));
        BOOST_OUTCOME_TRY(
            store->changeImplement({small.otherImplement, "polyester 23 kg", "new", {}}));
        return store->changeImplement({small.implement, "gut 24 kg", "worn", {}});
    }));
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(contentOf(*store->snapshot()), before);
}

TEST_F(ProjectTogether, ListenersAreToldInOrderAndMayLeave) {
    std::string order;
    auto second = store->listen([&order](const Store::Change&) { order += '2'; });
    const auto third = store->listen([&](const Store::Change&) {
        order += '3';
        second.reset();
    });
    ASSERT_TRUE(store->setDoubtful(small.shots[0], true));
    ASSERT_TRUE(store->setDoubtful(small.shots[0], false));
    EXPECT_EQ(order, "233");
}

TEST_F(ProjectTogether, AnEditByAListenerIsToldAfterTheOneThatCausedIt) {
    std::vector<std::int64_t> seen;
    bool isFirst = true;
    const auto editor = store->listen([&](const Store::Change&) {
        if (std::exchange(isFirst, false)) {
            EXPECT_TRUE(store->setDoubtful(small.shots[1], true));
        }
    });
    const auto watcher = store->listen(
        [&](const Store::Change& change) { seen.push_back(change.snapshot->revision); });
    const std::int64_t revision = store->snapshot()->revision;
    ASSERT_TRUE(store->setDoubtful(small.shots[0], true));
    EXPECT_EQ(seen, (std::vector{revision + 1, revision + 2}));
}

TEST_F(ProjectTogether, AChangeSaysWhatItTouched) {
    ASSERT_TRUE(store->addHitter({{}, "hitter C"}));
    ASSERT_TRUE(store->setClipPath(small.clip, "c.mp4"));
    ASSERT_TRUE(store->setSetting("a", "b"));
    ASSERT_TRUE(store->keepReading(readingOf(small.shots[1], 1500)));
    ASSERT_EQ(changes.size(), 4U);
    EXPECT_TRUE(changes[0].structure && !changes[0].clips && changes[0].shots.empty());
    EXPECT_TRUE(changes[1].clips && changes[1].allShots && !changes[1].structure);
    EXPECT_TRUE(changes[2].settings && !changes[2].clips);
    EXPECT_EQ(changes[3].shots, std::vector{small.shots[1]});
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(changes[4].shots, std::vector{small.shots[1]});
}

TEST_F(ProjectTogether, AChangeNamesTheIdsOfEveryKind) {
    const HitterId hitter = store->addHitter({{}, "hitter C"}).value();
    EXPECT_EQ(changes.back().hitters, std::vector{hitter});
    ASSERT_TRUE(store->setClipPath(small.clip, "c.mp4"));
    EXPECT_EQ(changes.back().clips, std::vector{small.clip});
    const ReadingId reading = store->keepReading(readingOf(small.shots[1], 1500)).value();
    EXPECT_EQ(changes.back().readings, std::vector{reading});
    ASSERT_TRUE(store->orderSecondReadings(std::vector{small.shots[2], small.shots[0]}));
    EXPECT_EQ(changes.back().secondReadings.size(), 2U);
    EXPECT_FALSE(changes.back().shots);
    ASSERT_TRUE(store->removeShots(std::vector{small.shots[1], small.shots[2]}));
    EXPECT_TRUE(changes.back().shots.contains(small.shots[1]));
    EXPECT_TRUE(changes.back().shots.contains(small.shots[2]));
    EXPECT_EQ(changes.back().readings, std::vector{reading});
    EXPECT_EQ(changes.back().secondReadings.size(), 1U);
    EXPECT_FALSE(changes.back().hitters || changes.back().clips || changes.back().sessions);
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(changes.back().readings, std::vector{reading});
}

TEST_F(ProjectTogether, ATokenMayOutliveTheStore) {
    store.reset();
    token.reset();
    EXPECT_TRUE(changes.empty());
}

TEST_F(ProjectTogether, SnapshotsDoNotChange) {
    const SnapshotPtr old = store->snapshot();
    const Shot* untouched = old->shots.find(small.shots[1]);
    ASSERT_TRUE(store->setAside(small.shots[0], "wind"));
    EXPECT_EQ(old->shots.find(small.shots[0])->standing, ShotStanding::Open);
    // What did not change is shared and not copied.
    EXPECT_EQ(store->snapshot()->shots.find(small.shots[1]), untouched);
}

}  // namespace
}  // namespace tests::project
