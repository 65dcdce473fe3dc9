// Tracks of independently rendered clips against their truth (tests/data/footage/README.md).
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

#include "core/image/flight_facts.h"
#include "core/image/track_ball.h"
#include "core/media/frames/frame_decoder.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::image;
using core::media::FrameDecoder;

class DecodedFrames : public FrameSource {
public:
    explicit DecodedFrames(std::unique_ptr<FrameDecoder> decoder) : m_decoder{std::move(decoder)} {}
    core::Result<core::media::FramePtr> frame(core::timebase::FrameIndex index) override {
        auto& kept = m_kept[index.value];
        if (!kept) {
            BOOST_OUTCOME_TRY(decoded, m_decoder->decode(index));
            kept = decoded;
        }
        return kept;
    }

private:
    std::unique_ptr<FrameDecoder> m_decoder;
    std::map<std::int64_t, core::media::FramePtr> m_kept;
};

struct ClipCase {
    const char* name;
    double centreRmsPx;  ///< distance of the centres from the truth, root mean square
    double radiusShare;  ///< relative error of the radius, root mean square
    double speedShare;   ///< largest relative error of the speed
};

void PrintTo(const ClipCase& c, std::ostream* out) {
    *out << c.name;
}

// Times of capture come from the truth: a wrong clock is another subject.
core::timebase::ClipClock trueClock(const nlohmann::json& truth,
                                    const core::media::ClipIndex& index) {
    using namespace core::timebase;
    if (truth["variable_frame_rate"].get<bool>()) {
        return ClipClock::stamped(index.stamps).value();
    }
    return ClipClock::counted(
               index.frameCount(),
               CaptureRate{Rational(std::lround(truth["capture_fps"].get<double>()))})
        .value();
}

struct Followed {
    nlohmann::json truth;
    BallTrack track;
};

core::Result<Followed> follow(const std::string& name) {
    const auto folder = tests::dataFolder() / "footage";
    std::ifstream file(folder / (name + ".json"));
    Followed out{nlohmann::json::parse(file), {}};
    BOOST_OUTCOME_TRY(index, core::media::readClipIndex(folder / (name + ".mp4")));
    BOOST_OUTCOME_TRY(decoder, FrameDecoder::open(folder / (name + ".mp4"), index, 1));
    DecodedFrames source(std::move(decoder));
    const TrackOptions options{.focalPx = std::nullopt,
                               .readout = core::Seconds{out.truth["readout_s"].get<double>()}};
    BOOST_OUTCOME_TRY(track, trackBall(source, trueClock(out.truth, index),
                                       {{0}, {index.frameCount() - 1}}, options));
    out.track = track;
    return out;
}

/// Errors over the frames that show the ball whole, and the same in reported uncertainties.
struct Errors {
    int whole{};
    int measured{};
    double centreRmsPx{};
    double radiusRms{};
    double smearRms{};
    double centreSigmas{};
    double radiusSigmas{};
    double smearSigmas{};
};

void addSquares(Errors& sums, const BallInFrame& ball, const nlohmann::json& truth) {
    const double dx = ball.centre.x - truth["centre_px"][0].get<double>();
    const double dy = ball.centre.y - truth["centre_px"][1].get<double>();
    const double radius = truth["radius_px"].get<double>();
    const double smear = truth["blur_px"].get<double>();
    const double smearError = std::hypot(ball.smear.x, ball.smear.y) - smear;
    sums.centreRmsPx += dx * dx + dy * dy;
    sums.radiusRms += std::pow(ball.radiusPx / radius - 1.0, 2);
    sums.smearRms += std::pow(smearError / smear, 2);
    sums.centreSigmas +=
        0.5 * (std::pow(dx / ball.centreSigma.x, 2) + std::pow(dy / ball.centreSigma.y, 2));
    sums.radiusSigmas += std::pow((ball.radiusPx - radius) / ball.radiusSigmaPx, 2);
    sums.smearSigmas += std::pow(smearError / ball.smearSigmaPx, 2);
}

Errors errorsOf(const nlohmann::json& truth, const BallTrack& track) {
    constexpr double kWhole = 0.9;  // the shade of the ball's holes counts as hidden
    Errors errors;
    for (const auto& frame : truth["shots"][0]["frames"]) {
        if (!frame["fully_inside"].get<bool>() ||
            frame["visible_fraction"].get<double>() < kWhole) {
            continue;
        }
        ++errors.whole;
        const BallInFrame* ball = track.find({frame["frame"].get<std::int64_t>()});
        if (ball != nullptr && ball->source == BallSource::Measured) {
            ++errors.measured;
            addSquares(errors, *ball, frame);
        }
    }
    for (double* sum : {&errors.centreRmsPx, &errors.radiusRms, &errors.smearRms,
                        &errors.centreSigmas, &errors.radiusSigmas, &errors.smearSigmas}) {
        *sum = std::sqrt(*sum / std::max(errors.measured, 1));
    }
    return errors;
}

