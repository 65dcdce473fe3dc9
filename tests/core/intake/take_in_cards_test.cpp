#include <gtest/gtest.h>

#include "core/intake/take_in.h"
#include "tests/core/intake/card_films.h"
#include "tests/core/intake/clip_project.h"

/// A filming day taken in with its slate cards: they decide whose the shots are.
namespace tests::intake {
namespace {

namespace fs = std::filesystem;
using namespace core::intake;
using core::plan::SlateCard;

const SlateCard kGutCard{"day", "gut", "new", "hitter A"};
const SlateCard kPolyCard{"day", "poly", "worn", "hitter B"};
constexpr int kCardFrames = 15;  // at 30 per second: half a second

class TakeInCards : public ::testing::Test {
protected:
    TakeInCards() {
        store = must(core::project::Store::create(folder.path() / "p.turnmark"));
        core::project::Session day;
        day.name = "day";
        session = must(store->addSession(day));
        fs::create_directories(films);
        film("1.mp4", kGutCard);
        film("2.mp4", kPolyCard);
    }
    /// A card held before the camera, the empty scene, then one shot.
    void film(const std::string& name, const SlateCard& card) {
        const cv::Mat scene = emptyScene(1280, 720, 1);
        cv::Mat held = scene.clone();
        hold(held, card, {400.0, 640.0, 360.0, 5.0});
        std::vector<cv::Mat> frames(kCardFrames, held);
        frames.resize(2 * kCardFrames, scene);
        writeFilm(folder.file("card.mp4"), frames);
        const auto done = runProgram(
            {"ffmpeg", "-v", "error", "-y", "-i", folder.file("card.mp4"), "-i",
             (dataFolder() / "footage" / "quarter_120fps.mp4").string(), "-filter_complex",
             "[0:v]fps=120,setsar=1[c];[1:v]setsar=1[s];[c][s]concat=n=2:v=1,fps=120[v]", "-map",
             "[v]", "-c:v", "libx264", "-preset", "veryfast", "-crf", "18",
             (films / name).string()});
        if (done.status != 0) {
            throw std::runtime_error(done.errors);
        }
    }
    TakeInReport run(std::size_t stopAfter = 1000) {
        TakeIn work{*store,
                    session,
                    {films},
                    {.findShots = true, .readCards = true, .readPictures = false}};
        std::stop_source stop;
        std::size_t told = 0;
        return takeIn(work, 2, stop.get_token(), [&](const TakeInProgress&) {
            if (++told == stopAfter) {
                stop.request_stop();
            }
        });
    }
    /// The cells of the shots, clip by clip; empty for an open one.
    [[nodiscard]] std::vector<std::string> cells() const {
        const auto snapshot = store->snapshot();
        std::vector<std::string> names;
        for (const auto* shot : core::project::shotsInOrder(*snapshot)) {
            names.push_back(shot->cell ? core::project::cellName(*snapshot, *shot->cell)
                                       : std::string{});
        }
        return names;
    }
    static std::vector<std::string> bothCells() { return {"gut · hitter A", "poly · hitter B"}; }

    TemporaryFolder folder;
    fs::path films{folder.path() / "films"};
    std::unique_ptr<core::project::Store> store;
    core::project::SessionId session;
};

TEST_F(TakeInCards, SayWhoseTheFoundShotsAre) {
    const auto report = run();
    EXPECT_TRUE(report.refused.empty());
    EXPECT_EQ(report.shotsFound, 2U);
    ASSERT_TRUE(report.cards);
    EXPECT_EQ(report.cards->assigned, 2U);
    EXPECT_EQ(report.cards->leftOpen, 0U);
    EXPECT_EQ(report.cards->remarks, std::vector<std::string>{});
    EXPECT_EQ(cells(), bothCells());
    const auto again = run();
    EXPECT_FALSE(again.cards) << "no shot is open, so that no card is looked for";
    EXPECT_EQ(cells(), bothCells());
}

TEST_F(TakeInCards, StoppedAmidTheCardsTheyAreReadTheNextTime) {
    const auto report = run(5);  // two clips added, two searched, one looked through for cards
    EXPECT_TRUE(report.isCancelled);
    EXPECT_FALSE(report.cards) << "the cards of some clips only would assign wrongly";
    EXPECT_EQ(cells(), (std::vector<std::string>{"", ""}));
    EXPECT_EQ(run().cards.value().assigned, 2U);
    EXPECT_EQ(cells(), bothCells());
}

TEST_F(TakeInCards, NothingIsAssignedWhileAClipOfTheDayIsNotFound) {
    TakeIn firstOnly{*store, session, {films / "1.mp4"}, {}};
    takeIn(firstOnly, 1);
    const TemporaryFolder otherDisk;
    fs::rename(films / "1.mp4", otherDisk.path() / "1.mp4");
    const auto report = run();
    EXPECT_FALSE(report.cards);
    ASSERT_FALSE(report.refused.empty());
    EXPECT_EQ(report.refused.back().what, "slate cards");
    EXPECT_EQ(cells(), std::vector<std::string>{""});
    fs::rename(otherDisk.path() / "1.mp4", films / "1.mp4");
    EXPECT_EQ(run().cards.value().assigned, 2U);
}

}  // namespace
}  // namespace tests::intake
