#include <gtest/gtest.h>
#include <sqlite3.h>

#include <fstream>
#include <iterator>

#include "core/project/file/database.h"
#include "tests/core/project/project_maker.h"
#include "tests/support/reference_csv.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
namespace fs = std::filesystem;

std::string bytesOf(const fs::path& file) {
    std::ifstream stream{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{stream}, {}};
}

void writeBytes(const fs::path& file, const std::string& bytes) {
    std::ofstream{file, std::ios::binary} << bytes;
}

/// Runs SQL on a file as another program would. Gives back SQLite's message, empty when it worked.
std::string runSql(const fs::path& file, const std::string& sql) {
    sqlite3* handle = nullptr;
    sqlite3_open(file.c_str(), &handle);
    char* message = nullptr;
    sqlite3_exec(handle, ("PRAGMA foreign_keys = ON;" + sql).c_str(), nullptr, nullptr, &message);
    std::string said = message != nullptr ? message : "";
    sqlite3_free(message);
    sqlite3_close(handle);
    return said;
}

class ProjectFormat : public ::testing::Test {
protected:
    /// A closed project with everything in it.
    SmallProject writeProject() {
        auto store = Store::create(file).value();
        SmallProject small = fill(*store);
        EXPECT_TRUE(store->keepReading(readingOf(small.shots[0], 1490)));
        return small;
    }
    /// The file is refused with the code, and neither it nor its folder changes.
    void expectRefused(ErrorCode code) {
        const std::string before = bytesOf(file);
        const auto names = folder.names();
        const auto opened = Store::open(file);
        ASSERT_FALSE(opened);
        EXPECT_EQ(opened.error().code, code) << opened.error().message;
        EXPECT_NE(opened.error().message.find("p.turnmark"), std::string::npos);
        EXPECT_EQ(bytesOf(file), before);
        EXPECT_EQ(folder.names(), names);
    }

    TemporaryFolder folder;
    fs::path file = folder.path() / "p.turnmark";
};

TEST_F(ProjectFormat, R01_OneFileIsLeftAfterClosing) {
    writeProject();
    EXPECT_EQ(folder.names(), std::vector<std::string>{"p.turnmark"});
    const std::string bytes = bytesOf(file);
    EXPECT_EQ(bytes.substr(0, 16), std::string("SQLite format 3\0", 16));
    EXPECT_EQ(bytes[18], 1);
    EXPECT_EQ(bytes[19], 1);
}

TEST_F(ProjectFormat, R01_TheFileIsCompleteBetweenEdits) {
    const auto store = Store::create(file).value();
    fill(*store);
    const std::string content = contentOf(*store->snapshot());
    // The copy is made by a child process: closing the file here would drop the store's lock.
    const fs::path copy = folder.path() / "copy.turnmark";
    ASSERT_EQ(std::system(("cp '" + file.string() + "' '" + copy.string() + "'").c_str()), 0);
    const auto opened = Store::open(copy);
    ASSERT_TRUE(opened) << opened.error().message;
    EXPECT_EQ(contentOf(*opened.value()->snapshot()), content);
}

TEST_F(ProjectFormat, R01_AnotherKindOfJournalIsRefused) {
    writeProject();
    EXPECT_EQ(runSql(file, "PRAGMA journal_mode = WAL"), "");
    expectRefused(ErrorCode::Damaged);
}

TEST_F(ProjectFormat, R02_TheApplicationIdIsTmrk) {
    writeProject();
    EXPECT_EQ(bytesOf(file).substr(68, 4), "TMRK");
}

TEST_F(ProjectFormat, R02_AnotherDatabaseIsForeign) {
    EXPECT_EQ(runSql(file, "CREATE TABLE shot (id INTEGER PRIMARY KEY)"), "");
    expectRefused(ErrorCode::ForeignFile);
}

TEST_F(ProjectFormat, R02_AnyOtherFileIsForeign) {
    for (const std::string& content :
         {std::string{"a shopping list"}, std::string{"S"}, std::string(5000, '\0')}) {
        writeBytes(file, content);
        expectRefused(ErrorCode::ForeignFile);
    }
    writeBytes(file, "");
    expectRefused(ErrorCode::ForeignFile);
}

TEST_F(ProjectFormat, R02_AMissingFileAndAFolderAreSaid) {
    EXPECT_EQ(Store::open(file).error().code, ErrorCode::NotFound);
    fs::create_directory(file);
    EXPECT_EQ(Store::open(file).error().code, ErrorCode::Unreadable);
}

