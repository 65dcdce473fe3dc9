#include "core/synthesis/random_shot.h"

#include <algorithm>
#include <cmath>

#include "core/synthesis/flight_path.h"
#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

constexpr int kAttempts = 400;
constexpr double kLeastMarkShare = 0.04;
constexpr double kLeastAxisToSymmetryDeg = 25.0;
constexpr double kLeadFrames = 8.0;

struct Palette {
    Colour dark;
    Colour light;
};

/// Felt-tip inks on balls, invented.
const std::vector<Palette>& palettes() {
    static const std::vector<Palette> kPalettes{{{0.08F, 0.10F, 0.22F}, {0.82F, 0.88F, 0.32F}},
                                                {{0.06F, 0.06F, 0.07F}, {0.93F, 0.92F, 0.90F}},
                                                {{0.10F, 0.28F, 0.16F}, {0.90F, 0.86F, 0.40F}},
                                                {{0.12F, 0.20F, 0.50F}, {0.92F, 0.60F, 0.30F}},
                                                {{0.40F, 0.08F, 0.10F}, {0.90F, 0.80F, 0.72F}},
                                                {{0.28F, 0.14F, 0.36F}, {0.80F, 0.82F, 0.84F}}};
    return kPalettes;
}

/// Diameters of balls of several sports, in metres; the rules' values are of this size.
constexpr std::array<double, 5> kDiametersM{0.040, 0.0427, 0.0670, 0.0720, 0.0740};

double between(RandomNumbers& random, const Interval<Rpm>& range) {
    return random.logUniform(range.low.rpm, range.high.rpm);
}

Vector3 randomDirection(RandomNumbers& random) {
    return unitOf({random.normal(), random.normal(), random.normal()});
}

Quaternion randomAttitude(RandomNumbers& random) {
    const Quaternion q{random.normal(), random.normal(), random.normal(), random.normal()};
    const double length = std::sqrt(q.w * q.w + q.x * q.x + q.y * q.y + q.z * q.z);
    return {q.w / length, q.x / length, q.y / length, q.z / length};
}

void drawCamera(Scene& scene, RandomNumbers& random) {
    static constexpr std::array<std::array<int, 2>, 3> kSizes{
        {{1280, 720}, {960, 540}, {1280, 720}}};
    const auto& size = kSizes[static_cast<std::size_t>(random.below(3))];
    scene.camera = {.widthPx = size[0],
                    .heightPx = size[1],
                    .horizontalFieldOfViewDeg = random.uniform(45.0, 80.0),
                    .shift = {}};
    // A camera tilted by a few degrees sees gravity a little askew.
    const double pitch = random.uniform(-0.10, 0.10);
    const double roll = random.uniform(-0.035, 0.035);
    const Vector3 down{std::sin(roll), std::cos(roll) * std::cos(pitch), std::sin(pitch)};
    scene.air.gravityMPerS2 = scaled(unitOf(down), 9.80665);
    scene.air.dragCoefficient = random.uniform(0.3, 0.6);
    scene.air.liftCoefficient = random.uniform(0.0, 0.15);
}

/// The sun in varnish: brighter than white paper, and a few degrees to a quarter of the ball wide.
void drawGloss(BallLook& ball, RandomNumbers& random) {
    ball.highlight = static_cast<float>(random.uniform(0.4, 1.5));
    ball.highlightExponent = static_cast<float>(random.logUniform(40.0, 400.0));
    ball.varnish = 1.0F;
}

