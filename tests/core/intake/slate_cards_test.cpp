#include "core/intake/slate_cards.h"

#include <gtest/gtest.h>

#include <fstream>

#include "core/intake/clip_shots.h"
#include "core/intake/planned_cells.h"
#include "core/intake/slate_scan.h"
#include "core/plan/print.h"
#include "tests/core/intake/card_films.h"
#include "tests/core/intake/clip_project.h"

namespace tests::intake {
namespace {

namespace fs = std::filesystem;
using namespace core::intake;
using core::ErrorCode;
using core::plan::SlateCard;
using core::timebase::FrameIndex;

constexpr int kWide = 1920;
constexpr int kHigh = 1080;
constexpr double kSmallSide = 0.15 * kHigh;  // 15 % of the picture's height

const SlateCard kFirst{"Bench day", "polyester 23 kg", "new", "hitter A"};
const SlateCard kSecond{"Bench day", "Naturdarm, weiß", "worn", "Zoë"};

/// A card may be anywhere, at the smallest size, tilted, moving: every pose must be read.
TEST(SlateScan, SmallTiltedAndMovingCardsAreRead) {
    SlateScanner scanner;
    const CardPose poses[] = {{kSmallSide, 900, 500},
                              {kSmallSide, 200, 900, 12},
                              {kSmallSide, 1600, 300, -35},
                              {kSmallSide, 900, 500, 5, 30},
                              {kSmallSide, 900, 500, 0, 0, 30},
                              {kSmallSide, 700, 400, 100, 20, 15},
                              {kSmallSide, 900, 500, 3, 5, 0, 3},
                              {2.0 * kSmallSide, 900, 500, 10, 40, 10, 5}};
    unsigned seed = 1;
    for (const CardPose& pose : poses) {
        SCOPED_TRACE(seed);
        cv::Mat scene = emptyScene(kWide, kHigh, seed++);
        hold(scene, kSecond, pose);
        const core::PixelView view{scene.data, kWide, kHigh,
                                   static_cast<std::ptrdiff_t>(scene.step),
                                   core::PixelFormat::Rgb8};
        EXPECT_EQ(scanner.cardsIn(view), std::vector{kSecond});
    }
}

TEST(SlateScan, AnEmptySceneHasNoCard) {
    SlateScanner scanner;
    const cv::Mat scene = emptyScene(640, 360, 1);
    EXPECT_TRUE(scanner
                    .cardsIn({scene.data, 640, 360, static_cast<std::ptrdiff_t>(scene.step),
                              core::PixelFormat::Rgb8})
                    .empty());
}

/// A session of one film: card A (frames 6 to 35), shots at 45 and 60, card B (75 to 104), a shot
/// at 115; 30 frames per second, so that every eighth frame is looked at.
class SlateFilm : public ::testing::Test {
protected:
    void SetUp() override {
        store = must(core::project::Store::create(folder.path() / "p.turnmark"));
        core::project::Session day;
        day.name = "Bench day";
        session = must(store->addSession(day));
    }
    core::project::ClipId addFilm(const std::string& name, const std::vector<cv::Mat>& frames) {
        writeFilm(folder.file(name), frames);
        return must(addPreparedClip(*store, session,
                                    must(prepareClip(folder.path() / name, store->file()))));
    }
    core::project::ShotId addShot(core::project::ClipId clip, std::int64_t first) {
        core::project::Shot shot;
        shot.clip = clip;
        shot.firstFrame = {first};
        shot.lastFrame = {first + 4};
        return must(store->addShots(std::array{shot})).front();
    }
    [[nodiscard]] std::string cellOf(core::project::ShotId id) const {
        const auto snapshot = store->snapshot();
        const auto cell = snapshot->shots.find(id)->cell;
        return cell ? cellName(*snapshot, *cell) : std::string{};
    }
    [[nodiscard]] ClipSlates slatesOf(core::project::ClipId clip) {
        return {clip, must(readSlateCards(must(slateSearchOf(*store, clip))))};
    }
    static std::vector<cv::Mat> bothCards() {
        const cv::Mat wall = emptyScene(kWide, kHigh, 1);
        std::vector<cv::Mat> frames;
        for (int i = 0; i < 130; ++i) {
            cv::Mat scene = wall.clone();
            const bool isFirst = i >= 6 && i < 36;
            if (isFirst || (i >= 75 && i < 105)) {
                // A hand: the card drifts and turns a little, and is smeared by 3 px.
                hold(scene, isFirst ? kFirst : kSecond,
                     {kSmallSide, 800.0 + 2.0 * i, 500.0, 10.0 + 0.2 * i, 20.0, 10.0, 3});
            }
            frames.push_back(scene);
        }
        return frames;
    }