TEST_F(ProjectFormat, R03_TheFormatNumberIsSeven) {
    writeProject();
    EXPECT_EQ(bytesOf(file).substr(60, 4), std::string("\0\0\0\7", 4));
}

TEST_F(ProjectFormat, R03_AFileOfFormatOneIsRead) {
    fs::copy_file(tests::dataFolder() / "project" / "v1_small.turnmark", file);
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    Store& store = *opened.value();
    const Snapshot& all = *store.snapshot();
    EXPECT_EQ(all.reader, "R. Reader");
    EXPECT_EQ(all.settings.at("noticeable_step_rpm"), "300");
    ASSERT_EQ(all.shots.size(), 3U);
    const Shot& first = *all.shots.begin();
    EXPECT_EQ(cellName(all, first.cell.value()), "polyester 23 kg · hitter A");
    EXPECT_EQ(first.marks, startAndReturn(12, 17));
    EXPECT_EQ(all.readings.find(first.counting.value())->rate.value.rpm, 1490.25);
    EXPECT_EQ(all.shots.begin()[1].reason, "mishit");
    EXPECT_EQ(store.clipFrames(first.clip).value()->stamps.ticks[599], 599 * 375);
    EXPECT_FALSE(store.redoText()) << "what was undone was about a shot (R35)";
    EXPECT_EQ(store.faults().value(), std::vector<std::string>{});
}

TEST_F(ProjectFormat, R05_AFileOfFormatOneIsBroughtUpToDate) {
    fs::copy_file(tests::dataFolder() / "project" / "v1_small.turnmark", file);
    const std::string before = bytesOf(file);
    {
        const auto opened = Store::open(file);
        ASSERT_TRUE(opened) << opened.error().message;
        EXPECT_TRUE(planOf(*opened.value()->snapshot()).isEmpty());
        ASSERT_TRUE(opened.value()->setPlan(smallPlan()));
        ASSERT_TRUE(opened.value()->undo());
        EXPECT_EQ(opened.value()->undo().error().code, ErrorCode::NotFound)
            << "the steps before are about shots (R35)";
        EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
    }
    EXPECT_EQ(folder.names(), (std::vector<std::string>{"p (format 1).turnmark", "p.turnmark"}));
    EXPECT_EQ(bytesOf(file).substr(60, 4), std::string("\0\0\0\7", 4));
    EXPECT_EQ(before.substr(60, 4), std::string("\0\0\0\1", 4));
}

TEST_F(ProjectFormat, R23_AFileOfFormatTwoIsRead) {
    fs::copy_file(tests::dataFolder() / "project" / "v2_plan.turnmark", file);
    auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    EXPECT_EQ(planOf(*opened.value()->snapshot()), smallPlan());
    EXPECT_EQ(opened.value()->snapshot()->shots.size(), 3U);
    const core::project::ShotId third = (opened.value()->snapshot()->shots.begin() + 2)->id;
    EXPECT_EQ(opened.value()->archiveOf(third).value(), smallArchive());
    EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
    opened.value().reset();
    EXPECT_EQ(folder.names(), (std::vector<std::string>{"p (format 2).turnmark", "p.turnmark"}));
}

TEST_F(ProjectFormat, R29_AFileOfFormatThreeIsRead) {
    fs::copy_file(tests::dataFolder() / "project" / "v3_second.turnmark", file);
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    const auto snapshot = opened.value()->snapshot();
    ASSERT_EQ(snapshot->secondLooks.size(), 1U);
    EXPECT_EQ(snapshot->secondLooks.begin()->reasons, "stroboscope");
    ASSERT_EQ(waitingSecondReadings(*snapshot).size(), 1U);
    EXPECT_EQ(waitingSecondReadings(*snapshot).front()->shot, snapshot->shots.begin()->id);
    EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
}

TEST_F(ProjectFormat, R05_AFileOfFormatThreeIsBroughtUpToDate) {
    fs::copy_file(tests::dataFolder() / "project" / "v3_second.turnmark", file);
    {
        const auto opened = Store::open(file);
        ASSERT_TRUE(opened) << opened.error().message;
        EXPECT_TRUE(opened.value()->snapshot()->efforts.isEmpty());
        const core::project::ShotId first = opened.value()->snapshot()->shots.begin()->id;
        ASSERT_TRUE(opened.value()->noteEfforts(std::vector{smallEffort(first)}));
        EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
    }
    EXPECT_EQ(folder.names(), (std::vector<std::string>{"p (format 3).turnmark", "p.turnmark"}));
    EXPECT_EQ(bytesOf(file).substr(60, 4), std::string("\0\0\0\7", 4));
}

