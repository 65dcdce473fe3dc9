#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <utility>

#include "core/spin/fit/rotation_fit.h"
#include "tests/core/spin_fit/tiny_renderer.h"

namespace core::spin::fit {
namespace {

// The targets of the measurement: one per cent and two degrees; and the truth within three of the
// fit's own standard uncertainties.
constexpr double kRateShare = 0.01;
constexpr double kAxisDegrees = 2.0;
constexpr double kSigmas = 3.0;

double degreesBetween(const Vector3& a, const Eigen::Vector3d& b) {
    const Eigen::Vector3d v{a.x, a.y, a.z};
    return toDegrees({std::acos(std::min(1.0, v.normalized().dot(b.normalized())))});
}

void expectRight(const FitOutcome& outcome, const Eigen::Vector3d& truth) {
    ASSERT_EQ(outcome.status, FitStatus::Reading) << outcome.reason;
    const double rpm = toRpm({truth.norm()}).rpm;
    EXPECT_NEAR(outcome.rate.value.rpm, rpm, kRateShare * rpm);
    EXPECT_NEAR(outcome.rate.value.rpm, rpm, kSigmas * outcome.rate.sigma.rpm);
    EXPECT_LT(degreesBetween(outcome.angularVelocity, truth), kAxisDegrees);
    EXPECT_LT(outcome.interval95.low.rpm, outcome.rate.value.rpm);
    EXPECT_GT(outcome.interval95.high.rpm, outcome.rate.value.rpm);
}

/// The fifth and the ninety-fifth per cent of the red values.
std::pair<int, int> brightnessRange(const PixelBuffer& map) {
    std::vector<int> values;
    for (std::size_t i = 0; i < map.bytes().size(); i += 3) {
        values.push_back(map.bytes()[i]);
    }
    std::sort(values.begin(), values.end());
    return {values[values.size() / 20], values[values.size() - values.size() / 20]};
}

TEST(RotationFit, FindsRateAndAxisOfATwoToneBallWithTheFieldOfViewGiven) {
    const tests::TinyScene scene{.angularVelocity = {20.0, -45.0, 130.0}};
    tests::TinyFootage footage{scene};
    footage.input.camera.fieldOfView =
        Measured<Radians>{fromDegrees(scene.fieldOfViewDegrees), fromDegrees(0.5)};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    expectRight(outcome.value(), scene.angularVelocity);
}

TEST(RotationFit, FindsRateAndAxisWithoutTheFieldOfView) {
    const tests::TinyScene scene{.angularVelocity = {-30.0, 25.0, -160.0},
                                 .fieldOfViewDegrees = 52.0};
    tests::TinyFootage footage{scene};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    expectRight(outcome.value(), scene.angularVelocity);
    const auto& view = outcome.value().fieldOfView.value;
    EXPECT_NEAR(toDegrees(view.value), scene.fieldOfViewDegrees,
                kSigmas * toDegrees(view.sigma) + 1.0);  // a degree for the model
}

// What is mirrored stands still while the marking turns: of sixty such balls 42 were refused and
// ten read as something else, by up to 6 % and to any axis.
TEST(RotationFit, IsNotDeceivedByAFaintMarkingUnderTwoMirroredWindows) {
    std::mt19937 random{5};
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>{low, high}(random);
    };
    const tests::Paint paints[] = {tests::Paint::QuarterDark, tests::Paint::HalfDark,
                                   tests::Paint::Band};
    constexpr int kBalls = 12;
    int read = 0;
    for (int ball = 0; ball < kBalls; ++ball) {
        tests::TinyScene scene;
        scene.paint = paints[ball % 3];
        const Eigen::Vector3d axis{between(-0.5, 0.5), between(-0.5, 0.5), ball % 2 ? 1.0 : -1.0};
        scene.angularVelocity = between(60.0, 210.0) * axis.normalized();  // 570 to 2000 rpm
        scene.contrast = between(0.2, 0.6);
        scene.windows = between(0.05, 0.5);
        scene.frames = static_cast<int>(between(12.0, 20.0));
        scene.radiusPx = between(14.0, 26.0);
        scene.seed = static_cast<unsigned>(ball);
        tests::TinyFootage footage{scene};
        const auto outcome = fitRotation(footage.input);
        ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
        if (outcome.value().status == FitStatus::Reading) {
            ++read;
            const double rpm = toRpm({scene.angularVelocity.norm()}).rpm;
            const auto& rate = outcome.value().rate;
            EXPECT_NEAR(rate.value.rpm, rpm, kSigmas * rate.sigma.rpm) << "ball " << ball;
            EXPECT_LT(degreesBetween(outcome.value().angularVelocity, scene.angularVelocity),
                      kSigmas * toDegrees(outcome.value().axisSigma))
                << "ball " << ball;
        }
    }
    EXPECT_GE(read, 2 * kBalls / 3);
}

/// A ball flies to the right (x) and turns 0.63 of a turn a frame with its upper side running
/// backward, which in evenly spaced frames looks like 0.37 of a turn forward. Topspin is about z.
struct TwoSenses {
    static constexpr double kTurnPerFrame = 2.0 * kPi * 120.0;  // rad/s
    tests::TinyFootage footage{{.angularVelocity = {0.0, 0.0, -0.63 * kTurnPerFrame}}};
    FitOutcome read(std::optional<StatedSense> sense) {
        footage.input.options.sense = std::move(sense);
        return fitRotation(footage.input).value();
    }
};

TEST(StatedSense, DecidesBetweenTheAliasesOfTooFewFramesATurn) {
    TwoSenses shot;
    const auto unsaid = shot.read({});
    EXPECT_NEAR(unsaid.angularVelocity.z, 0.37 * TwoSenses::kTurnPerFrame, 3.0);
    EXPECT_FALSE(unsaid.restsOnSense);
    const auto back = shot.read(StatedSense{{0.0, 0.0, -1.0}, "backspin"});
    EXPECT_EQ(back.status, FitStatus::Reading) << back.reason;
    EXPECT_NEAR(back.angularVelocity.z, -0.63 * TwoSenses::kTurnPerFrame, 5.0);
    EXPECT_TRUE(back.restsOnSense);
    ASSERT_FALSE(back.warnings.empty());
    EXPECT_NE(back.warnings.front().find("stated as backspin"), std::string::npos)
        << back.warnings.front();
    const auto top = shot.read(StatedSense{{0.0, 0.0, 1.0}, "topspin"});
    EXPECT_NEAR(top.angularVelocity.z, 0.37 * TwoSenses::kTurnPerFrame, 3.0);
    EXPECT_TRUE(top.restsOnSense);
}

TEST(StatedSense, DecidesNothingWhereThePicturesTell) {
    const tests::TinyScene scene{.angularVelocity = {20.0, -45.0, 130.0}};
    tests::TinyFootage footage{scene};
    footage.input.options.sense = StatedSense{{0.0, 0.0, -1.0}, "backspin"};
    const auto outcome = fitRotation(footage.input).value();
    expectRight(outcome, scene.angularVelocity);
    EXPECT_FALSE(outcome.restsOnSense);
    ASSERT_EQ(outcome.warnings.size(), 1U);
    EXPECT_NE(outcome.warnings.front().find("opposite of backspin"), std::string::npos);
}

TEST(RotationFit, ABallWithoutAMarkGivesNoReading) {
    const tests::TinyFootage footage{{.paint = tests::Paint::Plain}};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    EXPECT_EQ(outcome.value().status, FitStatus::NoReading);
    EXPECT_FALSE(outcome.value().reason.empty());
}

// What stands still is no marking, however strong it is.
TEST(RotationFit, ABallThatOnlyMirrorsTwoWindowsGivesNoReading) {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        const tests::TinyFootage footage{{.paint = tests::Paint::Plain,
                                          .frames = 8 + 2 * static_cast<int>(seed),
                                          .windows = 0.08 * seed,
                                          .seed = seed}};
        const auto outcome = fitRotation(footage.input);
        ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
        EXPECT_EQ(outcome.value().status, FitStatus::NoReading)
            << outcome.value().rate.value.rpm << " rpm, seed " << seed;
    }
}