void drawLook(Scene& scene, BallLook& ball, const ShotRanges& ranges, RandomNumbers& random) {
    const auto count = static_cast<int>(ranges.markings.size());
    ball.marking = ranges.markings[static_cast<std::size_t>(random.below(count))];
    const auto& pairs = palettes();
    const Palette& pair =
        pairs[static_cast<std::size_t>(random.below(static_cast<int>(pairs.size())))];
    const bool isDarkBall = ball.marking == Marking::ThreeQuartersDark;
    ball.base = isDarkBall ? pair.dark : pair.light;
    ball.mark = isDarkBall ? pair.light : pair.dark;
    ball.diameterM = kDiametersM[static_cast<std::size_t>(random.below(kDiametersM.size()))];
    ball.massKg = 0.058 * std::pow(ball.diameterM / 0.067, 3.0);
    ball.grain = static_cast<float>(random.uniform(0.02, 0.10));
    ball.highlight = static_cast<float>(random.uniform(0.0, 0.25));
    scene.light.towardsLight =
        unitOf({random.uniform(-1.0, 1.0), random.uniform(-1.0, -0.2), random.uniform(-1.0, 0.3)});
    scene.light.direct = random.uniform(0.35, 0.85);
    scene.light.ambientAbove = random.uniform(0.25, 0.55);
    scene.light.ambientBelow = random.uniform(0.12, 0.35);
    scene.background = static_cast<BackgroundKind>(random.below(5));
    scene.backgroundSeed = random.next();
    scene.sensor.fullWellElectrons =
        random.logUniform(ranges.fullWellElectrons.low, ranges.fullWellElectrons.high);
    scene.sensor.readNoiseElectrons = random.uniform(3.0, 12.0);
    scene.sensor.lensBlurPx = random.uniform(0.35, 0.8);
    if (random.uniform() < ranges.figureShare) {
        scene.figure = MovingFigure{.height = random.uniform(0.6, 1.0),
                                    .startX = random.uniform(0.0, 1.0),
                                    .walkPerSecond = random.uniform(-0.5, 0.5)};
    }
    if (random.uniform() < ranges.shakeShare) {
        scene.shakePx = random.uniform(0.3, 1.5);
    }
    // What the usual shots do not have takes numbers only where it is asked for, so that they stay
    // the same.
    if (ranges.brightness.low < ranges.brightness.high) {
        scene.sensor.brightness = random.logUniform(ranges.brightness.low, ranges.brightness.high);
    }
    if (ranges.isGlossy) {
        drawGloss(ball, random);
    }
}

/// Places the flight so that it crosses the picture in about the drawn number of frames.
void drawFlight(Scene& scene, Flight& flight, const ShotRanges& ranges, RandomNumbers& random) {
    const double fps = random.below(2) == 0 ? 120.0 : 240.0;
    scene.timing.captureRate = timebase::Rational{static_cast<std::int64_t>(fps)};
    const double diameterPx = random.logUniform(ranges.smallestBallPx, ranges.largestBallPx);
    const double distanceM = scene.camera.focalPx() * flight.ball.diameterM / diameterPx;
    const double widthM = scene.camera.widthPx * flight.ball.diameterM / diameterPx;
    const double heightM = widthM * scene.camera.heightPx / scene.camera.widthPx;
    const double crossing = random.uniform(ranges.fewestFrames + 1.0, ranges.mostFrames + 2.0);
    const double crossingS = crossing / fps;
    const double side = random.below(2) == 0 ? -1.0 : 1.0;
    const double speed = widthM / crossingS;
    const double climb = random.uniform(ranges.climb.low, ranges.climb.high);
    const double middleY = heightM * random.uniform(-0.25, 0.20);
    flight.velocityMPerS = {-side * speed, -climb * speed, speed * random.uniform(-0.15, 0.15)};
    const double halfS = 0.5 * crossingS;
    flight.positionM = {0.52 * side * widthM,
                        middleY + climb * speed * halfS - 0.5 * 9.8 * halfS * halfS,
                        distanceM - flight.velocityMPerS[2] * halfS};
    flight.strike = {kLeadFrames / fps};
    flight.lifetime = {std::min(2.0 * crossingS, 1.0)};
    scene.timing.instants = std::llround(2.0 * kLeadFrames + 1.3 * crossing);
    scene.shutter.exposure = {
        random.logUniform(ranges.exposure.low.seconds, ranges.exposure.high.seconds)};
    scene.shutter.exposure.seconds = std::min(scene.shutter.exposure.seconds, 0.95 / fps);
    if (random.uniform() < ranges.rollingShutterShare) {
        const double longest = std::min(ranges.readout.high.seconds, ranges.mostReadoutShare / fps);
        scene.shutter.readout = {random.uniform(ranges.readout.low.seconds, longest)};
    }
}

void drawSpin(const Scene& scene, Flight& flight, const ShotRanges& ranges, RandomNumbers& random) {
    const double fastestRpm =
        60.0 * scene.timing.captureRate.toDouble() / ranges.fewestFramesPerTurn;
    const Interval<Rpm> range{ranges.spin.low, {std::min(ranges.spin.high.rpm, fastestRpm)}};
    const double rpm = between(random, range);
    flight.spinRadPerS =
        scaled(randomDirection(random), toRadiansPerSecond(Rpm{rpm}).radiansPerSecond);
    flight.attitude = randomAttitude(random);
}

