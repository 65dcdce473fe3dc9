#include "core/intake/tallies.h"

#include <gtest/gtest.h>

#include <fstream>

#include "core/intake/find_clip.h"
#include "tests/core/intake/clip_project.h"

namespace tests::intake {
namespace {

using namespace core::intake;
using core::ErrorCode;
using core::spin::CountingHabit;
using core::timebase::CaptureRate;

constexpr double kArithmetic = 1e-6;  // of a few divisions, relative to some 1000 rpm

class TallyTest : public ::testing::Test {
protected:
    void SetUp() override {
        store = must(core::project::Store::create(folder.path() / "p.turnmark"));
        core::project::Session day;
        day.name = "old notes";
        session = must(store->addSession(day));
    }
    std::filesystem::path write(const std::string& name, const std::string& text) const {
        std::ofstream{folder.file(name), std::ios::binary} << text;
        return folder.path() / name;
    }
    core::Result<ImportedTally> import(const std::filesystem::path& file,
                                       std::optional<CaptureRate> rate = {},
                                       CountingHabit habit = CountingHabit::Both) {
        const auto table = must(readTableFile(file));
        return importTally(*store, session, file, table, proposeMapping(table), {rate, habit});
    }
    /// The reading that counts of the n-th shot.
    [[nodiscard]] core::project::Reading readingOf(int n) const {
        const auto snapshot = store->snapshot();
        const auto shots = shotsInOrder(*snapshot);
        return *snapshot->readings.find(*shots.at(static_cast<std::size_t>(n))->counting);
    }

