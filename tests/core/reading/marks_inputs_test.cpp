#include <gtest/gtest.h>

#include "core/media/file/lens.h"
#include "core/reading/inputs_json.h"
#include "core/reading/project_reading.h"

#include "tests/core/project/project_maker.h"

namespace tests::reading {
namespace {

using namespace core::project;
using namespace core::reading;
using core::ErrorCode;
using tests::project::clipNamed;
using tests::project::framesOf;
using tests::project::shotOver;
using tests::project::startAndReturn;
namespace spin = core::spin;
namespace timebase = core::timebase;

constexpr double kTolRpm = 1e-9;       // a few ulp at 1500 rpm
constexpr double kTolRadians = 1e-12;  // a few ulp of an angle near one

/// A snapshot of one session, one clip counted at 120 a second, one shot with start 0 and return 5.
class MarksOfAShot : public ::testing::Test {
protected:
    MarksOfAShot() {
        session.id = {1};
        clip = clipNamed("b.mp4", {1}, 100);
        clip.id = {1};
        clip.clock->counted = timebase::CaptureRate{{120}};
        shot = shotOver({1}, 0, 50);
        shot.id = {1};
        shot.marks = startAndReturn(0, 5);
    }
    [[nodiscard]] Snapshot snapshot() const {
        Snapshot all;
        all.reader = "R. Reader";
        all.sessions = Entities<Session>{std::vector{session}};
        all.clips = Entities<Clip>{std::vector{clip}};
        all.shots = Entities<Shot>{std::vector{shot}};
        return all;
    }
    [[nodiscard]] auto read() const { return readMarks(snapshot(), shot, frames); }
    [[nodiscard]] spin::ReadingContext context() const {
        return marksInputsOf(snapshot(), shot, frames).value().context;
    }