TEST(RotationFit, FiveFramesGiveNoReading) {
    const tests::TinyFootage footage{{.frames = 5}};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    EXPECT_EQ(outcome.value().status, FitStatus::NoReading);
    EXPECT_NE(outcome.value().reason.find("5 frames"), std::string::npos) << outcome.value().reason;
}

TEST(RotationFit, AMarkThatIsNeverSeenGivesNoReading) {
    const tests::TinyFootage footage{{.paint = tests::Paint::FarDot}};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    EXPECT_EQ(outcome.value().status, FitStatus::NoReading);
    EXPECT_FALSE(outcome.value().reason.empty());
}

TEST(RotationFit, SixFramesAreReadRightOrRefused) {
    const tests::TinyScene scene{.frames = 6};
    const tests::TinyFootage footage{scene};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    if (outcome.value().status == FitStatus::Reading) {
        const double rpm = toRpm({scene.angularVelocity.norm()}).rpm;
        EXPECT_NEAR(outcome.value().rate.value.rpm, rpm,
                    kSigmas * outcome.value().rate.sigma.rpm + kRateShare * rpm);
    } else {
        EXPECT_FALSE(outcome.value().reason.empty());
    }
}

TEST(RotationFit, FramesCutOffAtTheBorderDoNoHarm) {
    const tests::TinyScene scene{.shareCrossed = 1.02};
    const tests::TinyFootage footage{scene};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    expectRight(outcome.value(), scene.angularVelocity);
}

