#include "core/image/flight_facts.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/expects.h"
#include "core/base/kept_words.h"
#include "core/base/words.h"

namespace core::image {

namespace {

constexpr std::size_t kFewestMeasured = 4;
// Errors of the centres that bend a path and that the scatter about it does not show: their root
// mean square over 310 rendered shots of known path was 0.27 px for sharp balls, and 0.75 px for
// those that move by 24 to 48 px while the shutter is open.
constexpr double kBendPx = 0.1;
constexpr double kBendPerSmear = 0.02;
// Rates that phones and cameras offer (common practice, no source).
constexpr std::array<std::int64_t, 11> kUsualRates{24,  25,  30,  50,  60,  100,
                                                   120, 240, 480, 960, 1000};

/// Uncertainties of a straight line and a parabola through the measured frames, in ball radii.
struct PathSigmas {
    double slope{};       ///< per second, at the first frame
    double curvature{};   ///< second derivative, per second squared; with what bends the path
    double depthSlope{};  ///< of ln radius, per second
};

PathSigmas sigmasOf(const BallTrack& track) {
    Eigen::Matrix3d parabola = Eigen::Matrix3d::Zero();
    Eigen::Matrix3d bent = Eigen::Matrix3d::Zero();
    Eigen::Matrix2d line = Eigen::Matrix2d::Zero();
    const double first = track.frames.front().time.seconds;
    for (const BallInFrame& ball : track.frames) {
        if (ball.source == BallSource::Measured) {
            const double t = ball.time.seconds - first;
            const Eigen::Vector3d b(1.0, t, t * t);
            const double sigma = std::max(track.scatter.px, 0.05) / ball.radiusPx;
            const double bend =
                std::hypot(kBendPx, kBendPerSmear * std::hypot(ball.smear.x, ball.smear.y)) /
                ball.radiusPx;
            parabola += b * b.transpose() / (sigma * sigma);
            bent += b * b.transpose() / (sigma * sigma + bend * bend);
            line += b.head<2>() * b.head<2>().transpose() / (sigma * sigma);
        }
    }
    return {std::sqrt(parabola.inverse()(1, 1)), 2.0 * std::sqrt(bent.inverse()(2, 2)),
            std::sqrt(line.inverse()(1, 1))};
}

std::string plain(const timebase::CaptureRate& rate) {
    return fmt::format("{:.6g}", rate.fps.toDouble());
}

timebase::CaptureRate nearestUsual(double fps) {
    const auto nearest = std::min_element(
        kUsualRates.begin(), kUsualRates.end(), [fps](std::int64_t a, std::int64_t b) {
            return std::abs(std::log(fps / static_cast<double>(a))) <
                   std::abs(std::log(fps / static_cast<double>(b)));
        });
    return {timebase::Rational(*nearest)};
}

}  // namespace

Result<FlightFacts> flightOf(const BallTrack& track, Measured<Metres> ballDiameter) {
    if (!(ballDiameter.value.metres > 0.0) || !(ballDiameter.sigma.metres >= 0.0)) {
        return fail(ErrorCode::OutOfRange,
                    said("The ball's diameter must be greater than zero, not {} m.",
                         ballDiameter.value.metres));
    }
    if (track.measuredCount() < kFewestMeasured) {
        return fail(ErrorCode::Untrustworthy,
                    saidOf(track.measuredCount(),
                           "{} frame of the flight is measured; speed and fall need at least {}.",
                           "{} frames of the flight are measured; speed and fall need at least {}.",
                           track.measuredCount(), kFewestMeasured));
    }
    const double radius = 0.5 * ballDiameter.value.metres;
    const double relativeSize = ballDiameter.sigma.metres / ballDiameter.value.metres;
    const BallPath& path = track.path;
    const double focal = track.focal.value.px;
    const double t = track.frames.front().time.seconds - path.referenceTime.seconds;
    const auto slope = [&](const std::array<double, 4>& c) {
        return radius * (c[1] + t * (2.0 * c[2] + t * 3.0 * c[3]));
    };
    FlightFacts flight;
    flight.velocity = {slope(path.x), slope(path.y), radius * focal * path.inverseRadius[1]};
    const auto& v = flight.velocity;
    const double speed = std::sqrt(v.x * v.x + v.y * v.y + v.z * v.z);
    const PathSigmas sigmas = sigmasOf(track);
    const BallInFrame& start = track.frames.front();
    const double scale = std::hypot(relativeSize, start.radiusSigmaPx / start.radiusPx);
    const double depth = radius * focal * (path.inverseRadius[0] + path.inverseRadius[1] * t);
    const double across = radius * sigmas.slope;
    const double forward =
        std::hypot(v.z * track.focal.sigma.px / focal, depth * sigmas.depthSlope);
    flight.speed = {{speed},
                    {std::sqrt(std::pow(speed * scale, 2) + across * across +
                               std::pow(v.z / std::max(speed, 1e-9) * forward, 2))}};
    const double level = std::max(std::hypot(v.x, v.z), 1e-9);
    flight.launchAngle = {{std::atan2(-v.y, level)},
                          {std::hypot(across, v.y / level * forward * v.z / level) / speed}};
    const double fall = radius * 2.0 * path.y[2];
    flight.downwardAcceleration = {{fall}, {std::hypot(fall * scale, radius * sigmas.curvature)}};
    flight.distance = {{depth}, {depth * std::hypot(scale, track.focal.sigma.px / focal)}};
    return flight;
}

GravityVerdict checkGravity(const FlightFacts& flight, timebase::CaptureRate assumed) {
    const double fall = flight.downwardAcceleration.value.metresPerSecondSquared;
    const double sigma = flight.downwardAcceleration.sigma.metresPerSecondSquared;
    GravityVerdict verdict;
    verdict.kind = timebase::judgeFall(fall, sigma);
    verdict.factor = fall > 0.0 ? std::sqrt(timebase::kStandardGravity / fall) : 0.0;
    if (verdict.kind == GravityVerdict::Kind::Fits) {
        verdict.statement = toKeep("The flight fits a capture rate of {}.", plain(assumed));
        return verdict;
    }
    if (verdict.kind == GravityVerdict::Kind::CannotTell) {
        verdict.statement = toKeep(
            "At a capture rate of {} the ball falls with {:.2g} ± {:.2g} times free fall, which "
            "neither fits that rate nor refutes it.",
            plain(assumed), fall / timebase::kStandardGravity, sigma / timebase::kStandardGravity);
        return verdict;
    }
    verdict.likelier = nearestUsual(verdict.factor * assumed.fps.toDouble());
    verdict.statement = toKeep("The flight fits a capture rate of {}, not {}.",
                               plain(*verdict.likelier), plain(assumed));
    return verdict;
}

}  // namespace core::image