    Session session;
    Clip clip;
    ClipFrames frames = framesOf(100);
    Shot shot;
};

// Five whole frames per turn at 120 frames per second are 1440 rpm (common practice, no source);
// the instant lies within half a frame of frame 5, so the rate in [60·120/5.5, 60·120/4.5].
TEST_F(MarksOfAShot, FiveFramesPerTurnAt120AreRead) {
    const auto reading = read();
    ASSERT_TRUE(reading) << reading.error().message;
    EXPECT_NEAR(reading.value().marked.rpm, 1440.0, kTolRpm);
    ASSERT_TRUE(reading.value().bounds);
    EXPECT_NEAR(reading.value().bounds->low.rpm, 7200.0 / 5.5, kTolRpm);
    EXPECT_NEAR(reading.value().bounds->high.rpm, 7200.0 / 4.5, kTolRpm);
}

// The same film written to play at 30 frames a second: ticks of 1/90000 s, 3000 a frame, stretch 4.
TEST_F(MarksOfAShot, AStretchedClockGivesTheSameRate) {
    clip.clock =
        ClockSetting{.kind = timebase::ClockKind::Stretched, .stretch = {4}, .counted = {}};
    for (std::size_t i = 0; i < 100; ++i) {
        frames.stamps.ticks[i] = 3000 * static_cast<std::int64_t>(i);
    }
    const auto reading = read();
    ASSERT_TRUE(reading) << reading.error().message;
    EXPECT_NEAR(reading.value().marked.rpm, 1440.0, kTolRpm);
}

TEST_F(MarksOfAShot, AKeptReadingCanBeComputedAgain) {
    const auto reading = read().value();
    const Reading kept = makeMarksReading(snapshot(), shot, frames, reading);
    EXPECT_EQ(kept.rate.value, reading.estimate);
    EXPECT_EQ(kept.rate.sigma, reading.standardUncertainty);
    EXPECT_EQ(kept.interval95, reading.interval95);
    EXPECT_EQ(kept.bounds, reading.bounds);
    EXPECT_EQ(kept.reader, "R. Reader");
    EXPECT_EQ(kept.methodVersion, kMarksMethodVersion);
    const auto again = readAgain(kept, frames);
    ASSERT_TRUE(again) << again.error().message;
    EXPECT_EQ(again.value().estimate, reading.estimate);
    EXPECT_EQ(again.value().interval95, reading.interval95);
    Reading fit = kept;
    fit.method = ReadingMethod::RotationFit;
    EXPECT_EQ(readAgain(fit, frames).error().code, ErrorCode::Unsupported);
}

TEST_F(MarksOfAShot, AnUnsettledClockIsRefusedWithTheReason) {
    clip.clock.reset();
    const auto nobody = read();
    ASSERT_FALSE(nobody);
    EXPECT_EQ(nobody.error().code, ErrorCode::InvalidInput);
    EXPECT_NE(nobody.error().message.find("b.mp4"), std::string::npos);
    clip.evidence = {timebase::ContainerTag{"com.android.capture.fps", {{240}}, false},
                     timebase::ReviewerEntry{{{120}}, {}}};
    const auto conflict = read();
    ASSERT_FALSE(conflict);
    EXPECT_EQ(conflict.error().code, ErrorCode::Contradiction);
    EXPECT_NE(conflict.error().message.find("240"), std::string::npos);
    EXPECT_NE(conflict.error().message.find("120"), std::string::npos);
}

TEST_F(MarksOfAShot, ErrorsOfTheMarksAreHandedOn) {
    shot.marks.returns.clear();
    EXPECT_EQ(read().error().code, ErrorCode::InvalidInput);
    shot.clip = {9};
    EXPECT_EQ(read().error().code, ErrorCode::NotFound);
}

TEST_F(MarksOfAShot, TheSessionGivesSymmetryAndExposure) {
    session.marking = BallMarking::Band;
    session.exposureSeconds = 0.0005;
    const auto context = this->context();
    EXPECT_EQ(context.symmetryOrder, 2);
    EXPECT_EQ(context.exposure, core::Seconds{0.0005});
    EXPECT_EQ(context.rollingShutter.kind, spin::RollingShutter::Kind::NotAssessed);
    EXPECT_EQ(context.lineOfSight.kind, spin::LineOfSight::Kind::NotAssessed);
}

// A field of view of 90° across 1280 px puts the picture 640 px from the centre of projection: a
// ball that goes from the middle to the right edge is seen 45° further.
TEST_F(MarksOfAShot, TheLineOfSightTurnsByThePinholeAngle) {
    session.fieldOfViewDeg = 90.0;
    shot.clicks = {{{0}, 640.0, 360.0, 20.0}, {{5}, 1280.0, 360.0, 20.0}};
    const auto context = this->context();
    EXPECT_EQ(context.lineOfSight.kind, spin::LineOfSight::Kind::Contribution);
    EXPECT_NEAR(context.lineOfSight.angle.radians, core::kPi / 4.0, kTolRadians);
}

// The angle of a lens of 26 mm, as the file states it, puts the picture so far from the lens that
// the way from its middle to its right edge is seen under half of that angle.
TEST_F(MarksOfAShot, TheLensOfTheFileCountsAsItDoesForTheFit) {
    clip.lensFocalLengthMm = 26.0;
    shot.clicks = {{{0}, 640.0, 360.0, 20.0}, {{5}, 1280.0, 360.0, 20.0}};
    const auto lens = core::media::fieldOfViewAcrossLongerSide(26.0, 1280, 720);
    EXPECT_EQ(context().lineOfSight.kind, spin::LineOfSight::Kind::Contribution);
    EXPECT_NEAR(context().lineOfSight.angle.radians, 0.5 * lens.value.radians, kTolRadians);
}

// A frame was dropped before frame 5, which so comes at the time of the sixth: of the way from
// frame 0 to frame 9, ten intervals, it has six and not five ninths behind it.
TEST_F(MarksOfAShot, TheBallMovesEvenlyInTimeNotInFrames) {
    for (std::size_t i = 0; i < 100; ++i) {
        frames.stamps.ticks[i] = 750 * static_cast<std::int64_t>(i < 5 ? i : i + 1);
    }
    clip.clock = ClockSetting{.kind = timebase::ClockKind::Stamped, .stretch = {1}, .counted = {}};
    session.readoutSeconds = 0.008;
    shot.clicks = {{{0}, 100.0, 0.0, 20.0}, {{9}, 200.0, 720.0, 20.0}};
    EXPECT_NEAR(context().rollingShutter.rows.at(1).row, 0.6, kTolRadians);
}

TEST_F(MarksOfAShot, TheBallIsOnTheLineThroughTheClicks) {
    session.readoutSeconds = 0.008;
    // Row 0.25 at frame 10 and 0.75 at frame 20 of 720 rows; the marks lie at 12, 15 and 25.
    shot.clicks = {{{10}, 100.0, 180.0, 20.0}, {{20}, 200.0, 540.0, 20.0}};
    shot.marks = startAndReturn(12, 15);
    shot.marks.returns.push_back(spin::ReturnMark::nearest({25}, 4));
    const auto shutter = context().rollingShutter;
    EXPECT_EQ(shutter.kind, spin::RollingShutter::Kind::Known);
    EXPECT_EQ(shutter.readout, core::Seconds{0.008});
    ASSERT_EQ(shutter.rows.size(), 3U);
    EXPECT_NEAR(shutter.rows[0].row, 0.35, kTolRadians);
    EXPECT_NEAR(shutter.rows[1].row, 0.50, kTolRadians);
    EXPECT_EQ(shutter.rows[2].row, 1.0);  // 1.0 by extrapolation, and never off the sensor
}

// A picture shown turned by 90° clockwise has the sensor's top edge at its right.
TEST_F(MarksOfAShot, RowsAreCountedOnTheSensor) {
    session.readoutSeconds = 0.008;
    shot.clicks = {{{0}, 320.0, 180.0, 20.0}, {{5}, 320.0, 180.0, 20.0}};
    const auto firstRow = [this](int rotation) {
        clip.rotationDegrees = rotation;
        return context().rollingShutter.rows.front().row;
    };
    EXPECT_NEAR(firstRow(0), 0.25, kTolRadians);
    EXPECT_NEAR(firstRow(90), 0.75, kTolRadians);
    EXPECT_NEAR(firstRow(180), 0.75, kTolRadians);
    EXPECT_NEAR(firstRow(270), 0.25, kTolRadians);
}

TEST_F(MarksOfAShot, AReadoutOfZeroIsNoRollingShutterAndNoReadoutIsAnUnknownOne) {
    session.readoutSeconds = 0.0;
    EXPECT_EQ(context().rollingShutter.kind, spin::RollingShutter::Kind::Absent);
    session.readoutSeconds.reset();
    shot.clicks = {{{0}, 320.0, 180.0, 20.0}, {{5}, 320.0, 200.0, 20.0}};
    const auto context = this->context();
    EXPECT_EQ(context.rollingShutter.kind, spin::RollingShutter::Kind::Unknown);
    ASSERT_TRUE(context.rollingShutter.readout);  // the longest that it may be: a frame
    EXPECT_NEAR(context.rollingShutter.readout->seconds, 1.0 / 120.0, kTolRadians);
    EXPECT_TRUE(read());
}

// A kept reading from the pictures of the same day and mode tells what nobody stated.
TEST_F(MarksOfAShot, AReadoutThatNobodyStatedIsThatOfTheDaysPictures) {
    shot.clicks = {{{0}, 320.0, 180.0, 20.0}, {{5}, 320.0, 200.0, 20.0}};
    KeptFit kept;
    kept.request.clock = *clip.clock;
    kept.readoutSeen = core::image::ReadoutEstimate{{0.004}, {0.0003}, {0.0}};
    Reading fit;
    fit.id = {1};
    fit.shot = shot.id;
    fit.method = ReadingMethod::RotationFit;
    fit.inputsJson = toJson(kept);
    Snapshot all = snapshot();
    all.readings = Entities<Reading>{std::vector{fit}};
    const auto shutter = marksInputsOf(all, shot, frames).value().context.rollingShutter;
    EXPECT_EQ(shutter.kind, spin::RollingShutter::Kind::Estimated);
    ASSERT_TRUE(shutter.readout);
    EXPECT_NEAR(shutter.readout->seconds, 0.004, 1e-5);
    EXPECT_NEAR(shutter.readoutSigma.seconds, 0.0003, 1e-5);
}

// Six clicks along a bounce, 40 px a frame down and then up: no reading spans it.
TEST_F(MarksOfAShot, MarksOnBothSidesOfAKinkAreRefused) {
    for (int k = 0; k < 10; ++k) {
        const double fallen = k < 5 ? 40.0 * k : 40.0 * (9 - k);
        shot.clicks.push_back({{k}, 100.0 + 50.0 * k, 100.0 + fallen, 20.0});
    }
    shot.marks = startAndReturn(0, 8);
    const auto across = readMarks(snapshot(), shot, frames);
    ASSERT_FALSE(across);
    EXPECT_NE(across.error().message.find("turns abruptly"), std::string::npos)
        << across.error().message;
    shot.marks = startAndReturn(0, 4);
    EXPECT_TRUE(readMarks(snapshot(), shot, frames));
}

}  // namespace
}  // namespace tests::reading