class ClipTrack : public testing::TestWithParam<ClipCase> {};

// The smear looks short by some per cent where the ball darkens towards its rim.
constexpr double kSmear = 0.08;
// Errors of one path go together, so a single clip may well be off by twice its uncertainty.
constexpr double kSigmas = 2.0;

TEST_P(ClipTrack, KeepsToTheTruth) {
    const auto followed = follow(GetParam().name);
    ASSERT_TRUE(followed.has_value()) << followed.error().message;
    const auto& [truth, track] = followed.value();
    const Errors errors = errorsOf(truth, track);
    EXPECT_GE(errors.whole, 10);
    EXPECT_EQ(errors.measured, errors.whole);
    EXPECT_LE(errors.centreRmsPx, GetParam().centreRmsPx);
    EXPECT_LE(errors.radiusRms, GetParam().radiusShare);
    EXPECT_LE(errors.smearRms, kSmear);
    EXPECT_LE(errors.centreSigmas, kSigmas);
    EXPECT_LE(errors.radiusSigmas, kSigmas);
    EXPECT_LE(errors.smearSigmas, kSigmas);
    const double exposure = truth["exposure_s"].get<double>();
    EXPECT_NEAR(track.exposure.value.seconds, exposure, kSmear * exposure);
}

TEST_P(ClipTrack, GivesTheSpeedAndFitsTheCaptureRate) {
    const auto followed = follow(GetParam().name);
    ASSERT_TRUE(followed.has_value()) << followed.error().message;
    const auto& [truth, track] = followed.value();
    const auto flight = flightOf(track, {{truth["ball_diameter_m"].get<double>()}, {0.0}});
    ASSERT_TRUE(flight.has_value()) << flight.error().message;
    const double speed = truth["shots"][0]["speed_m_s"].get<double>();
    EXPECT_NEAR(flight.value().speed.value.metresPerSecond, speed, GetParam().speedShare * speed);
    const core::timebase::CaptureRate rate{
        core::timebase::Rational(std::lround(truth["capture_fps"].get<double>()))};
    EXPECT_EQ(checkGravity(flight.value(), rate).kind, GravityVerdict::Kind::Fits);
}

// The rotation fit takes centres that are off by half a pixel; sharp pictures give better. Glossy
// plastic mirrors what is behind it at its rim and looks smaller; strong noise and a smear of two
// radii at a ball of 30 px across cost more.
constexpr double kCentrePx = 0.25;
constexpr double kRadius = 0.01;
constexpr double kSpeed = 0.015;
constexpr double kGlossyCentrePx = 0.5;
constexpr double kGlossyRadius = 0.015;
constexpr double kNoisyCentrePx = 1.0;
constexpr double kNoisyRadius = 0.03;
INSTANTIATE_TEST_SUITE_P(
    IndependentFootage, ClipTrack,
    testing::Values(ClipCase{"quarter_120fps", kCentrePx, kRadius, kSpeed},
                    ClipCase{"seam_print_tilted_120fps", kCentrePx, kRadius, kSpeed},
                    ClipCase{"band_240fps", kCentrePx, kRadius, kSpeed},
                    ClipCase{"band_dot_240fps_hevc", kCentrePx, kRadius, kSpeed},
                    ClipCase{"slow_240in30_tagged", kCentrePx, kRadius, kSpeed},
                    ClipCase{"slow_240in30_untagged", kCentrePx, kRadius, kSpeed},
                    ClipCase{"dropped_frames_120fps", kCentrePx, kRadius, kSpeed},
                    ClipCase{"rolling_shutter_120fps", kCentrePx, kRadius, kSpeed},
                    ClipCase{"quarter_tilted_120fps", kCentrePx, kRadius, 0.03},
                    ClipCase{"half_120fps", kGlossyCentrePx, kGlossyRadius, 0.02},
                    ClipCase{"low_light_120fps", kNoisyCentrePx, kNoisyRadius, 0.08}),
    [](const auto& clip) { return std::string(clip.param.name); });

TEST(ClipTrackGravity, SeesThatTheUntaggedClipWasNotCapturedAtItsPlaybackRate) {
    const auto folder = tests::dataFolder() / "footage";
    const auto file = folder / "slow_240in30_untagged.mp4";
    auto index = core::media::readClipIndex(file).value();
    DecodedFrames source(FrameDecoder::open(file, index, 1).value());
    const auto clock = core::timebase::ClipClock::stamped(index.stamps).value();
    const auto track = trackBall(source, clock, {{0}, {index.frameCount() - 1}}, {});
    ASSERT_TRUE(track.has_value()) << track.error().message;
    constexpr double kDiameter = 0.067;  // ball_diameter_m of the truth
    const auto verdict = checkGravity(flightOf(track.value(), {{kDiameter}, {0.0}}).value(),
                                      {core::timebase::Rational(30)});
    EXPECT_EQ(verdict.statement, "The flight fits a capture rate of 240, not 30.");
}

}  // namespace