/// Puts a second ball before the flight, which comes from where the struck one goes, more slowly,
/// and is there when that one is struck, but for what drag and lift do to its path.
void addFedBall(Scene& scene, RandomNumbers& random) {
    const Flight struck = scene.flights.front();
    const double fps = scene.timing.captureRate.toDouble();
    Flight fed = struck;
    fed.isDecoy = true;
    const double speed = random.uniform(0.35, 0.8) * std::abs(struck.velocityMPerS[0]);
    const double durationS = 2.0 * std::abs(struck.positionM[0]) / speed;
    const double startY = random.uniform(-0.25, 0.25) * struck.positionM[2] *
                          scene.camera.heightPx / scene.camera.focalPx();
    fed.positionM = {-struck.positionM[0], startY, struck.positionM[2]};
    const Vector3 way = sumOf(struck.positionM, scaled(fed.positionM, -1.0));
    fed.velocityMPerS =
        sumOf(scaled(way, 1.0 / durationS), scaled(scene.air.gravityMPerS2, -0.5 * durationS));
    fed.spinRadPerS =
        scaled(randomDirection(random),
               toRadiansPerSecond(Rpm{random.logUniform(200.0, 1500.0)}).radiansPerSecond);
    fed.attitude = randomAttitude(random);
    fed.lifetime = {durationS};
    scene.flights.front().strike = {struck.strike.seconds + durationS};
    scene.timing.instants += std::llround(durationS * fps);
    scene.flights.push_back(fed);
}

/// The ground comes where the ball is so long after it has come into view whole. False when it does
/// not fall onto it, or is out of view soon after.
bool addBounce(Scene& scene, const ShotTruth& freeFlight, const Interval<Seconds>& after,
               RandomNumbers& random) {
    constexpr double kLeastFall = 0.1;  // of the speed: 6 degrees to the ground
    constexpr double kFramesInViewAfter = 3.0;
    const double afterS = random.uniform(after.low.seconds, after.high.seconds);
    Bounce bounce{.normal = scaled(unitOf(scene.air.gravityMPerS2), -1.0),
                  .restitution = random.uniform(0.6, 0.85),
                  .friction = random.uniform(0.2, 0.7)};
    const auto first = std::find_if(freeFlight.frames.begin(), freeFlight.frames.end(),
                                    [](const FrameTruth& f) { return f.isFullyInside; });
    if (first == freeFlight.frames.end()) {
        return false;
    }
    bounce.time = {first->captureTime.seconds + afterS};
    Flight& flight = scene.flights.front();
    const Vector3 velocity = FlightPath{flight, scene.air}.at(bounce.time).velocityMPerS;
    if (-dotOf(velocity, bounce.normal) < kLeastFall * lengthOf(velocity)) {
        return false;
    }
    flight.bounce = bounce;
    const Seconds later{bounce.time.seconds +
                        kFramesInViewAfter / scene.timing.captureRate.toDouble()};
    const PicturePoint there =
        scene.camera.project(FlightPath{flight, scene.air}.at(later).positionM);
    return there.x > 0.0 && there.x < scene.camera.widthPx && there.y > 0.0 &&
           there.y < scene.camera.heightPx;
}

bool isWellMarked(const Flight& flight, const ShotTruth& truth) {
    double most = 0.0;
    for (const FrameTruth& frame : truth.frames) {
        most = frame.isFullyInside ? std::max(most, frame.markFraction) : most;
    }
    if (flight.ball.marking == Marking::HalfDark) {
        const double along = std::abs(dotOf(truth.axis, rotated(flight.attitude, {1.0, 0.0, 0.0})));
        const double apart = toDegrees(Radians{std::acos(std::min(along, 1.0))});
        return apart >= kLeastAxisToSymmetryDeg;
    }
    return flight.ball.marking == Marking::Plain || flight.ball.marking == Marking::Hidden ||
           most >= kLeastMarkShare;
}

ShotConditions conditionsOf(const Scene& scene, const FilmEncoding& encoding,
                            const ShotTruth& truth) {
    const FrameTruth& middle = truth.frames[truth.frames.size() / 2];
    const double fps = scene.timing.captureRate.toDouble();
    const auto inside = std::count_if(truth.frames.begin(), truth.frames.end(),
                                      [](const FrameTruth& f) { return f.isFullyInside; });
    return {
        .marking = scene.flights.front().ball.marking,
        .background = scene.background,
        .captureFps = fps,
        .ballDiameterPx = 2.0 * middle.radiusPx,
        .framesFullyInside = static_cast<std::size_t>(inside),
        .framesPerTurn = 60.0 * fps / truth.spin.rpm,
        .exposureTurnDeg = 6.0 * truth.spin.rpm * scene.shutter.exposure.seconds,
        .blurPx = middle.blurPx,
        .axisToCameraDeg = toDegrees(Radians{std::acos(std::min(std::abs(truth.axis[2]), 1.0))}),
        .readoutS = scene.shutter.readout.seconds,
        .constantQuality = encoding.constantQuality,
        .hasFigure = scene.figure.has_value(),
        .isHandHeld = scene.shakePx > 0.0};
}

