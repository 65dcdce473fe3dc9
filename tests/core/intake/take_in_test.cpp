#include "core/intake/take_in.h"

#include <gtest/gtest.h>

#include <fstream>

#include "core/intake/clip_shots.h"
#include "tests/core/intake/clip_project.h"

namespace core::intake {
namespace {

namespace fs = std::filesystem;
using tests::must;

/// A project, and beside it a card folder with three films, a note and a film that is none.
class TakeInTest : public testing::Test {
protected:
    TakeInTest() {
        const fs::path footage = tests::dataFolder() / "footage";
        fs::create_directories(card / "day");
        fs::copy_file(footage / "half_120fps.mp4", card / "b.MP4");
        fs::copy_file(footage / "quarter_120fps.mp4", card / "day" / "a.mp4");
        fs::copy_file(footage / "band_240fps.mp4", card / "no_extension");
        fs::copy_file(footage / "half_120fps.mp4", card / "day" / "copy of b.mp4");
        std::ofstream{card / "notes.txt"} << "wind from the left\n";
        std::ofstream{card / "broken.mov"} << "not a film at all\n";
        store = must(project::Store::create(folder.path() / "p.turnmark"));
        project::Session day;
        day.name = "day";
        day.date = "2026-01-01";
        session = must(store->addSession(day));
    }
    TakeInReport run(TakeInOptions options, std::size_t stopAfter = 1000) {
        TakeIn work{*store, session, {card}, options};
        std::stop_source stop;
        std::size_t told = 0;
        return takeIn(work, 2, stop.get_token(), [&](const TakeInProgress& progress) {
            EXPECT_LE(progress.done, progress.of);
            EXPECT_LE(progress.share, 1.0);
            if (++told == stopAfter) {
                stop.request_stop();
            }
        });
    }
    tests::TemporaryFolder folder;
    fs::path card{folder.path() / "card"};
    std::unique_ptr<project::Store> store;
    project::SessionId session;
};

TEST_F(TakeInTest, FilmsAreKnownByExtensionAndByContent) {
    const auto files = filmFilesOf({card, card / "b.MP4", folder.path() / "missing"});
    EXPECT_EQ(files.films,
              (std::vector<fs::path>{card / "b.MP4", card / "broken.mov", card / "day" / "a.mp4",
                                     card / "day" / "copy of b.mp4", card / "no_extension"}));
    EXPECT_EQ(files.passedOver, 1U);
    ASSERT_EQ(files.refused.size(), 1U);
    EXPECT_NE(files.refused.front().what.find("missing"), std::string::npos);
}

TEST_F(TakeInTest, TakesEachContentOnceAndNamesWhatItRefuses) {
    const auto report = run({});
    EXPECT_EQ(report.added, 3U);
    EXPECT_EQ(report.alreadyThere, 1U);  // the copy
    ASSERT_EQ(report.refused.size(), 1U);
    EXPECT_NE(report.refused.front().what.find("broken.mov"), std::string::npos);
    EXPECT_FALSE(report.refused.front().reason.empty());
    const auto lines = must(store->history()).size();
    const auto again = run({});
    EXPECT_EQ(again.added, 0U);
    EXPECT_EQ(again.alreadyThere, 4U);
    EXPECT_EQ(store->snapshot()->clips.size(), 3U);
    EXPECT_EQ(must(store->history()).size(), lines);
}

TEST_F(TakeInTest, ClipsThatHaveMovedAreFoundAgainWhenTheirFolderIsAdded) {
    run({});
    const tests::TemporaryFolder elsewhere;
    const fs::path disk = elsewhere.path() / "disk";
    fs::copy(card, disk, fs::copy_options::recursive);
    fs::remove_all(card);
    card = disk;
    const auto report = run({});
    EXPECT_EQ(report.added, 0U);
    EXPECT_EQ(report.foundAgain, 3U);
    const auto snapshot = store->snapshot();
    for (const auto& clip : snapshot->clips) {
        EXPECT_TRUE(fs::exists(store->file().parent_path() / clip.path)) << clip.path;
    }
    EXPECT_EQ(run({}).foundAgain, 0U);
}

TEST_F(TakeInTest, CancelledAnywhereItGoesOn) {
    const TakeInOptions all{.findShots = true, .readCards = false, .readPictures = true};
    std::size_t runs = 0;
    while (run(all, runs + 1).isCancelled) {  // each is cancelled one step later
        ASSERT_LT(++runs, 20U);
    }
    EXPECT_GE(runs, 5U);  // there are five files
    const auto snapshot = store->snapshot();
    EXPECT_EQ(snapshot->clips.size(), 3U);
    EXPECT_EQ(snapshot->shots.size(), 3U);  // each film is of one shot (its README.md)
    for (const auto& clip : snapshot->clips) {
        EXPECT_TRUE(clip.wasSearchedForShots) << clip.path;
    }
    for (const auto& shot : snapshot->shots) {
        EXPECT_TRUE(must(store->archiveOf(shot.id)).has_value());
    }
    const auto again = run(all);
    EXPECT_EQ(again.searched, 0U);
    EXPECT_EQ(again.shotsRead, 0U);
    EXPECT_TRUE(must(store->faults()).empty());
}

TEST_F(TakeInTest, AClipWithoutShotsIsNotSearchedAgain) {
    run({});
    const auto clip = store->snapshot()->clips.begin()->id;
    EXPECT_TRUE(must(addNewShots(*store, clip, {})).empty());
    EXPECT_TRUE(store->snapshot()->clips.find(clip)->wasSearchedForShots);
    const auto report = run({.findShots = true, .readCards = false, .readPictures = false});
    EXPECT_EQ(report.searched, 2U);
    EXPECT_TRUE(project::shotsOfClip(*store->snapshot(), clip).empty());
}

}  // namespace
}  // namespace core::intake