TEST_F(ProjectFormat, R32_AFileOfFormatFourIsRead) {
    fs::copy_file(tests::dataFolder() / "project" / "v4_effort.turnmark", file);
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    const auto snapshot = opened.value()->snapshot();
    ASSERT_EQ(snapshot->efforts.size(), 1U);
    core::project::ReadingEffort expected = smallEffort(snapshot->shots.begin()->id);
    expected.id = {1};
    expected.reader = "R. Reader";
    EXPECT_EQ(*snapshot->efforts.begin(), expected);
    EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
}

TEST_F(ProjectFormat, R33_AFileOfFormatFourGivesClipsTheirFacts) {
    fs::copy_file(tests::dataFolder() / "project" / "v4_clip_facts.turnmark", file);
    {
        const auto opened = Store::open(file);
        ASSERT_TRUE(opened) << opened.error().message;
        Store& store = *opened.value();
        const Clip& clip = *store.snapshot()->clips.begin();
        EXPECT_EQ(clip.lensFocalLengthMm, 26.0);
        EXPECT_TRUE(clip.wasSearchedForShots);
        const std::vector<ClipRemark> onTheFile{
            {"lens", {}, "The file gives the lens as 26 mm."},
            {"gap", core::timebase::FrameIndex{2}, "One frame is missing."}};
        EXPECT_EQ(clip.remarks, onTheFile);
        const std::vector<ClipRemark> onTheClock{
            {"stamps_not_used", {}, "The time stamps are not used."}};
        EXPECT_EQ(clip.clockRemarks, onTheClock);
        EXPECT_EQ(clip.clock->relativeSigma, 0.001);
        EXPECT_EQ(store.faults().value(), std::vector<std::string>{});
        EXPECT_FALSE(store.undoText()) << "every step was about a clip or a shot (R35)";
        EXPECT_FALSE(store.redoText());
    }
    EXPECT_EQ(folder.names(), (std::vector<std::string>{"p (format 4).turnmark", "p.turnmark"}));
}

/// The step that can be undone touches the clip itself.
TEST_F(ProjectFormat, R33_NothingIsLeftToUndoAfterTheLastStepTouchedAClip) {
    fs::copy_file(tests::dataFolder() / "project" / "v4_clip_facts.turnmark", file);
    ASSERT_EQ(runSql(file, "DELETE FROM undo_step WHERE id > (SELECT max(id) - 2 FROM undo_step)"),
              "");
    const auto id = std::to_string([&] {
        const auto database = Database::open(file).value();
        return database->integer("SELECT max(id) FROM undo_step").value();
    }());
    const Row position = sealed({std::int64_t{1}, std::int64_t{std::stoll(id)}});
    ASSERT_EQ(runSql(file, "UPDATE undo_position SET last_done_step_id = " + id + ", row_check = " +
                               std::to_string(std::get<std::int64_t>(position[2]))),
              "");
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    Store& store = *opened.value();
    EXPECT_FALSE(store.undoText());
    EXPECT_FALSE(store.redoText());
    EXPECT_EQ(store.faults().value(), std::vector<std::string>{});
    ASSERT_TRUE(store.addHitter({{}, "hitter Z"}));
    EXPECT_TRUE(store.undo());
}

TEST_F(ProjectFormat, R33_AFileOfFormatFiveIsRead) {
    fs::copy_file(tests::dataFolder() / "project" / "v5_clip_facts.turnmark", file);
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    const Clip& clip = *opened.value()->snapshot()->clips.begin();
    EXPECT_EQ(clip.lensFocalLengthMm, 26.0);
    EXPECT_TRUE(clip.wasSearchedForShots);
    ASSERT_EQ(clip.clockRemarks.size(), 1U);
    EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
}

/// 10 and 11 frames at 240 per second and 24 frames a turn over 5 turns at 120, as format 5 kept
/// them.
TEST_F(ProjectFormat, R34_CountsOfFormatFiveHaveAHabitThatIsNotKnown) {
    fs::copy_file(tests::dataFolder() / "project" / "v5_tally.turnmark", file);
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    const auto snapshot = opened.value()->snapshot();
    ASSERT_EQ(snapshot->readings.size(), 4U);
    std::size_t counted = 0;
    for (const auto& reading : snapshot->readings) {
        const auto* shot = snapshot->shots.find(reading.shot);
        const bool isCount = isTally(*snapshot->clips.find(shot->clip));
        counted += isCount ? 1U : 0U;
        EXPECT_EQ(reading.habit.has_value(), isCount);
        EXPECT_EQ(reading.habit.value_or(core::spin::CountingHabit::Unknown),
                  core::spin::CountingHabit::Unknown);
        EXPECT_FALSE(reading.viewRelativeSigma);
    }
    EXPECT_EQ(counted, 3U);
    EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
    EXPECT_NE(runSql(file, "UPDATE reading SET rate_rpm = 1"), "") << "a reading never changes";
}