TEST(RotationFit, ABallThatIsMostlyOutsideThePictureGivesNoReading) {
    // Its centre is about 18 px below the border in the first and last frame and above it in the
    // others.
    const tests::TinyFootage footage{{.raisedPx = 390.0}};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    EXPECT_EQ(outcome.value().status, FitStatus::NoReading);
    EXPECT_NE(outcome.value().reason.find("shows well enough in"), std::string::npos)
        << outcome.value().reason;
}

/// A ball 40 px across that moves by 36 px and turns by 34 degrees while the shutter is open.
tests::TinyScene smearedScene(bool isWallKnown) {
    return {
        .angularVelocity = {30.0, -40.0, 130.0}, .exposureShare = 0.5, .isWallKnown = isWallKnown};
}

TEST(RotationFit, ReadsABallThatMovesByItsWidthBeforeAKnownBackground) {
    const tests::TinyScene scene = smearedScene(true);
    const tests::TinyFootage footage{scene};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    expectRight(outcome.value(), scene.angularVelocity);
}

TEST(RotationFit, ABallThatMovesByItsWidthGivesNoReadingWithoutTheBackground) {
    const tests::TinyFootage footage{smearedScene(false)};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    EXPECT_EQ(outcome.value().status, FitStatus::NoReading);
    EXPECT_NE(outcome.value().reason.find("moves by more than"), std::string::npos)
        << outcome.value().reason;
}

TEST(RotationFit, ListsTheAliasesOfEvenlySpacedFrames) {
    const tests::TinyScene scene{.angularVelocity = {20.0, -45.0, 130.0}};
    const tests::TinyFootage footage{scene};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    // One turn a frame at 120 frames per second is 7200 rpm.
    const double rpm = outcome.value().rate.value.rpm;
    constexpr double kTolRpm = 1.0;  // times come from a division by 120
    for (const double expected : {7200.0 - rpm, 7200.0 + rpm}) {
        EXPECT_TRUE(std::any_of(
            outcome.value().candidates.begin(), outcome.value().candidates.end(),
            [&](const Candidate& c) {
                return c.kind == CandidateKind::Alias && std::abs(c.rate.rpm - expected) < kTolRpm;
            }))
            << expected;
    }
}

