#include "core/image/ball_track.h"

#include <algorithm>

namespace core::image {

namespace {

double polynomial(const std::array<double, 4>& c, double t) {
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]));
}

double polynomialSlope(const std::array<double, 4>& c, double t) {
    return c[1] + t * (2.0 * c[2] + t * 3.0 * c[3]);
}

}  // namespace

PointPx BallPath::centreAt(Seconds time) const {
    const double t = time.seconds - referenceTime.seconds;
    const double depth = inverseRadius[0] + inverseRadius[1] * t;
    return {principalPoint.x + polynomial(x, t) / depth,
            principalPoint.y + polynomial(y, t) / depth};
}

double BallPath::axialRadiusPxAt(Seconds time) const {
    return 1.0 / (inverseRadius[0] + inverseRadius[1] * (time.seconds - referenceTime.seconds));
}

PointPx BallPath::velocityAt(Seconds time) const {
    const double t = time.seconds - referenceTime.seconds;
    const double depth = inverseRadius[0] + inverseRadius[1] * t;
    const auto quotient = [&](const std::array<double, 4>& c) {
        return (polynomialSlope(c, t) * depth - polynomial(c, t) * inverseRadius[1]) /
               (depth * depth);
    };
    return {quotient(x), quotient(y)};
}

PointPx FrameMotion::apply(PointPx referencePoint, PointPx pictureCentre) const noexcept {
    const double dx = referencePoint.x - pictureCentre.x;
    const double dy = referencePoint.y - pictureCentre.y;
    return {pictureCentre.x + a * dx - b * dy + shift.x,
            pictureCentre.y + b * dx + a * dy + shift.y};
}

PointPx FrameMotion::undo(PointPx point, PointPx pictureCentre) const noexcept {
    const double size2 = a * a + b * b;
    const double dx = point.x - shift.x - pictureCentre.x;
    const double dy = point.y - shift.y - pictureCentre.y;
    return {pictureCentre.x + (a * dx + b * dy) / size2,
            pictureCentre.y + (a * dy - b * dx) / size2};
}

std::size_t BallTrack::measuredCount() const noexcept {
    return static_cast<std::size_t>(
        std::count_if(frames.begin(), frames.end(),
                      [](const BallInFrame& ball) { return ball.source == BallSource::Measured; }));
}

const BallInFrame* BallTrack::find(timebase::FrameIndex frame) const noexcept {
    const auto found = std::find_if(frames.begin(), frames.end(),
                                    [frame](const BallInFrame& b) { return b.frame == frame; });
    return found == frames.end() ? nullptr : &*found;
}

}  // namespace core::image
