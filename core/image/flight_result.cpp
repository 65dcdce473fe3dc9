#include <algorithm>
#include <cmath>

#include "core/image/flight_fitting.h"

namespace core::image {

namespace {

constexpr double kMinMeasuredVisible = 0.35;  // for a frame to be called measured
constexpr double kCoreShare = 0.7;            // of the outline, where the background cannot mix in
// What all frames have in common and their scatter does not show: gloss at the rim, the coder, the
// shape of the edge. From comparison with independently rendered footage.
constexpr double kCommonCentrePx = 0.1;
constexpr double kCommonRadiusPx = 0.25;  // over 33 shots the root mean square was 0.29
constexpr double kCommonExposure = 0.04;  // relative; limb darkening eats into the smear
constexpr double kCommonFocal = 0.05;     // relative
constexpr double kSeenAlonePx = 0.15;     // least scatter of a ball that is seen on its own
constexpr double kSeenAloneRadii = 0.005;

double exposureSigma(const PathFit& fit) {
    return std::hypot(fit.exposureSigma(), kCommonExposure * fit.shared().exposureSeconds);
}

}  // namespace

BallInFrame FlightFit::describe(const PathFit& fit, const PathFrame& frame,
                                std::size_t ordinal) const {
    const OutlineState state = fit.predict(frame);
    BallInFrame ball;
    ball.frame = m_moving.frames[ordinal];
    ball.time = {frame.time.seconds + fit.shared().readoutSeconds * m_setup.rows.at(state.centre)};
    ball.centre = state.centre;
    ball.centreSigma = {std::hypot(std::sqrt(frame.covariance(0, 0)), kCommonCentrePx),
                        std::hypot(std::sqrt(frame.covariance(1, 1)), kCommonCentrePx)};
    ball.outline = outlineAt(state);
    ball.radiusPx = std::sqrt(ball.outline.semiMajorPx * ball.outline.semiMinorPx);
    ball.radiusSigmaPx =
        std::hypot(ball.radiusPx * std::sqrt(frame.covariance(2, 2)), kCommonRadiusPx);
    ball.smear = {state.velocity.x * state.exposureSeconds,
                  state.velocity.y * state.exposureSeconds};
    ball.drift = {state.velocity.x * state.readoutSeconds, state.velocity.y * state.readoutSeconds};
    ball.smearSigmaPx = std::hypot(state.velocity.x, state.velocity.y) * exposureSigma(fit);
    const int width = m_moving.fullWidth;
    const int height = m_moving.fullHeight;
    ball.isPartial = visibleShare(ball.outline, ball.smear, width, height) < 1.0;
    const bool isMeasured =
        frame.isUsed && visibleShare(ball.outline, {}, width, height) >= kMinMeasuredVisible;
    ball.source = frame.held.has_value() && !isMeasured ? BallSource::Clicked
                  : isMeasured                          ? BallSource::Measured
                                                        : BallSource::Bridged;
    return ball;
}

// A ball hides what is behind it, a shadow only darkens it.
bool FlightFit::isShadow(const PathFit& fit) const {
    ShowThrough sums;
    for (const PathFrame& frame : fit.frames()) {
        if (frame.isUsed) {
            const OutlineState state = fit.predict(frame);
            const PointPx smear{state.velocity.x * state.exposureSeconds,
                                state.velocity.y * state.exposureSeconds};
            addShowThrough(frame.patch, outlineAt(state), smear, kCoreShare, sums);
        }
    }
    return sums.isShadow();
}

BallTrack FlightFit::collect(PathFit& fit) const {
    BallTrack track;
    track.pictureWidth = m_moving.fullWidth;
    track.pictureHeight = m_moving.fullHeight;
    track.path = fit.path();
    const double focal = std::exp(fit.shared().logFocal);
    const double focalSigma = focal * std::hypot(fit.logFocalSigma(), kCommonFocal);
    track.focal = {{focal}, {m_setup.isFocalKnown ? 0.0 : focalSigma}};
    track.exposure = {{fit.shared().exposureSeconds}, {exposureSigma(fit)}};
    track.scatter = {fit.scatterPx()};
    track.rowOrder = m_setup.rows.order;
    track.readout = {fit.shared().readoutSeconds};
    track.longestReadout = longestReadout();
    track.readoutSeen = m_readoutSeen;
    const auto& frames = fit.frames();
    const auto isUsed = [](const PathFrame& frame) { return frame.isUsed; };
    const auto first = std::find_if(frames.begin(), frames.end(), isUsed);
    const auto last = std::find_if(frames.rbegin(), frames.rend(), isUsed).base();
    for (auto it = first; it < last; ++it) {
        const auto ordinal = m_first + static_cast<std::size_t>(it - frames.begin());
        track.frames.push_back(describe(fit, *it, ordinal));
        track.motion.push_back(it->motion);
    }
    return track;
}

std::vector<PathPoint> FlightFit::seenAlone(const PathFit& fit,
                                            std::vector<std::size_t>& ordinals) const {
    const PointPx middle = m_setup.picture.principalPoint();
    std::vector<PathPoint> points;
    for (std::size_t k = 0; k < fit.frames().size(); ++k) {
        const PathFrame& frame = fit.frames()[k];
        const OutlineState state = fit.predict(frame);
        if (!frame.isUsed || frame.ownSigmaPx <= 0.0 || visible(fit, frame) < 1.0) {
            continue;
        }
        const PointPx own{state.centre.x - frame.deviation.x + frame.ownOffset.x,
                          state.centre.y - frame.deviation.y + frame.ownOffset.y};
        const double radius = std::exp(state.logAxialRadius);
        points.push_back({{frame.time.seconds + fit.shared().readoutSeconds * m_setup.rows.at(own)},
                          frame.motion.undo(own, middle),
                          radius,
                          std::hypot(kSeenAlonePx, kSeenAloneRadii * radius)});
        ordinals.push_back(m_first + k);
    }
    return points;
}

std::optional<LinkedFlight> FlightFit::shotOf(const PathFit& fit) const {
    std::vector<std::size_t> ordinals;
    const std::vector<PathPoint> points = seenAlone(fit, ordinals);
    const std::vector<Kink> kinks = findKinks(points);
    PathPart part = shotAmong(kinks, points.size());
    if (kinks.empty()) {
        const auto end = strayEnd(points);
        if (!end) {
            return std::nullopt;
        }
        part.end = *end;
    }
    std::vector<LinkedFlight::Member> members;
    for (std::size_t k = part.begin; k < part.end; ++k) {
        members.push_back({ordinals[k], points[k].centre, m_moving.times[ordinals[k]]});
    }
    LinkedFlight shot = flightThrough(m_moving, members, m_flight.radiusPx);
    shot.firstUsable = part.begin > 0 ? ordinals[part.begin] : m_flight.firstUsable;
    shot.lastUsable = part.end < points.size() ? ordinals[part.end] - 1 : m_flight.lastUsable;
    return shot;
}

Result<BallTrack> FlightFit::endAtKink(BallTrack track) const {
    if (!endsAtKink()) {
        return track;
    }
    track.kink = frameAfterKink();
    const auto whole = static_cast<std::size_t>(
        std::count_if(track.frames.begin(), track.frames.end(), [](const BallInFrame& ball) {
            return ball.source != BallSource::Bridged && !ball.isPartial;
        }));
    if (whole < kFewestBeforeKink) {
        return fail(ErrorCode::Untrustworthy, tooFewBeforeKink(whole, *track.kink));
    }
    return track;
}

double visibleShare(const Ellipse& outline, PointPx smear, int width, int height) {
    constexpr int kRings = 6;
    constexpr int kSpokes = 32;
    const double cosine = std::cos(outline.angle.radians);
    const double sine = std::sin(outline.angle.radians);
    int inside = 0;
    int all = 0;
    for (const double phase : {-0.5, 0.0, 0.5}) {
        for (int ring = 0; ring < kRings; ++ring) {
            const double rho = std::sqrt((ring + 1.0) / kRings);
            for (int spoke = 0; spoke < kSpokes; ++spoke) {
                const double angle = 2.0 * kPi * spoke / kSpokes;
                const double a = rho * outline.semiMajorPx * std::cos(angle);
                const double b = rho * outline.semiMinorPx * std::sin(angle);
                const double x = outline.centre.x + cosine * a - sine * b + phase * smear.x;
                const double y = outline.centre.y + sine * a + cosine * b + phase * smear.y;
                inside += x >= 0.0 && y >= 0.0 && x <= width && y <= height ? 1 : 0;
                ++all;
            }
        }
    }
    return static_cast<double>(inside) / all;
}

}  // namespace core::image
