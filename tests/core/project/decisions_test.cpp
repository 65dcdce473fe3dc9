#include <gtest/gtest.h>

#include <array>
#include <limits>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;

class ProjectDecisions : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
    ShotId id = small.shots[0];

    [[nodiscard]] const Shot& shot() const { return *store->snapshot()->shots.find(id); }
};

TEST_F(ProjectDecisions, AKeptReadingCountsAndComesBackWhole) {
    ASSERT_TRUE(store->setReader("R. Reader"));
    const ReadingId reading = store->keepReading(readingOf(id, 1490.25)).value();
    store.reset();
    store = Store::open(file).value();
    EXPECT_EQ(shot().standing, ShotStanding::Kept);
    EXPECT_EQ(shot().counting, reading);
    const Reading& back = *store->snapshot()->readings.find(reading);
    EXPECT_EQ(back.rate.value.rpm, 1490.25);
    EXPECT_EQ(back.rate.sigma.rpm, 2.0);
    EXPECT_EQ(back.interval95.low.rpm, 1486.25);
    EXPECT_EQ(back.interval95.high.rpm, 1494.25);
    ASSERT_TRUE(back.bounds);
    EXPECT_EQ(back.bounds->high.rpm, 1496.25);
    EXPECT_EQ(back.reader, "R. Reader");
    EXPECT_EQ(back.madeAt.size(), std::string{"2026-05-03T09:41:07Z"}.size());
}

TEST_F(ProjectDecisions, ReadingsDoNotReplaceEachOther) {
    const ReadingId first = store->keepReading(readingOf(id, 1490)).value();
    const ReadingId second = store->keepReading(readingOf(id, 1510)).value();
    const auto snapshot = store->snapshot();
    ASSERT_EQ(readingsOfShot(*snapshot, id).size(), 2U);
    EXPECT_EQ(shot().counting, second);
    ASSERT_TRUE(store->setCounting(id, first));
    EXPECT_EQ(shot().counting, first);
    EXPECT_EQ(store->setCounting(small.shots[1], first).error().code, ErrorCode::NotFound);
}

TEST_F(ProjectDecisions, ReadingsOfSeveralShotsAreKeptInOneStep) {
    const ShotId other = small.shots[1];
    ASSERT_TRUE(store->setAside(other, "mishit"));
    const auto ids = store->keepReadings(std::array{readingOf(id, 1490), readingOf(other, 1510)});
    ASSERT_TRUE(ids) << ids.error().message;
    const auto snapshot = store->snapshot();
    EXPECT_EQ(shot().counting, ids.value().at(0));
    EXPECT_EQ(snapshot->shots.find(other)->counting, ids.value().at(1));
    EXPECT_EQ(snapshot->readings.find(ids.value().at(1))->rate.value.rpm, 1510.0);
    EXPECT_EQ(snapshot->shots.find(other)->standing, ShotStanding::Kept);
    EXPECT_EQ(snapshot->shots.find(other)->reason, "");
    ASSERT_TRUE(store->undo());
    EXPECT_TRUE(store->snapshot()->readings.isEmpty());
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

TEST_F(ProjectDecisions, OneBadReadingOfSeveralKeepsNone) {
    const Reading good = readingOf(id, 1490);
    EXPECT_EQ(store->keepReadings({}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->keepReadings(std::array{good, good}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->keepReadings(std::array{good, readingOf({99}, 1)}).error().code,
              ErrorCode::NotFound);
    EXPECT_TRUE(store->snapshot()->readings.isEmpty());
}

TEST_F(ProjectDecisions, SettingAsideNeedsAReason) {
    const ReadingId reading = store->keepReading(readingOf(id, 1490)).value();
    EXPECT_EQ(store->setAside(id, "  ").error().code, ErrorCode::InvalidInput);
    ASSERT_TRUE(store->setAside(id, " mishit "));
    EXPECT_EQ(shot().standing, ShotStanding::SetAside);
    EXPECT_EQ(shot().reason, "mishit");
    EXPECT_EQ(store->undoText(), "Set aside shot 1 of clip b.mp4: mishit.");
    ASSERT_TRUE(store->setCounting(id, reading));
    EXPECT_EQ(shot().standing, ShotStanding::SetAside);
    ASSERT_TRUE(store->reopen(id));
    EXPECT_EQ(shot().standing, ShotStanding::Open);
    EXPECT_EQ(shot().reason, "");
    EXPECT_FALSE(shot().counting);
    ASSERT_TRUE(store->setCounting(id, reading));
    EXPECT_EQ(shot().standing, ShotStanding::Kept);
}

TEST_F(ProjectDecisions, ReadingsThatAreNoNumbersAreRefused) {
    Reading reading = readingOf(id, 1490);
    reading.rate.value.rpm = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(store->keepReading(reading).error().code, ErrorCode::NotFinite);
    reading = readingOf(id, 1490);
    reading.interval95.high.rpm = std::numeric_limits<double>::infinity();
    EXPECT_EQ(store->keepReading(reading).error().code, ErrorCode::NotFinite);
    reading = readingOf(id, 1490);
    std::swap(reading.interval95.low, reading.interval95.high);
    EXPECT_EQ(store->keepReading(reading).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(store->keepReading(readingOf({99}, 1)).error().code, ErrorCode::NotFound);
    EXPECT_TRUE(store->snapshot()->readings.isEmpty());
    EXPECT_EQ(shot().standing, ShotStanding::Open);
}

TEST_F(ProjectDecisions, TheHistoryOfAShotTellsItsStory) {
    ASSERT_TRUE(store->setReader("R. Reader"));
    ASSERT_TRUE(store->setMarks(id, startAndReturn(12, 17)));
    ASSERT_TRUE(store->keepReading(readingOf(id, 1490)));
    ASSERT_TRUE(store->setDoubtful(id, true));
    ASSERT_TRUE(store->setDoubtful(small.shots[1], true));
    ASSERT_TRUE(store->undo());
    ASSERT_TRUE(store->undo());
    std::vector<std::string> told;
    const auto story = store->historyOf(id).value();
    for (const HistoryEntry& entry : story) {
        told.push_back(entry.what);
        EXPECT_EQ(entry.shot, id);
    }
    EXPECT_EQ(told, (std::vector<std::string>{
                        "Added 3 shots of clip b.mp4.",
                        ("Marked shot 1 of clip b.mp4: start at frame 12; return at frame 17 "
                         "(1 turn) added."),
                        "Kept 1490.0 rpm (1486.0 to 1494.0) for shot 1 of clip b.mp4.",
                        "Marked shot 1 of clip b.mp4 as doubtful.",
                        "Undid: Marked shot 1 of clip b.mp4 as doubtful."}));
    const auto all = store->history().value();
    EXPECT_EQ(all.front().what, "Created the project.");
    EXPECT_EQ(all.back().reader, "R. Reader");
    EXPECT_EQ(all.back().shot, id);
}

}  // namespace
}  // namespace tests::project
