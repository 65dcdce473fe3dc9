#include "core/intake/clip_places.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/intake/clip_record.h"
#include "core/intake/day_setup.h"
#include "core/intake/read_again.h"
#include "core/media/frames/frame_decoder.h"
#include "core/reading/project_reading.h"
#include "tests/core/intake/clip_project.h"
#include "tests/core/intake/clip_readings.h"

namespace tests::intake {
namespace {

using core::project::ShotId;

class PlacesOfClips : public ::testing::Test, public ClipProject {
protected:
    ShotId keepShot() {
        const auto id = readWholeClip(*store, clip);
        keepPictures(*store, id);
        return id;
    }
    [[nodiscard]] core::PixelBuffer firstPicture() const {
        const auto frames = must(store->clipFrames(clip));
        const auto decoder = must(
            core::media::FrameDecoder::open(clipFile, core::intake::indexOf(record(), *frames)));
        return must(decoder->decode({0}, {}))->rgb();
    }
    [[nodiscard]] core::project::Reading counting(ShotId shot) const {
        const auto snapshot = store->snapshot();
        return *snapshot->readings.find(*snapshot->shots.find(shot)->counting);
    }
};

TEST_F(PlacesOfClips, AClipThatStandsOnItsHeadIsDecodedUpright) {
    const auto before = firstPicture();
    must(core::intake::turnClips(*store, std::vector{clip}, 180));
    const auto after = firstPicture();
    ASSERT_EQ(after.width(), before.width());
    ASSERT_EQ(after.height(), before.height());
    const int lastX = before.width() - 1;
    const int lastY = before.height() - 1;
    for (int y = 0; y <= lastY; y += 7) {
        for (int x = 0; x <= lastX; x += 7) {
            for (int c = 0; c < 3; ++c) {
                ASSERT_EQ(after.row(y)[3 * x + c], before.row(lastY - y)[3 * (lastX - x) + c]);
            }
        }
    }
    must(core::intake::turnClips(*store, std::vector{clip}, 90));
    EXPECT_EQ(firstPicture().width(), before.height());
}

TEST_F(PlacesOfClips, ReadingsThatRestOnATurnAreListedAndReadAgain) {
    const ShotId shot = keepShot();
    const auto before = counting(shot);
    const auto resting = must(core::intake::turnClips(*store, std::vector{clip}, 180));
    EXPECT_EQ(resting, std::vector{shot});
    EXPECT_TRUE(must(core::intake::turnClips(*store, std::vector{clip}, 180)).empty())
        << "nothing changed";
    core::intake::ReadAgain again{*store, resting};
    core::jobs::workOff(again, core::jobs::Pool::ofProgram(), 1);
    EXPECT_EQ(must(again.keep()).kept, 1U);
    const auto after = counting(shot);
    EXPECT_NE(after.id, before.id);
    // A turn of the picture is none of the ball: the two agree within what frames leave open.
    EXPECT_NEAR(after.rate.value.rpm, before.rate.value.rpm,
                3.0 * std::hypot(after.rate.sigma.rpm, before.rate.sigma.rpm));
    must(store->undo());
    must(store->undo());
    EXPECT_EQ(record().turnedDegrees, 0);
    EXPECT_EQ(counting(shot).id, before.id);
}

TEST_F(PlacesOfClips, AMovedClipTakesTheFactsOfItsNewDay) {
    const ShotId shot = keepShot();
    core::project::Session day;
    day.name = "other day";
    day.ballDiameterMm = 67.0;
    const auto other = must(store->addSession(day));
    const auto resting = must(core::intake::moveToDay(*store, std::vector{clip}, other));
    EXPECT_EQ(resting, std::vector{shot}) << "another ball";
    EXPECT_EQ(record().session, other);
    EXPECT_TRUE(must(core::intake::moveToDay(*store, std::vector{clip}, other)).empty());
    must(store->undo());
    EXPECT_NE(record().session, other) << "one step";
}

TEST_F(PlacesOfClips, ANewDayIsMadeWithTheMoveAndGoesWithIt) {
    auto setUp = must(core::intake::setUpOf(*store->snapshot(), record().session));
    setUp.session.exposureSeconds = 0.001;
    must(core::intake::setUpDay(*store, setUp));
    const ShotId shot = keepShot();
    const auto before = must(core::intake::factChangeOfMove(*store, std::vector{clip}, {}));
    EXPECT_EQ(core::intake::keptShotsRestingOn(*store->snapshot(), before), std::vector{shot});
    EXPECT_FALSE(core::intake::moveToNewDay(*store, std::vector{clip}, "day")) << "there is one";
    EXPECT_EQ(store->snapshot()->sessions.size(), 1U);
    const auto moved = must(core::intake::moveToNewDay(*store, std::vector{clip}, "evening"));
    EXPECT_EQ(moved.resting, std::vector{shot}) << "of the new day no exposure is known";
    EXPECT_EQ(record().session, moved.day);
    EXPECT_EQ(store->undoText(), "Moved the clip slow.mp4 to the new filming day evening.");
    must(store->undo());
    EXPECT_EQ(store->snapshot()->sessions.size(), 1U) << "one step";
    EXPECT_NE(record().session, moved.day);
}

TEST_F(PlacesOfClips, AStrokeIsAnInputOfTheReadingAndMattersWhereItDecided) {
    const ShotId shot = keepShot();
    EXPECT_TRUE(
        must(core::intake::setStroke(*store, std::vector{shot}, core::project::Stroke::Topspin))
            .empty())
        << "the pictures decided";
    const auto request = must(core::reading::requestOf(*store->snapshot(), shot));
    EXPECT_EQ(request.facts.stroke, core::project::Stroke::Topspin);
    EXPECT_NE(core::reading::keyOf(request).find("topspin"), std::string::npos);
    // The same reading, had the stroke decided.
    auto kept = must(core::reading::keptFitFromJson(counting(shot).inputsJson));
    kept.restsOnStroke = true;
    auto reading = counting(shot);
    reading.inputsJson = core::reading::toJson(kept);
    must(store->keepReading(reading));
    EXPECT_EQ(must(core::intake::setStroke(*store, std::vector{shot}, std::nullopt)),
              std::vector{shot});
    auto setUp = must(core::intake::setUpOf(*store->snapshot(), record().session));
    setUp.session.stroke = core::project::Stroke::Backspin;
    EXPECT_EQ(must(core::intake::setUpDay(*store, setUp)), std::vector{shot});
}

}  // namespace
}  // namespace tests::intake
