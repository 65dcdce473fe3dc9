#include "core/spin/fit/shot_samples.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace core::spin::fit {

namespace {

// Pixels beyond 0.88 of the ball's own radius are left out: foreshortening is above two there, and
// the outline's error becomes an error of the direction.
constexpr double kUsedRadius = 0.88;
const double kLeastSlant = std::sqrt(1.0 - kUsedRadius * kUsedRadius);
// While the shutter opens and closes a point may be nearer to the rim, but must not leave the ball.
constexpr double kLeastSlantAtEnds = 0.3;
constexpr double kLeastShareSeen = 0.6;
// Of the used disc that the ball covers during the whole exposure: met by a smear of up to 0.7 of
// its width. On narrower strips a pattern can be made up for any rotation: readings of twice the
// rate came of it.
constexpr double kLeastShareSteady = 0.17;

struct Ends {
    Eigen::Vector3d middle, first, last;
};

/// Weight of a picture point, zero where the ball does not cover it during the whole exposure.
float weightAt(const Pinhole& camera, const Ends& ends, const Eigen::Vector2d& point) {
    const Eigen::Vector3d ray = rayThrough(camera, point);
    const double slant = surfacePoint(ray, ends.middle).slant;
    if (slant < kLeastSlant) {
        return 0.0F;
    }
    if (surfacePoint(ray, ends.first).slant < kLeastSlantAtEnds ||
        surfacePoint(ray, ends.last).slant < kLeastSlantAtEnds) {
        return 0.0F;
    }
    return static_cast<float>(slant);
}

// NOLINTNEXTLINE(bugprone-easily-swappable-parameters)
std::optional<Eigen::Vector3f> blockMean(const BallFrame& frame, int left, int top, int block) {
    const int x0 = left - frame.leftPx;
    const int y0 = top - frame.topPx;
    if (x0 < 0 || y0 < 0 || x0 + block > frame.picture.width || y0 + block > frame.picture.height) {
        return std::nullopt;
    }
    Eigen::Vector3f sum = Eigen::Vector3f::Zero();
    for (int y = 0; y < block; ++y) {
        const std::uint8_t* pixel = frame.picture.row(y0 + y) + 3 * x0;
        for (int x = 0; x < block; ++x, pixel += 3) {
            sum += Eigen::Vector3f{static_cast<float>(pixel[0]), static_cast<float>(pixel[1]),
                                   static_cast<float>(pixel[2])};
        }
    }
    return sum / static_cast<float>(block * block);
}

Ends exposureEnds(const Pinhole& camera, const FrameSamples& frame) {
    const Eigen::Vector2d half = 0.5 * frame.smearPx;
    return {ballCentre(camera, frame.place),
            ballCentre(camera, {frame.place.centrePx - half, frame.place.radiusPx}),
            ballCentre(camera, {frame.place.centrePx + half, frame.place.radiusPx})};
}

/// Fills the samples; false when too little of the ball is inside the picture.
bool fillFrame(const BallFrame& source, const FitCamera& shutter, const Pinhole& camera, int block,
               FrameSamples& frame) {
    const Ends ends = exposureEnds(camera, frame);
    const int reach = static_cast<int>(std::ceil(1.3 * frame.place.radiusPx)) + block;
    const int middleX = static_cast<int>(std::floor(frame.place.centrePx.x()));
    const int middleY = static_cast<int>(std::floor(frame.place.centrePx.y()));
    std::vector<Eigen::Vector2f> points;
    std::vector<Eigen::Vector3f> colours;
    std::vector<float> weights;
    std::vector<float> late;
    const Eigen::Vector2d drift{source.drift.xPx, source.drift.yPx};
    const Eigen::Vector2d rowsPerPx{shutter.rowsPerPx.xPx, shutter.rowsPerPx.yPx};
    int wanted = 0;
    for (int y = middleY - reach; y <= middleY + reach; y += block) {
        for (int x = middleX - reach; x <= middleX + reach; x += block) {
            const Eigen::Vector2d seen{x + 0.5 * block, y + 0.5 * block};
            const double rows = rowsPerPx.dot(seen - frame.place.centrePx);
            const Eigen::Vector2d point = seen - rows * drift;
            const float weight = weightAt(camera, ends, point);
            if (weight <= 0.0F) {
                continue;
            }
            ++wanted;
            if (const auto colour = blockMean(source, x, y, block)) {
                points.emplace_back(point.cast<float>());
                colours.push_back(*colour);
                weights.push_back(weight);
                late.push_back(static_cast<float>(rows * shutter.readout.seconds));
            }
        }
    }
    const auto n = static_cast<Eigen::Index>(points.size());
    const double disc = kPi * std::pow(kUsedRadius * frame.place.radiusPx / block, 2);
    if (n < 12 || static_cast<double>(n) < kLeastShareSeen * wanted ||
        wanted < kLeastShareSteady * disc) {
        return false;
    }
    frame.pointPx.resize(n, 2);
    frame.colour.resize(n, 3);
    frame.weight.resize(n);
    frame.lateS.resize(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const auto k = static_cast<std::size_t>(i);
        frame.pointPx.row(i) = points[k].transpose();
        frame.colour.row(i) = colours[k].transpose();
        frame.weight(i) = weights[k];
        frame.lateS(i) = late[k];
    }
    return true;
}

}  // namespace

ShotSamples collectSamples(const FitInput& input, double focalPx, double blocksPerRadius) {
    ShotSamples shot;
    shot.camera = {focalPx, {0.5 * input.camera.widthPx, 0.5 * input.camera.heightPx}};
    shot.exposure = input.camera.exposure ? input.camera.exposure->seconds : 0.0;
    for (std::size_t i = 0; i < input.frames.size(); ++i) {
        const BallFrame& source = input.frames[i];
        FrameSamples frame;
        frame.source = i;
        frame.time = source.captureTime.seconds;
        frame.place = {{source.centre.xPx, source.centre.yPx}, source.radiusPx};
        frame.smearPx = {source.smear.xPx, source.smear.yPx};
        frame.centreSigmaPx = source.centreSigmaPx;
        const int block =
            std::max(1, static_cast<int>(std::lround(source.radiusPx / blocksPerRadius)));
        if (fillFrame(source, input.camera, shot.camera, block, frame)) {
            shot.relativeRadiusSigma += source.radiusSigmaPx / source.radiusPx;
            shot.frames.push_back(std::move(frame));
        }
    }
    if (!shot.frames.empty()) {
        shot.relativeRadiusSigma /= static_cast<double>(shot.frames.size());
        // Between the two middle frames, so that no frame's time is zero.
        const std::size_t middle = shot.frames.size() / 2;
        shot.referenceTime =
            0.5 * (shot.frames[middle == 0 ? 0 : middle - 1].time + shot.frames[middle].time);
    }
    for (FrameSamples& frame : shot.frames) {
        frame.time -= shot.referenceTime;
    }
    return shot;
}

}  // namespace core::spin::fit
