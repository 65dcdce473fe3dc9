#include "core/synthesis/scene_renderer.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/synthesis/light_transfer.h"
#include "core/synthesis/truth.h"

namespace core::synthesis {
namespace {

constexpr Colour kWhite{1.0F, 1.0F, 1.0F};
constexpr Colour kBlack{0.0F, 0.0F, 0.0F};

/// A scene without noise in which the ball's picture is its colour alone.
Scene flatScene(Marking marking) {
    Scene scene;
    scene.camera = {.widthPx = 320, .heightPx = 240, .horizontalFieldOfViewDeg = 50.0, .shift = {}};
    scene.light = {
        .towardsLight = {0.0, -1.0, 0.0}, .direct = 0.0, .ambientAbove = 0.9, .ambientBelow = 0.9};
    scene.sensor = {.fullWellElectrons = 1e9, .readNoiseElectrons = 0.0, .lensBlurPx = 0.0};
    scene.shutter.exposure = {0.0};
    scene.air.gravityMPerS2 = {0.0, 0.0, 0.0};
    scene.samplesPerPixel = 64;
    scene.timing.instants = 3;
    Flight flight;
    flight.positionM = {0.06, -0.03, 0.9};
    flight.ball = {.diameterM = 0.12,
                   .massKg = 0.058,
                   .marking = marking,
                   .base = kWhite,
                   .mark = kBlack,
                   .grain = 0.0F,
                   .highlight = 0.0F};
    scene.flights.push_back(flight);
    return scene;
}

PixelBuffer rendered(const Scene& scene) {
    auto renderer = SceneRenderer::create(scene);
    EXPECT_TRUE(renderer.has_value());
    return renderer.value()->render({0});
}

double lightAt(const PixelBuffer& picture, int x, int y) {
    return lightFromStored(picture.row(y)[3 * x + 1] / 255.0);
}

/// Moments of the share of each pixel that the ball covers, from its picture in white and in black:
/// the difference is 0.9 times the covered share in linear light, whatever the background.
struct Moments {
    double area{};
    double x{};
    double y{};
    double varianceX{};
    std::vector<double> rowMiddles;  ///< NaN for rows without the ball
};

Moments coverage(Scene scene) {
    const PixelBuffer white = rendered(scene);
    scene.flights.front().ball.base = kBlack;
    const PixelBuffer black = rendered(scene);
    Moments sum;
    double squares = 0.0;
    for (int y = 0; y < white.height(); ++y) {
        double row = 0.0;
        double rowX = 0.0;
        for (int x = 0; x < white.width(); ++x) {
            const double share = (lightAt(white, x, y) - lightAt(black, x, y)) / 0.9;
            row += share;
            rowX += share * (x + 0.5);
            squares += share * (x + 0.5) * (x + 0.5);
        }
        sum.area += row;
        sum.x += rowX;
        sum.y += row * (y + 0.5);
        sum.rowMiddles.push_back(row > 5.0 ? rowX / row : std::nan(""));
    }
    sum.x /= sum.area;
    sum.y /= sum.area;
    sum.varianceX = squares / sum.area - sum.x * sum.x;
    return sum;
}

/// Bytes resolve a share to 1/400 at best and pixels are sampled 64 times; over a thousand pixels
/// of the rim that averages out to well under these.
constexpr double kPlacePx = 0.03;
constexpr double kRelativeArea = 0.004;

TEST(SceneRenderer, TheBallFillsItsOutline) {
    const Scene scene = flatScene(Marking::Plain);
    const Ellipse outline = outlineOfBall(scene.camera, scene.flights.front().positionM, 0.06);
    const Moments seen = coverage(scene);
    const double area = kPi * outline.semiMajorPx * outline.semiMinorPx;
    EXPECT_NEAR(seen.area / area, 1.0, kRelativeArea);
    EXPECT_NEAR(seen.x, outline.centre.x, kPlacePx);
    EXPECT_NEAR(seen.y, outline.centre.y, kPlacePx);
}

TEST(SceneRenderer, ExposureSmearsTheBallEvenlyInLinearLight) {
    Scene scene = flatScene(Marking::Plain);
    const Moments still = coverage(scene);
    // Under way before the exposure of frame 0 begins, in the same place in its middle.
    scene.flights.front().strike = {-0.1};
    scene.flights.front().velocityMPerS = {20.0, 0.0, 0.0};
    scene.flights.front().positionM[0] -= 0.1 * 20.0;
    scene.shutter.exposure = {0.004};
    const Moments moving = coverage(scene);
    // 20 m/s for 4 ms at 0.9 m: 0.08 / 0.9 f pixels. A uniform spread of length l adds l^2/12.
    const double way = 0.08 / 0.9 * scene.camera.focalPx();
    EXPECT_NEAR(moving.area / still.area, 1.0, kRelativeArea);
    EXPECT_NEAR(moving.x, still.x, 0.1);  // perspective stretches the outline along the way
    EXPECT_NEAR((moving.varianceX - still.varianceX) / (way * way / 12.0), 1.0, 0.02);
}

TEST(SceneRenderer, RowsAreExposedOneAfterTheOther) {
    Scene scene = flatScene(Marking::Plain);
    scene.flights.front().positionM = {0.0, 0.0, 0.9};
    scene.flights.front().velocityMPerS = {10.0, 0.0, 0.0};
    scene.flights.front().positionM[0] -= 10.0 * 0.005;  // in the middle when row H/2 is exposed
    scene.shutter.readout = {0.010};
    const Moments seen = coverage(scene);
    // Row y is exposed at y/240 of 10 ms and shows the ball 10 m/s further: the middles of the
    // rows lie on a line of slope v f/z readout/H.
    const double slope = 10.0 / 0.9 * scene.camera.focalPx() * 0.010 / 240.0;
    for (const int y : {100, 110, 130, 140}) {
        const double expected = 160.0 + slope * (y + 0.5 - 120.0);
        EXPECT_NEAR(seen.rowMiddles[static_cast<std::size_t>(y)], expected, 0.25) << "row " << y;
    }
}

/// Light of the ball a quarter of its diameter to each side of its middle.
struct Sides {
    double left{};
    double right{};
    double above{};
    double below{};
};

Sides sidesOf(const Quaternion& attitude) {
    Scene scene = flatScene(Marking::HalfDark);
    scene.flights.front().positionM = {0.0, 0.0, 0.9};
    scene.flights.front().attitude = attitude;
    const PixelBuffer picture = rendered(scene);
    return {lightAt(picture, 149, 120), lightAt(picture, 171, 120), lightAt(picture, 160, 109),
            lightAt(picture, 160, 131)};
}

TEST(SceneRenderer, AHalfDarkBallIsDarkOnItsOwnLeft) {
    const Sides sides = sidesOf({});
    EXPECT_LT(sides.left, 0.01);
    EXPECT_GT(sides.right, 0.8);
}

// Right-handed about the axis away from the camera, with y down: right turns to below, so the dark
// side, first on the left, comes to lie above.
TEST(SceneRenderer, AQuarterTurnAboutTheLineOfSightIsClockwise) {
    const Sides sides = sidesOf(turned({}, {0.0, 0.0, kPi / 2.0}, {1.0}));
    EXPECT_LT(sides.above, 0.01);
    EXPECT_GT(sides.below, 0.8);
}

// About the downward axis forward (z) turns to the right (x): the dark left side, p.x < 0, goes to
// the back (z > 0), and the whole visible half is bare.
TEST(SceneRenderer, AQuarterTurnAboutTheDownwardAxisHidesTheDarkSide) {
    const Sides sides = sidesOf(turned({}, {0.0, kPi / 2.0, 0.0}, {1.0}));
    EXPECT_GT(sides.left, 0.8);
    EXPECT_GT(sides.right, 0.8);
}

TEST(SceneRenderer, MarkFractionOfTheTruthIsWhatThePictureShows) {
    for (const Marking marking :
         {Marking::ThreeQuartersDark, Marking::BandWithDot, Marking::SeamWithPrint}) {
        Scene scene = flatScene(marking);
        scene.flights.front().attitude = turned({}, {0.4, 0.9, -1.2}, {1.0});
        const double whole = coverage(flatScene(Marking::Plain)).area;
        const auto truth = truthOf(scene);
        ASSERT_TRUE(truth.has_value());
        const double bare = coverage(scene).area;  // the mark is black in both pictures
        const double marked = truth.value().shots.front().frames.front().markFraction;
        EXPECT_NEAR(1.0 - bare / whole, marked, 0.015) << markingName(marking);  // net of 1152
    }
}

/// A black ball of 0.12 m, 60 px across, seen from so far that all rays are nearly parallel.
Scene blackBallFromAfar() {
    Scene scene = flatScene(Marking::Plain);
    scene.camera.horizontalFieldOfViewDeg = 5.0;
    scene.flights.front().positionM = {0.0, 0.0, 0.12 / 60.0 * scene.camera.focalPx()};
    scene.flights.front().ball.base = kBlack;
    return scene;
}

/// Bytes resolve light near black to 3e-4; a pixel is a thirtieth of the radius wide.
constexpr double kGlossLight = 0.005;

// Blinn's law with the light at the camera: cos^n of the slant. At a quarter of the radius the
// cosine is sqrt(1 - 1/16), its power 100 is 0.0397.
TEST(SceneRenderer, AHighlightOfAHigherExponentIsSmaller) {
    Scene scene = blackBallFromAfar();
    scene.light.towardsLight = {0.0, 0.0, -1.0};
    scene.flights.front().ball.highlight = 0.8F;
    scene.flights.front().ball.highlightExponent = 100.0F;
    scene.samplesPerPixel = 256;
    const PixelBuffer picture = rendered(scene);
    // The pixel next to the middle: its samples are at most 1.41 px away, cos^100 is above 0.89.
    EXPECT_NEAR(lightAt(picture, 160, 120), 0.8, 0.09);
    EXPECT_NEAR(lightAt(picture, 167, 120), 0.8 * 0.0397, kGlossLight);  // 7.5 px from the middle
}

// Schlick: 0.04 + 0.96 (1 - cos)^5. At 0.9 of the radius cos = 0.436: 0.095. Sky and ground send
// 0.9.
TEST(SceneRenderer, VarnishMirrorsMoreTowardsTheRim) {
    Scene scene = blackBallFromAfar();
    scene.flights.front().ball.varnish = 1.0F;
    scene.samplesPerPixel = 256;
    const PixelBuffer picture = rendered(scene);
    EXPECT_NEAR(lightAt(picture, 160, 120), 0.9 * 0.04, 0.002);
    // 27 px from the middle is the border of two pixels.
    const double there = 0.5 * (lightAt(picture, 187, 120) + lightAt(picture, 186, 120));
    EXPECT_NEAR(there, 0.9 * 0.095, kGlossLight);
}

TEST(SceneRenderer, AnUnderexposedPictureHasThatMuchLessLight) {
    Scene scene = flatScene(Marking::Plain);
    scene.flights.front().positionM = {0.0, 0.0, 0.9};
    scene.sensor.brightness = 0.4;
    EXPECT_NEAR(lightAt(rendered(scene), 160, 120), 0.4 * 0.9, 0.005);  // a step of a byte
}

TEST(SceneRenderer, AFrozenFrameIsTheSamePictureAndTheNextIsNot) {
    Scene scene = flatScene(Marking::Plain);
    scene.sensor = Sensor{};
    scene.timing.instants = 4;
    scene.timing.frozen = {2};
    auto renderer = SceneRenderer::create(scene);
    ASSERT_TRUE(renderer.has_value());
    const auto bytes = [&](std::int64_t frame) {
        const PixelBuffer picture = renderer.value()->render({frame});
        return std::vector<std::uint8_t>(picture.bytes().begin(), picture.bytes().end());
    };
    EXPECT_EQ(bytes(1), bytes(2));
    EXPECT_NE(bytes(2), bytes(3));
}

TEST(SceneRenderer, AFrameDoesNotDependOnWhatWasRenderedBefore) {
    Scene scene = flatScene(Marking::HalfDark);
    scene.sensor = Sensor{};
    scene.shakePx = 1.2;
    scene.figure = MovingFigure{};
    auto one = SceneRenderer::create(scene);
    auto other = SceneRenderer::create(scene);
    ASSERT_TRUE(one.has_value() && other.has_value()) << one.error().message;
    (void)one.value()->render({0});
    (void)one.value()->render({1});
    const PixelBuffer late = one.value()->render({2});
    const PixelBuffer alone = other.value()->render({2});
    EXPECT_TRUE(std::equal(late.bytes().begin(), late.bytes().end(), alone.bytes().begin()));
}

TEST(SceneRenderer, ImpossibleScenesAreRefusedWithAReason) {
    const auto codeOf = [](const Scene& scene) {
        const auto refused = SceneRenderer::create(scene);
        EXPECT_FALSE(refused.has_value());
        return refused.has_value() ? ErrorCode::Busy : refused.error().code;
    };
    Scene odd = flatScene(Marking::Plain);
    odd.camera.widthPx = 321;
    EXPECT_EQ(codeOf(odd), ErrorCode::OutOfRange);
    Scene behind = flatScene(Marking::Plain);
    behind.flights.front().positionM[2] = -1.0;
    EXPECT_EQ(codeOf(behind), ErrorCode::OutOfRange);
    Scene endless = flatScene(Marking::Plain);
    endless.flights.front().velocityMPerS[0] = std::nan("");
    EXPECT_EQ(codeOf(endless), ErrorCode::NotFinite);
    Scene outside = flatScene(Marking::Plain);
    outside.timing.dropped = {99};
    EXPECT_EQ(codeOf(outside), ErrorCode::OutOfRange);
}

}  // namespace
}  // namespace core::synthesis
