#include "tests/demo/demo_footage.h"

#include <cmath>

#include "core/synthesis/random_numbers.h"

namespace tests::demo {
namespace {

using namespace core;  // NOLINT(google-build-using-namespace)
using namespace core::synthesis;

constexpr std::uint64_t kDemoSeed = 20240615;
constexpr int kShotsPerCell = 6;
constexpr double kCaptureFps = 240.0;
constexpr double kShotScatterRpm = 120.0;
constexpr double kSpeedMPerS = 17.5;
constexpr double kSpeedScatterMPerS = 0.9;
constexpr double kDistanceM = 1.36;
constexpr double kFirstStrikeS = 0.05;
/// Films are cut short between shots: a real hitter needs several seconds.
constexpr double kBetweenStrikesS = 0.175;
constexpr double kTailS = 0.02;

/// A set-up and the true means that were invented for it, hitters A and B.
struct SetUp {
    DemoImplement implement;
    std::array<double, 2> meanRpm;
};

DemoImplement implement(std::string name, std::string material, std::string gaugeMm,
                        std::string tensionKg, std::string price, bool isWorn = false) {
    return {.name = std::move(name),
            .isWorn = isWorn,
            .attributes = {{"material", std::move(material)},
                           {"gauge (mm)", std::move(gaugeMm)},
                           {"tension (kg)", std::move(tensionKg)},
                           {"price of a set", std::move(price)}}};
}

std::vector<SetUp> setUps() {
    return {
        {implement("natural gut 25 kg", "natural gut", "1.30", "25", "42"), {2290.0, 2180.0}},
        {implement("multifilament 25 kg", "nylon, many strands", "1.30", "25", "18"),
         {2140.0, 2040.0}},
        {implement("single core 25 kg", "nylon, one core", "1.30", "25", "9"), {1980.0, 1890.0}},
        {implement("polyester smooth 23 kg", "polyester", "1.25", "23", "14"), {2560.0, 2430.0}},
        {implement("polyester five-edged 23 kg", "polyester", "1.25", "23", "16"),
         {2840.0, 2700.0}},
        {implement("polyester rough 23 kg", "polyester", "1.25", "23", "17"), {2870.0, 2760.0}},
        {implement("polyester smooth 23 kg, played 12 h", "polyester", "1.25", "23", "14", true),
         {2230.0, 2110.0}},
        {implement("gut and polyester 24 kg", "natural gut along, polyester across",
                   "1.30 and 1.25", "24", "30"),
         {2380.0, 2650.0}},
    };
}

constexpr std::size_t kMishitSetUp = 4;
constexpr std::size_t kMishitHitter = 1;
constexpr int kMishitShot = 3;
constexpr double kMishitRpm = 1620.0;

Flight demoFlight(double spinRpm, Seconds strike, RandomNumbers& random) {
    Flight flight;
    flight.strike = strike;
    flight.positionM = {-0.95, random.uniform(-0.06, 0.06), kDistanceM + 0.03 * random.normal()};
    flight.velocityMPerS = {kSpeedMPerS + kSpeedScatterMPerS * random.normal(),
                            -0.8 + 0.4 * random.normal(), 0.4 * random.normal()};
    // Topspin of a ball that flies to the right turns about the axis away from the camera.
    const Vector3 axis = unitOf({0.10 * random.normal(), 0.10 * random.normal(), 1.0});
    flight.spinRadPerS = scaled(axis, toRadiansPerSecond(Rpm{spinRpm}).radiansPerSecond);
    const Vector3 tilt{0.35 * random.normal(), 0.35 * random.normal(), 0.0};
    const Quaternion turnedBall = turned({}, {0.0, 0.0, random.uniform(0.0, 2.0 * kPi)}, {1.0});
    flight.attitude = turned(turnedBall, tilt, {1.0});
    flight.lifetime = {0.15};
    return flight;
}

Scene demoScene(std::size_t setUp, std::size_t hitter, double meanRpm) {
    Scene scene;
    scene.seed = kDemoSeed + 2 * setUp + hitter;
    scene.backgroundSeed = kDemoSeed;
    scene.background = BackgroundKind::PlainWall;
    scene.camera = {.widthPx = 848, .heightPx = 480, .horizontalFieldOfViewDeg = 55.0, .shift = {}};
    scene.shutter.exposure = {1.0 / 2000.0};
    scene.air.dragCoefficient = 0.5;
    scene.air.liftCoefficient = 0.12;
    scene.sound = SoundTrack{};
    const double lengthS = kFirstStrikeS + kShotsPerCell * kBetweenStrikesS + kTailS;
    scene.timing.captureRate = timebase::Rational{240};
    scene.timing.instants = std::llround(lengthS * kCaptureFps);
    RandomNumbers random{mixed(kDemoSeed, scene.seed)};
    for (int shot = 0; shot < kShotsPerCell; ++shot) {
        const bool isMishit =
            setUp == kMishitSetUp && hitter == kMishitHitter && shot == kMishitShot;
        const double drawnRpm = meanRpm + kShotScatterRpm * random.normal();
        const double strikeS = kFirstStrikeS + shot * kBetweenStrikesS + 0.008 * random.uniform();
        scene.flights.push_back(demoFlight(isMishit ? kMishitRpm : drawnRpm, {strikeS}, random));
    }
    return scene;
}

}  // namespace

Result<DemoPlan> planDemoFootage() {
    DemoPlan plan;
    plan.manifest.statement =
        "Invented: a tennis club's stringing bench, rendered by the footage maker. No string, "
        "racket or person of this demo exists, and its numbers say nothing about real ones.";
    plan.manifest.hitters = {"A", "B"};
    const std::vector<SetUp> all = setUps();
    for (std::size_t setUp = 0; setUp < all.size(); ++setUp) {
        plan.manifest.implements.push_back(all[setUp].implement);
        for (std::size_t hitter = 0; hitter < plan.manifest.hitters.size(); ++hitter) {
            Scene scene = demoScene(setUp, hitter, all[setUp].meanRpm[hitter]);
            BOOST_OUTCOME_TRY(truth, truthOf(scene));
            plan.manifest.clips.push_back({.fileName = "strings_" + std::to_string(setUp + 1) +
                                                       "_hitter_" + plan.manifest.hitters[hitter] +
                                                       ".mp4",
                                           .implement = setUp,
                                           .hitter = hitter,
                                           .shots = std::move(truth.shots)});
            plan.scenes.push_back(std::move(scene));
        }
    }
    return plan;
}

Result<DemoManifest> writeDemoFootage(const std::filesystem::path& folder) {
    BOOST_OUTCOME_TRY(plan, planDemoFootage());
    std::error_code trouble;
    std::filesystem::create_directories(folder, trouble);
    if (trouble) {
        return fail(ErrorCode::WriteFailed, "The demo's folder " + folder.string() +
                                                " could not be made: " + trouble.message() + ".");
    }
    FilmEncoding encoding;
    encoding.constantQuality = 18;
    encoding.tagCaptureRate = true;
    for (std::size_t i = 0; i < plan.scenes.size(); ++i) {
        BOOST_OUTCOME_TRY(
            film, makeFootage(plan.scenes[i], encoding, folder / plan.manifest.clips[i].fileName));
        plan.manifest.clips[i].shots = std::move(film.shots);
    }
    return std::move(plan.manifest);
}

}  // namespace tests::demo
