// Tracks of independently rendered clips against their truth (tests/data/footage/README.md).
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/image/flight.h"
#include "core/image/track_ball.h"
#include "core/media/frame_decoder.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::image;
using core::media::FrameDecoder;

class DecodedFrames : public FrameSource {
public:
    explicit DecodedFrames(std::unique_ptr<FrameDecoder> decoder) : m_decoder{std::move(decoder)} {}
    core::Result<core::media::FramePtr> frame(core::timebase::FrameIndex index) override {
        return m_decoder->decode(index);
    }

private:
    std::unique_ptr<FrameDecoder> m_decoder;
};

struct ClipCase {
    const char* name;
    double medianPx;     ///< largest median distance of the centres
    double radiusShare;  ///< largest median relative error of the radius
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
                               .readout = {out.truth["readout_s"].get<double>()}};
    BOOST_OUTCOME_TRY(track, trackBall(source, trueClock(out.truth, index),
                                       {{0}, {index.frameCount() - 1}}, options));
    out.track = track;
    return out;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values.at(values.size() / 2);
}

class ClipTrack : public testing::TestWithParam<ClipCase> {};

TEST_P(ClipTrack, KeepsToTheTruth) {
    const auto followed = follow(GetParam().name);
    ASSERT_TRUE(followed.has_value()) << followed.error().message;
    const auto& [truth, track] = followed.value();
    std::vector<double> centres;
    std::vector<double> radii;
    double square = 0.0;
    for (const auto& frame : truth["shots"][0]["frames"]) {
        constexpr double kClearlyVisible = 0.6;
        if (frame["visible_fraction"].get<double>() < kClearlyVisible) {
            continue;
        }
        const BallInFrame* ball = track.find({frame["frame"].get<std::int64_t>()});
        ASSERT_NE(ball, nullptr) << "frame " << frame["frame"];
        const double dx = ball->centre.x - frame["centre_px"][0].get<double>();
        const double dy = ball->centre.y - frame["centre_px"][1].get<double>();
        square +=
            0.5 * (std::pow(dx / ball->centreSigma.x, 2) + std::pow(dy / ball->centreSigma.y, 2));
        centres.push_back(std::hypot(dx, dy));
        radii.push_back(std::abs(ball->radiusPx / frame["radius_px"].get<double>() - 1.0));
    }
    EXPECT_LE(median(centres), GetParam().medianPx);
    EXPECT_LE(median(radii), GetParam().radiusShare);
    // Errors of one path go together, so a single clip may well be off by twice its uncertainty.
    EXPECT_LT(std::sqrt(square / static_cast<double>(centres.size())), 2.0);
    const auto flight = flightOf(track, {{truth["ball_diameter_m"].get<double>()}, {0.0}});
    ASSERT_TRUE(flight.has_value()) << flight.error().message;
    const double speed = truth["shots"][0]["speed_m_s"].get<double>();
    EXPECT_NEAR(flight.value().speed.value.metresPerSecond, speed, GetParam().speedShare * speed);
    const core::timebase::CaptureRate rate{
        core::timebase::Rational(std::lround(truth["capture_fps"].get<double>()))};
    EXPECT_EQ(checkGravity(flight.value(), rate).kind, GravityVerdict::Kind::Fits);
}

// Aim for sharp pictures: centre 0.3 px, radius 1 %. A glossy ball reflects what is behind it at
// its rim and looks smaller; strong noise and a smear of two radii cost more.
constexpr double kCentrePx = 0.3;
constexpr double kRadius = 0.01;
constexpr double kSpeed = 0.015;
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
                    ClipCase{"half_120fps", kCentrePx, 0.015, 0.02},
                    ClipCase{"low_light_120fps", 1.0, 0.03, 0.08}),
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
