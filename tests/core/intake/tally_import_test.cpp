#include <gtest/gtest.h>

#include <chrono>
#include <fstream>

#include "core/intake/find_clip.h"
#include "core/intake/tallies.h"
#include "core/reading/project_reading.h"
#include "tests/core/intake/clip_project.h"

namespace tests::intake {
namespace {

using namespace core::intake;
using core::ErrorCode;
using core::spin::CountingHabit;
using core::timebase::CaptureRate;

constexpr double kTolRpm = 1e-6;  // of a few divisions, relative to some 1000 rpm

class TallyImportTest : public ::testing::Test {
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
    core::Result<ImportedTally> import(const std::filesystem::path& file, TallySource source = {},
                                       const TallyProgress& progress = {}) {
        source.project = store->snapshot();
        const auto sheet = must(readTallySheet(file));
        const auto tally = must(readTally(sheet, proposeLayout(sheet), source));
        return importTally(*store, session, file, tally, source, progress);
    }
    static TallySource counted(CountingHabit habit, std::optional<CaptureRate> rate = {}) {
        TallySource source;
        source.habit = habit;
        source.rate = rate;
        return source;
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
TEST_F(TallyImportTest, WholeFrameCountsHaveTheirHonestLimits) {
    const auto file = write("t.csv",
                            "Implement,Hitter,Shot,Start frame,Return frame,Turns,fps\n"
                            "gut,A,1,100,110,1,240\npoly,B,1,7,31,5,120\n");
    EXPECT_EQ(must(import(file, counted(CountingHabit::Both))).added, 2U);
    const auto first = readingOf(0);
    ASSERT_TRUE(first.bounds.has_value());
    EXPECT_NEAR(first.bounds->low.rpm, 14400.0 / 11.0, kTolRpm);
    EXPECT_NEAR(first.bounds->high.rpm, 1600.0, kTolRpm);
    EXPECT_GT(first.interval95.low.rpm, first.bounds->low.rpm);
    EXPECT_LT(first.interval95.high.rpm, first.bounds->high.rpm);
    const auto second = readingOf(1);
    EXPECT_NEAR(second.bounds->low.rpm, 1440.0, kTolRpm);
    EXPECT_NEAR(second.bounds->high.rpm, 36000.0 / 23.0, kTolRpm);
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

// 10 frames at 240 per second: what the count leaves of the period by each habit, in frames, and
// the rates 14400 divided by that.
TEST_F(TallyImportTest, EveryHabitHasItsLimitsAndIsKept) {
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
        ASSERT_EQ(must(import(file, counted(expected.habit))).added, 1U);
        const auto reading = readingOf(static_cast<int>(shot++));
        EXPECT_EQ(reading.habit, expected.habit);
        ASSERT_TRUE(reading.bounds.has_value());
        EXPECT_NEAR(reading.bounds->low.rpm, 14400.0 / expected.longest, kTolRpm) << name;
        EXPECT_NEAR(reading.bounds->high.rpm, 14400.0 / expected.shortest, kTolRpm) << name;
    }
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

// Equal counts share what was computed once: every reading must still be the one of its own marks.
TEST_F(TallyImportTest, EveryReadingIsThatOfItsOwnMarks) {
    const auto file = write("t.csv", "racket,who,1,2,3,4\ngut,A,5,6,5,6\npoly,A,6,5,7,5\n");
    EXPECT_EQ(must(import(file, counted(CountingHabit::Unknown, CaptureRate{{120}}))).added, 8U);
    const auto snapshot = store->snapshot();
    for (const auto* shot : shotsInOrder(*snapshot)) {
        const auto& reading = *snapshot->readings.find(*shot->counting);
        const auto frames = must(store->clipFrames(shot->clip));
        const auto fresh = must(core::reading::readMarks(*snapshot, *shot, *frames));
        EXPECT_NEAR(reading.rate.value.rpm, fresh.estimate.rpm, kTolRpm);
        EXPECT_NEAR(reading.interval95.low.rpm, fresh.interval95.low.rpm, kTolRpm);
        const auto again = must(core::reading::readAgain(reading, *frames));
        EXPECT_NEAR(reading.rate.value.rpm, again.estimate.rpm, kTolRpm);
        EXPECT_EQ(must(core::reading::marksInputsFromJson(reading.inputsJson)).marks, shot->marks);
    }
}

TEST_F(TallyImportTest, ShotsHaveTheirCellsAndNoFootage) {
    const auto file = write(
        "t.csv", "racket;player;condition;frames/turn\ngut;A;new;10\ngut;A;worn;9\ngut;B;new;8\n");
    EXPECT_EQ(must(import(file, counted(CountingHabit::Both, CaptureRate{{240}}))).added, 3U);
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

TEST_F(TallyImportTest, AttributesAndTheKnownConditionAreKept) {
    core::project::Implement known;
    known.name = "gut";
    known.condition = "worn";
    known.attributes = {{"price", "12"}};
    must(store->addImplement(known));
    const auto file =
        write("t.csv", "racket,who,frames,fps,mass,price\ngut,A,10,240,95,\npoly,A,9,240,97,15\n");
    EXPECT_EQ(must(import(file)).added, 2U);
    const auto snapshot = store->snapshot();
    ASSERT_EQ(snapshot->implements.size(), 2U);
    using Attributes = std::map<std::string, std::string>;
    EXPECT_EQ(snapshot->implements.begin()->attributes,
              (Attributes{{"mass", "95"}, {"price", "12"}}));
    EXPECT_EQ((snapshot->implements.begin() + 1)->attributes,
              (Attributes{{"mass", "97"}, {"price", "15"}}));
}

TEST_F(TallyImportTest, TheSameFileTwiceAddsNothing) {
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

TEST_F(TallyImportTest, WhatHoldsUpIsListedAndNothingIsImported) {
    const auto file = write("t.csv",
                            "racket,who,frames,fps\ngut,A,10,240\nGut,A,10,240\ngut,A,ten,240\n"
                            "gut,A,100,240\ngut,A,11,240\n");
    const auto done = import(file);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::InvalidInput);
    for (const char* part : {"t.csv: nothing was imported", "Row 4, column C", "Row 5, column C",
                             R"("gut" and "Gut")"}) {
        EXPECT_NE(done.error().message.find(part), std::string::npos) << done.error().message;
    }
    EXPECT_TRUE(store->snapshot()->clips.isEmpty());
    TallySource decided;
    decided.leaveOutBadRows = true;
    decided.acceptImprobable = true;
    decided.alike = AlikeNames::Join;
    EXPECT_EQ(must(import(file, decided)).added, 4U);
    EXPECT_EQ(store->snapshot()->implements.size(), 1U);
}

TEST_F(TallyImportTest, ATableWithoutCountsIsRefused) {
    const auto done = import(write("t.csv", "racket,who,frames,fps\n"));
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::InvalidInput);
}

// Linear: four times the rows may take four times as long, with room for a busy machine and for
// what grows by a logarithm. Quadratic work would take sixteen times as long.
TEST_F(TallyImportTest, TimeGrowsWithTheRowsAndProgressIsTold) {
    constexpr double kMostGrowth = 9.0;
    const auto secondsFor = [this](int rows, const std::string& name) {
        std::string text = "racket,who,frames,fps\n";
        for (int i = 0; i < rows; ++i) {
            text += "r" + std::to_string(i % 20) + ",A," + std::to_string(5 + i % 5) + ",120\n";
        }
        const auto file = write(name, text);
        std::vector<double> told;
        const auto begin = std::chrono::steady_clock::now();
        EXPECT_EQ(must(import(file, {}, [&told](double share) { told.push_back(share); })).added,
                  static_cast<std::size_t>(rows));
        const auto end = std::chrono::steady_clock::now();
        EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
        EXPECT_EQ(told.empty() ? 0.0 : told.back(), 1.0);
        must(store->undo());
        return std::chrono::duration<double>(end - begin).count();
    };
    const double few = secondsFor(1500, "few.csv");
    const double many = secondsFor(6000, "many.csv");
    EXPECT_LT(many, kMostGrowth * few) << few << " s and " << many << " s";
}

}  // namespace
}  // namespace tests::intake