    TemporaryFolder folder;
    std::unique_ptr<core::project::Store> store;
    core::project::SessionId session;
};

// 10 whole frames at 240 a second: the start is one of the frames around the true start, and so is
// the return, so one turn took more than 9 and less than 11 intervals: 60·240/11 = 1309.1 and
// 60·240/9 = 1600 rpm. 24 frames over 5 turns at 120: 60·120·5/25 = 1440 and 60·120·5/23 = 1565.2.
TEST_F(TallyTest, WholeFrameCountsHaveTheirHonestLimits) {
    const auto file = write("t.csv",
                            "Implement,Hitter,Shot,Start frame,Return frame,Turns,fps\n"
                            "gut,A,1,100,110,1,240\npoly,B,1,7,31,5,120\n");
    EXPECT_EQ(must(import(file)).added, 2U);
    const auto first = readingOf(0);
    ASSERT_TRUE(first.bounds.has_value());
    EXPECT_NEAR(first.bounds->low.rpm, 14400.0 / 11.0, kArithmetic);
    EXPECT_NEAR(first.bounds->high.rpm, 1600.0, kArithmetic);
    EXPECT_GT(first.interval95.low.rpm, first.bounds->low.rpm);
    EXPECT_LT(first.interval95.high.rpm, first.bounds->high.rpm);
    const auto second = readingOf(1);
    EXPECT_NEAR(second.bounds->low.rpm, 1440.0, kArithmetic);
    EXPECT_NEAR(second.bounds->high.rpm, 36000.0 / 23.0, kArithmetic);
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

// 10 frames at 240 per second: what the count leaves of the period by each habit, in frames, and
// the rates 14400 divided by that.
TEST_F(TallyTest, EveryHabitHasItsLimitsAndIsKept) {
    struct Expected {
        CountingHabit habit;
        double shortest;
        double longest;
    };
    std::size_t shot = 0;
    for (const Expected& expected :
         {Expected{CountingHabit::Nearest, 9.5, 10.5}, Expected{CountingHabit::Both, 9.0, 11.0},
          Expected{CountingHabit::After, 9.0, 10.0}, Expected{CountingHabit::Unknown, 9.0, 11.0}}) {
        const std::string name{core::spin::habitName(expected.habit)};
        // a blank more in each file: equal content would be known
        const auto file = write(name + ".csv", "implement,hitter,frames,fps" +
                                                   std::string(shot + 1, ' ') + "\ngut,A,10,240\n");
        ASSERT_EQ(must(import(file, {}, expected.habit)).added, 1U);
        const auto reading = readingOf(static_cast<int>(shot++));
        EXPECT_EQ(reading.habit, expected.habit);
        ASSERT_TRUE(reading.bounds.has_value());
        EXPECT_NEAR(reading.bounds->low.rpm, 14400.0 / expected.longest, kArithmetic) << name;
        EXPECT_NEAR(reading.bounds->high.rpm, 14400.0 / expected.shortest, kArithmetic) << name;
    }
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

TEST_F(TallyTest, ShotsHaveTheirCellsAndNoFootage) {
    const auto file = write(
        "t.csv", "racket;player;condition;frames/turn\ngut;A;new;10\ngut;A;worn;9\ngut;B;new;8\n");
    EXPECT_EQ(must(import(file, CaptureRate{{240}})).added, 3U);
    const auto snapshot = store->snapshot();
    ASSERT_EQ(snapshot->clips.size(), 1U);
    const auto& clip = *snapshot->clips.begin();
    EXPECT_TRUE(isTally(clip));
    EXPECT_EQ(clip.path, "t.csv");
    EXPECT_EQ(snapshot->implements.size(), 2U);
    EXPECT_EQ(snapshot->hitters.size(), 2U);
    EXPECT_EQ(snapshot->cells.size(), 3U);
    for (const auto& shot : snapshot->shots) {
        EXPECT_EQ(shot.standing, core::project::ShotStanding::Kept);
        EXPECT_TRUE(shot.cell.has_value());
    }
    EXPECT_EQ(findClip(*store, clip.id).error().code, ErrorCode::Unsupported);
    EXPECT_TRUE(missingClips(*snapshot, store->file()).empty());
    ASSERT_TRUE(store->undo());
    EXPECT_TRUE(store->snapshot()->clips.isEmpty()) << "one step of undo";
    EXPECT_TRUE(store->snapshot()->implements.isEmpty());
}

TEST_F(TallyTest, TheSameFileTwiceAddsNothing) {
    const std::string text = "implement,hitter,frames,fps\ngut,A,10,240\ngut,A,11,120\n";
    EXPECT_EQ(must(import(write("t.csv", text))).added, 2U);
    EXPECT_EQ(store->snapshot()->clips.size(), 2U) << "two capture rates";
    const auto revision = store->snapshot()->revision;
    for (const char* name : {"t.csv", "copy.csv"}) {
        const auto again = must(import(write(name, text)));
        EXPECT_EQ(again.added, 0U);
        EXPECT_EQ(again.alreadyThere, 2U);
    }
    EXPECT_EQ(store->snapshot()->revision, revision);
    const auto grown = import(write("t.csv", text + "gut,A,12,240\n"));
    ASSERT_FALSE(grown);
    EXPECT_EQ(grown.error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->snapshot()->revision, revision);
}

TEST_F(TallyTest, BadRowsAreListedAndNothingIsImported) {
    const auto file = write("t.csv",
                            "implement,hitter,frames per turn,turns,fps\n"
                            "gut,A,10,1,240\ngut,,10,1,240\ngut,A,ten,1,240\ngut,A,4.75,2,240\n"
                            "gut,A,10,0,240\ngut,A,1,1,240\ngut,A,10,1,\n");
    const auto done = import(file);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::InvalidInput);
    for (const char* place : {"Row 3, column B", "Row 4, column C: \"ten\"", "Row 5, column C",
                              "Row 6, column D", "Row 7, column C", "Row 8, column E"}) {
        EXPECT_NE(done.error().message.find(place), std::string::npos) << done.error().message;
    }
    EXPECT_EQ(done.error().message.find("Row 2"), std::string::npos);
    EXPECT_TRUE(store->snapshot()->clips.isEmpty());
}

// "1,000" frames a second once became 1: 12 rpm in the place of 12000.
TEST_F(TallyTest, ANumberWithTwoReadingsIsAskedAbout) {
    const std::string text = "implement;hitter;frames;fps\ngut;A;5;";
    const auto done = import(write("t.csv", text + "1,000\n"));
    ASSERT_FALSE(done);
    EXPECT_NE(done.error().message.find("Row 2, column D: \"1,000\" can mean 1000 or 1.000"),
              std::string::npos)
        << done.error().message;
    EXPECT_EQ(must(import(write("t.csv", text + "1 000\n"))).added, 1U);
    EXPECT_NEAR(readingOf(0).bounds->low.rpm, 10000.0, kArithmetic);  // 60 · 1000 / 6
}

TEST_F(TallyTest, HeadersAreProposedAndCanBeSet) {
    const auto table = must(core::readTextTable("Player\tRacquet\tstart\tend\tCapture rate\tx\n"));
    TallyMapping mapping = proposeMapping(table);
    EXPECT_EQ(mapping.of(TallyColumn::Hitter), std::optional<std::size_t>{0});
    EXPECT_EQ(mapping.of(TallyColumn::Implement), std::optional<std::size_t>{1});
    EXPECT_EQ(mapping.of(TallyColumn::StartFrame), std::optional<std::size_t>{2});
    EXPECT_EQ(mapping.of(TallyColumn::ReturnFrame), std::optional<std::size_t>{3});
    EXPECT_EQ(mapping.of(TallyColumn::CaptureRate), std::optional<std::size_t>{4});
    EXPECT_EQ(mapping.of(TallyColumn::FramesPerTurn), std::nullopt);
    mapping.set(TallyColumn::Hitter, std::nullopt);
    EXPECT_EQ(readTally(table, mapping, {}).error().code, ErrorCode::InvalidInput);
    mapping.set(TallyColumn::Hitter, 6);
    EXPECT_EQ(readTally(table, mapping, {}).error().code, ErrorCode::InvalidInput);
}

TEST_F(TallyTest, CountsAreReadWithCommaAndOverSeveralTurns) {
    const auto table = must(core::readTextTable("implement;hitter;frames/turn;turns\ng;A;4,8;5\n"));
    const auto tally = must(readTally(table, proposeMapping(table), CaptureRate{{120}}));
    ASSERT_EQ(tally.shots.size(), 1U) << tally.faults.front().message;
    EXPECT_EQ(tally.shots[0].frames, 24);
    EXPECT_EQ(tally.shots[0].turns, 5);
    const auto noRate = readTally(table, proposeMapping(table), {});
    EXPECT_EQ(noRate.error().code, ErrorCode::InvalidInput);
}

TEST_F(TallyTest, FilesThatAreNotThereOrNoTableAreNamed) {
    EXPECT_EQ(readTableFile(folder.path() / "none.csv").error().code, ErrorCode::NotFound);
    const auto bad = readTableFile(write("bad.csv", "a\n\xFF\n"));
    ASSERT_FALSE(bad);
    EXPECT_NE(bad.error().message.find("bad.csv"), std::string::npos);
}

}  // namespace
}  // namespace tests::intake