TEST(RotationFit, ABandIsReadRightOrRefusedAndItsTwinIsListed) {
    // A band looks the same after half a turn: at 120 frames per second 150 rad/s and
    // 150 - pi * 120 = -227 rad/s show it alike when the axis lies in the band's plane or nearly
    // so.
    const tests::TinyScene scene{.paint = tests::Paint::Band,
                                 .angularVelocity = {10.0, 20.0, 148.3}};
    tests::TinyFootage footage{scene};
    footage.input.options.markingSymmetry = 2;
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    if (outcome.value().status == FitStatus::Reading) {
        expectRight(outcome.value(), scene.angularVelocity);
    }
    const double twinRpm = toRpm({kPi * 120.0 - scene.angularVelocity.norm()}).rpm;
    const double ownRpm = toRpm({scene.angularVelocity.norm()}).rpm;
    bool listsTwin = false;
    bool listsOwn = false;
    for (const Candidate& candidate : outcome.value().candidates) {
        listsTwin |= std::abs(candidate.rate.rpm - twinRpm) < 0.03 * twinRpm;
        listsOwn |= std::abs(candidate.rate.rpm - ownRpm) < 0.03 * ownRpm;
    }
    EXPECT_TRUE(listsTwin);
    EXPECT_TRUE(listsOwn);
}

TEST(RotationFit, UnrolledMapShowsTheDarkShareOfTheBall) {
    // The axis lies in the plane between the dark and the light half, so that each ring about it is
    // half dark: the ball's own x axis starts at (-0.31, -0.02, -0.94)/0.99 in the camera.
    const tests::TinyScene scene{.paint = tests::Paint::HalfDark,
                                 .angularVelocity = {95.0, 60.0, -32.6}};
    const tests::TinyFootage footage{scene};
    const auto outcome = fitRotation(footage.input);
    ASSERT_TRUE(outcome.has_value()) << outcome.error().message;
    const PixelBuffer map = outcome.value().pattern.unrolled(outcome.value().angularVelocity, 60);
    ASSERT_EQ(map.width(), 120);
    constexpr double kSeenLatitude = 0.6;  // rad; one of the caps is never seen
    const auto [least, most] = brightnessRange(map);
    double dark = 0.0;
    double all = 0.0;
    for (int row = 0; row < map.height(); ++row) {
        const double latitude = kPi * (0.5 - (row + 0.5) / map.height());
        if (std::abs(latitude) > kSeenLatitude) {
            continue;
        }
        const double area = std::cos(latitude);
        for (int column = 0; column < map.width(); ++column) {
            all += area;
            dark += 2 * map.row(row)[3 * column] < least + most ? area : 0.0;
        }
    }
    EXPECT_NEAR(dark / all, 0.5, 0.04);  // half a map's row on each of the two edges
}

TEST(RotationFit, SaysWhatIsWrongWithTheInput) {
    const tests::TinyFootage footage{{.frames = 7}};
    FitInput late = footage.input;
    late.frames[3].captureTime = late.frames[2].captureTime;
    ASSERT_FALSE(fitRotation(late).has_value());
    EXPECT_EQ(fitRotation(late).error().code, ErrorCode::InvalidInput);
    FitInput nan = footage.input;
    nan.frames[1].centre.xPx = std::numeric_limits<double>::quiet_NaN();
    ASSERT_FALSE(fitRotation(nan).has_value());
    EXPECT_EQ(fitRotation(nan).error().code, ErrorCode::NotFinite);
    FitInput flat = footage.input;
    flat.frames[0].radiusPx = 0.0;
    ASSERT_FALSE(fitRotation(flat).has_value());
    EXPECT_EQ(fitRotation(flat).error().code, ErrorCode::OutOfRange);
    FitInput nowhere = footage.input;
    nowhere.camera.widthPx = 0;
    ASSERT_FALSE(fitRotation(nowhere).has_value());
    EXPECT_EQ(fitRotation(nowhere).error().code, ErrorCode::InvalidInput);
}

TEST(RotationFit, StopsWhenAsked) {
    const tests::TinyFootage footage{{.frames = 8}};
    std::stop_source source;
    source.request_stop();
    const auto outcome = fitRotation(footage.input, source.get_token());
    ASSERT_FALSE(outcome.has_value());
    EXPECT_EQ(outcome.error().code, ErrorCode::Cancelled);
}

}  // namespace
}  // namespace core::spin::fit