    TemporaryFolder folder;
    std::unique_ptr<core::project::Store> store;
    core::project::SessionId session;
};

TEST_F(SlateFilm, CardsAreReadAndTheirShotsAssignedOnce) {
    const auto clip = addFilm("day.mp4", bothCards());
    const ClipSlates slates = slatesOf(clip);
    ASSERT_EQ(slates.stretches.size(), 2U);
    EXPECT_EQ(slates.stretches[0], (SlateStretch{{8}, {32}, kFirst}));
    EXPECT_EQ(slates.stretches[1], (SlateStretch{{80}, {104}, kSecond}));
    const auto early = addShot(clip, 2);
    const auto first = addShot(clip, 45);
    const auto byHand = addShot(clip, 60);
    const auto last = addShot(clip, 115);
    const auto other = must(cellNamed(*store, session, {"", "gut", "", "hitter B"}));
    ASSERT_TRUE(store->assignShots(std::array{byHand}, other));

    const auto report = must(assignBySlateCards(*store, session, std::array{slates}));
    EXPECT_EQ(report.assigned, 2U);
    EXPECT_EQ(report.leftElsewhere, 1U);
    EXPECT_EQ(report.leftOpen, 1U);
    EXPECT_TRUE(report.remarks.empty());
    EXPECT_EQ(cellOf(early), "");
    EXPECT_EQ(cellOf(first), "polyester 23 kg · hitter A");
    EXPECT_EQ(cellOf(byHand), "gut · hitter B");
    EXPECT_EQ(cellOf(last), "Naturdarm, weiß · Zoë");

    const auto revision = store->snapshot()->revision;
    const auto again = must(assignBySlateCards(*store, session, std::array{slates}));
    EXPECT_EQ(store->snapshot()->revision, revision) << "doing it twice changes nothing";
    EXPECT_EQ(again.assigned, 0U);
    EXPECT_EQ(again.alreadyRight, 2U);
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(cellOf(first), "") << "one step of undo";
    EXPECT_EQ(cellOf(byHand), "gut · hitter B");
}

TEST_F(SlateFilm, ACardHoldsAcrossClipsInTheOrderOfTheirTimes) {
    // Names and times disagree on purpose: b was filmed before a.
    const std::vector<cv::Mat> scene(40, emptyScene(320, 180, 1));
    const std::vector<cv::Mat> scene2(40, emptyScene(320, 180, 2));
    const auto a = addFilm("a.mp4", scene);
    const auto b = addFilm("b.mp4", scene2);
    const auto now = fs::last_write_time(folder.path() / "b.mp4");
    fs::last_write_time(folder.path() / "a.mp4", now + std::chrono::minutes{5});
    const auto shot = addShot(a, 3);
    const ClipSlates slates[] = {{a, {}}, {b, {{{30}, {38}, kFirst}}}};
    EXPECT_EQ(must(assignBySlateCards(*store, session, slates)).assigned, 1U);
    EXPECT_EQ(cellOf(shot), "polyester 23 kg · hitter A");
}

TEST_F(SlateFilm, KeyFramesAreLookedAtAloneWhereTheyAreNear) {
    const cv::Mat wall = emptyScene(kWide, kHigh, 1);
    cv::Mat card = wall.clone();
    hold(card, kFirst, {kSmallSide, 800.0, 500.0});
    std::vector<cv::Mat> frames(95, wall);
    std::fill(frames.begin() + 20, frames.begin() + 80, card);  // two seconds
    writeFilm(folder.file("keys.mp4"), frames, 30);
    const auto clip = must(addPreparedClip(
        *store, session, must(prepareClip(folder.path() / "keys.mp4", store->file()))));
    const auto search = must(slateSearchOf(*store, clip));
    EXPECT_EQ(search.looks, (std::vector<FrameIndex>{{0}, {30}, {60}, {90}, {94}}));
    EXPECT_EQ(must(readSlateCards(search)), (std::vector{SlateStretch{{30}, {60}, kFirst}}));
}

TEST_F(SlateFilm, AShortClipIsOneShotUnlessItShowsACard) {
    cv::Mat card = emptyScene(kWide, kHigh, 1);
    hold(card, kFirst, {kSmallSide, 800.0, 500.0, 10.0, 20.0, 10.0, 3});
    const auto cardClip = addFilm("card.mp4", std::vector<cv::Mat>(40, card));
    const auto still = addFilm("still.mp4", std::vector<cv::Mat>(40, emptyScene(320, 180, 1)));
    EXPECT_TRUE(must(searchShots(must(shotSearchOf(*store, cardClip)))).empty());
    const auto found = must(searchShots(must(shotSearchOf(*store, still))));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found.front().firstFrame, FrameIndex{0});
    EXPECT_EQ(found.front().lastFrame, FrameIndex{39});
    EXPECT_FALSE(found.front().strikeFrame);
}

TEST_F(SlateFilm, WhatIsNotClearIsSaidAndStaysOpen) {
    const auto clip = addFilm("a.mp4", std::vector<cv::Mat>(120, emptyScene(320, 180, 1)));
    const auto inView = addShot(clip, 12);
    const auto unclear = addShot(clip, 60);
    SlateCard otherDay = kFirst;
    otherDay.session = "another day";
    const ClipSlates slates{clip, {{{10}, {20}, otherDay}, {{40}, {50}, std::nullopt}}};
    const auto report = must(assignBySlateCards(*store, session, std::array{slates}));
    EXPECT_EQ(report.assigned, 1U);
    EXPECT_EQ(report.leftOpen, 1U);
    EXPECT_EQ(report.remarks.size(), 3U);  // other session, shot amid the card, two cards at once
    EXPECT_EQ(cellOf(inView), "polyester 23 kg · hitter A");
    EXPECT_EQ(cellOf(unclear), "");
    const auto none = assignBySlateCards(*store, session, {});
    ASSERT_FALSE(none);
    EXPECT_EQ(none.error().code, ErrorCode::InvalidInput);
}

// What is printed is what is read: every page, as pdftoppm draws it.
TEST(PrintedSlates, AllCardsAreReadFromThePrintout) {
    core::plan::Plan plan;
    plan.session = "Bench day, outdoors";
    plan.implements = {{"Darm & Söhne <1,25>", "worn", {}}, {"polyester", "", {}}};
    plan.hitters = {"Zoë", "hitter B"};
    const TemporaryFolder folder;
    std::ofstream{folder.file("cards.pdf"), std::ios::binary}
        << must(core::plan::slateCardsPdf(plan));
    const auto done = runProgram(
        {"pdftoppm", "-r", "50", "-gray", folder.file("cards.pdf"), folder.file("page")});
    ASSERT_EQ(done.status, 0) << done.errors;
    SlateScanner scanner;
    std::vector<SlateCard> found;
    for (int page = 1; page <= 4; ++page) {
        std::ifstream pgm{folder.file("page-" + std::to_string(page) + ".pgm"), std::ios::binary};
        std::string magic;
        int width = 0;
        int height = 0;
        int white = 0;
        pgm >> magic >> width >> height >> white;
        pgm.get();
        std::vector<char> bytes(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
        pgm.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        const auto cards = scanner.cardsIn({reinterpret_cast<const std::uint8_t*>(bytes.data()),
                                            width, height, width, core::PixelFormat::Gray8});
        found.insert(found.end(), cards.begin(), cards.end());
    }
    EXPECT_EQ(found, core::plan::slateCards(plan));
}

}  // namespace
}  // namespace tests::intake