TEST_F(ProjectFormat, R34_AFileOfFormatSixIsRead) {
    fs::copy_file(tests::dataFolder() / "project" / "v6_habit.turnmark", file);
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    const auto& reading = *opened.value()->snapshot()->readings.begin();
    EXPECT_EQ(reading.habit, core::spin::CountingHabit::After);
    EXPECT_EQ(reading.viewRelativeSigma, 0.0025);
    EXPECT_EQ(opened.value()->faults().value(), std::vector<std::string>{});
}

TEST_F(ProjectFormat, R35_AFileOfFormatSixKnowsNoNotesStrokesAndTurns) {
    fs::copy_file(tests::dataFolder() / "project" / "v6_habit.turnmark", file);
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    Store& store = *opened.value();
    const auto snapshot = store.snapshot();
    ASSERT_EQ(snapshot->shots.size(), 3U);
    for (const Shot& shot : snapshot->shots) {
        EXPECT_EQ(shot.note, "");
        EXPECT_FALSE(shot.stroke);
    }
    EXPECT_EQ(snapshot->sessions.begin()->stroke, Stroke::NotKnown);
    EXPECT_EQ(snapshot->clips.begin()->turnedDegrees, 0);
    EXPECT_EQ(store.faults().value(), std::vector<std::string>{});
    EXPECT_TRUE(fs::exists(folder.path() / "p (format 6).turnmark"));
    ASSERT_TRUE(store.setShotNote(snapshot->shots.begin()->id, "windy"));
    ASSERT_TRUE(store.undo());
    EXPECT_FALSE(store.undoText()) << "earlier steps describe rows without these columns";
}

TEST_F(ProjectFormat, R35_AFileOfFormatSevenIsRead) {
    fs::copy_file(tests::dataFolder() / "project" / "v7_notes.turnmark", file);
    const auto opened = Store::open(file);
    ASSERT_TRUE(opened) << opened.error().message;
    Store& store = *opened.value();
    const auto snapshot = store.snapshot();
    const Shot& first = *snapshot->shots.begin();
    EXPECT_EQ(first.note, "the ball touched the net");
    EXPECT_EQ(first.stroke, Stroke::Backspin);
    EXPECT_EQ(snapshot->sessions.begin()->stroke, Stroke::Topspin);
    const Clip& clip = *snapshot->clips.begin();
    EXPECT_EQ(clip.turnedDegrees, 180);
    EXPECT_EQ(clip.rotationDegrees, 180);
    EXPECT_EQ(store.faults().value(), std::vector<std::string>{});
    ASSERT_TRUE(store.undo());
    EXPECT_EQ(store.snapshot()->clips.begin()->turnedDegrees, 0);
}

TEST_F(ProjectFormat, R23_ASecondPlanIsAFault) {
    writeProject();
    {
        const auto store = Store::open(file).value();
        ASSERT_TRUE(store->setPlan(smallPlan()));
    }
    const Row row = sealed({std::int64_t{2}, core::plan::planToJson(smallPlan())});
    EXPECT_EQ(runSql(file, "INSERT INTO plan VALUES (2, '" + std::get<std::string>(row[1]) + "', " +
                               std::to_string(std::get<std::int64_t>(row[2])) + ")"),
              "");
    EXPECT_EQ(Store::open(file).value()->faults().value(),
              std::vector<std::string>{"There is more than one plan of the filming day."});
}

TEST_F(ProjectFormat, R04_ANewerFormatIsRefused) {
    writeProject();
    EXPECT_EQ(runSql(file, "PRAGMA user_version = 8"), "");
    expectRefused(ErrorCode::NewerVersion);
}

TEST_F(ProjectFormat, R07_TheSameProgramCannotOpenItTwice) {
    const auto store = Store::create(file).value();
    EXPECT_EQ(Store::open(file).error().code, ErrorCode::Busy);
    EXPECT_TRUE(store->addHitter({{}, "hitter A"}));
    fs::create_symlink(file, folder.path() / "link.turnmark");
    EXPECT_EQ(Store::open(folder.path() / "link.turnmark").error().code, ErrorCode::Busy);
}