Result<void> checkRanges(const ShotRanges& ranges) {
    const bool isSound =
        ranges.spin.low.rpm > 0.0 && ranges.spin.high >= ranges.spin.low &&
        ranges.exposure.low.seconds > 0.0 && ranges.exposure.high >= ranges.exposure.low &&
        ranges.smallestBallPx > 0 && ranges.largestBallPx >= ranges.smallestBallPx &&
        ranges.fewestFrames >= 1 && ranges.mostFrames >= ranges.fewestFrames &&
        ranges.fewestFramesPerTurn > 0.0 && ranges.readout.low.seconds >= 0.0 &&
        ranges.readout.high >= ranges.readout.low && ranges.climb.high >= ranges.climb.low &&
        ranges.smear.high >= ranges.smear.low && ranges.mostExposureTurnDeg > 0.0 &&
        ranges.fullWellElectrons.low > 0.0 &&
        ranges.fullWellElectrons.high >= ranges.fullWellElectrons.low &&
        ranges.brightness.low > 0.0 && ranges.brightness.high >= ranges.brightness.low &&
        ranges.worstQuality >= ranges.bestQuality && !ranges.markings.empty();
    if (!isSound) {
        return fail(ErrorCode::InvalidInput,
                    "A range of the random shots is empty or not positive; give a lower and an "
                    "upper end and at least one marking.");
    }
    return ok();
}

/// False when the shot drawn is no use.
Result<bool> drawShot(RandomShot& shot, const ShotRanges& ranges, RandomNumbers& random) {
    shot.scene.flights.emplace_back();
    Flight& flight = shot.scene.flights.front();
    drawCamera(shot.scene, random);
    drawLook(shot.scene, flight.ball, ranges, random);
    drawFlight(shot.scene, flight, ranges, random);
    drawSpin(shot.scene, flight, ranges, random);
    shot.encoding.constantQuality =
        ranges.bestQuality + random.below(ranges.worstQuality - ranges.bestQuality + 1);
    if (ranges.isFed) {
        addFedBall(shot.scene, random);
    }
    BOOST_OUTCOME_TRY(truth, truthOf(shot.scene));
    if (ranges.bounceAfter && !truth.shots.empty()) {
        if (!addBounce(shot.scene, truth.shots.front(), *ranges.bounceAfter, random)) {
            return false;
        }
        BOOST_OUTCOME_TRY(bouncing, truthOf(shot.scene));
        truth = std::move(bouncing);
    }
    if (truth.shots.size() != 1 || !isWellMarked(shot.scene.flights.front(), truth.shots.front())) {
        return false;
    }
    shot.truth = std::move(truth.shots.front());
    shot.conditions = conditionsOf(shot.scene, shot.encoding, shot.truth);
    return true;
}

bool isWithin(const ShotConditions& is, const ShotRanges& ranges) {
    const auto inside = static_cast<int>(is.framesFullyInside);
    const double turns = (inside - 1) / is.framesPerTurn;
    const double smear = is.blurPx / is.ballDiameterPx;
    return turns >= ranges.fewestTurns && inside >= ranges.fewestFrames &&
           inside <= ranges.mostFrames && is.ballDiameterPx >= ranges.smallestBallPx &&
           is.ballDiameterPx <= ranges.largestBallPx && smear >= ranges.smear.low &&
           smear <= ranges.smear.high && is.exposureTurnDeg <= ranges.mostExposureTurnDeg;
}

}  // namespace

Result<RandomShot> randomShot(std::uint64_t seed, const ShotRanges& ranges) {
    BOOST_OUTCOME_TRY(checkRanges(ranges));
    RandomNumbers random{mixed(seed, 0x5407)};
    for (int attempt = 0; attempt < kAttempts; ++attempt) {
        RandomShot shot;
        shot.scene.seed = mixed(seed, static_cast<std::uint64_t>(attempt) + 1);
        BOOST_OUTCOME_TRY(isDrawn, drawShot(shot, ranges, random));
        if (isDrawn && isWithin(shot.conditions, ranges)) {
            return shot;
        }
    }
    return fail(ErrorCode::InvalidInput,
                "No shot was found within the ranges given. Widen the frames or the size of the "
                "ball.");
}

}  // namespace core::synthesis