// CRC-32 by Python's zlib.crc32 over the bytes that R08 describes, packed with struct ('<q', '<d').
TEST_F(ProjectFormat, R08_TheCheckNumberIsTheCrcOfTheValues) {
    const Row row{std::int64_t{-7}, std::string{"Größe"}, Value{}, 1490.25, Blob{0, 255, 16}};
    EXPECT_EQ(rowCheck(row), 3599143099);
    EXPECT_TRUE(unsealed(sealed(row)));
}

TEST_F(ProjectFormat, R08_AValueChangedByAnotherProgramIsNoticed) {
    writeProject();
    EXPECT_EQ(runSql(file, "UPDATE hitter SET name = 'hitter Z' WHERE id = 1"), "");
    expectRefused(ErrorCode::Damaged);
    EXPECT_NE(Store::open(file).error().message.find("table hitter, row 1"), std::string::npos);
}

TEST_F(ProjectFormat, R06_ARowThatRefersToNothingIsRefused) {
    const auto refusal = [&](const std::string& sql) {
        fs::remove(file);
        writeProject();
        EXPECT_EQ(runSql(file, "PRAGMA foreign_keys = OFF;" + sql), "");
        expectRefused(ErrorCode::Damaged);
        return Store::open(file).error().message;
    };
    const auto names = [](const std::string& said, const char* row) {
        return said.find(row) != std::string::npos && said.find("refers") != std::string::npos;
    };
    EXPECT_TRUE(names(refusal("DELETE FROM reading"), "table shot, row 1"));
    EXPECT_TRUE(names(refusal("DELETE FROM clip"), "table shot, row 1"));
    EXPECT_TRUE(names(refusal("DELETE FROM session"), "table clip, row 1"));
}

TEST_F(ProjectFormat, R12_R15_TheTablesRefuseWhatCannotBe) {
    writeProject();
    for (const char* sql :
         {"UPDATE shot SET standing = 'kept' WHERE id = 2",
          "UPDATE shot SET standing = 'set_aside' WHERE id = 2",
          "UPDATE shot SET reason = 'because' WHERE id = 2",
          "UPDATE shot SET counting_reading_id = 1, standing = 'kept' WHERE id = 2",
          "UPDATE shot SET first_frame = last_frame + 1", "UPDATE shot SET clip_id = 99",
          "UPDATE shot SET ordinal = 'one'", "UPDATE session SET marking = 'stripes'",
          "UPDATE clip SET clock_kind = NULL", "UPDATE clip SET playback_rate_den = 0",
          "INSERT INTO cell VALUES (NULL, 1, 1, 99, 0)", "DELETE FROM clip"}) {
        EXPECT_NE(runSql(file, sql), "") << sql;
    }
}

TEST_F(ProjectFormat, R16_AReadingIsNeverChanged) {
    writeProject();
    EXPECT_EQ(runSql(file, "UPDATE reading SET rate_rpm = 1"), "a reading is never changed");
}

TEST_F(ProjectFormat, R17_TheHistoryOnlyGrows) {
    writeProject();
    EXPECT_EQ(runSql(file, "UPDATE history SET what = 'x'"), "the history is never changed");
    EXPECT_EQ(runSql(file, "DELETE FROM history"), "the history is never shortened");
    EXPECT_EQ(runSql(file, "UPDATE history_shot SET shot_id = 9"), "the history is never changed");
    EXPECT_EQ(runSql(file, "DELETE FROM history_shot"), "the history is never shortened");
}

TEST_F(ProjectFormat, R18_AStepThatIsDamagedIsNotApplied) {
    writeProject();
    EXPECT_EQ(runSql(file,
                     "UPDATE undo_step SET changeset = x'5401' "
                     "WHERE id = (SELECT max(id) FROM undo_step)"),
              "");
    const auto store = Store::open(file).value();
    const std::string before = contentOf(*store->snapshot());
    EXPECT_EQ(store->undo().error().code, ErrorCode::Damaged);
    EXPECT_EQ(contentOf(*store->snapshot()), before);
    EXPECT_EQ(store->faults().value().size(), 1U);
}

TEST_F(ProjectFormat, CreatingDoesNotReplaceAFile) {
    writeBytes(file, "mine");
    EXPECT_EQ(Store::create(file).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(bytesOf(file), "mine");
    EXPECT_EQ(Store::create(folder.path() / "none" / "p.turnmark").error().code,
              ErrorCode::WriteFailed);
    writeBytes(folder.path() / "q.turnmark-journal", "left");
    EXPECT_EQ(Store::create(folder.path() / "q.turnmark").error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(folder.names(), (std::vector<std::string>{"p.turnmark", "q.turnmark-journal"}));
}

}  // namespace
}  // namespace tests::project
