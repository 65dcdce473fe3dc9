#include "core/image/flight_fit.h"

#include <algorithm>
#include <cmath>

#include "core/base/words.h"
#include "core/image/flight_fitting.h"

namespace core::image {

namespace {

constexpr std::size_t kMostExtension = 12;  // frames beyond those that were linked, each way
constexpr double kMinVisible = 0.15;        // of the outline, for a frame to be searched
constexpr double kMinStandOut = 0.2;        // changed pixels on the ball less those around it
constexpr double kMaxOwnOffset = 0.35;      // radii between the frame's own centre and the path
constexpr std::size_t kMinFrames = 4;
constexpr double kMaxScatterRadii = 0.2;  // a ball in strong noise keeps to a twentieth
constexpr double kMaxPatchDriftPx = 2.0;  // of the margin about the ball
constexpr double kFirstExposure = 0.5;    // of the frame interval, until it is known
constexpr double kWideEdgeRadii = 0.25;   // half-width of the edge, to find a path that is off
constexpr double kCoarseEdgeRadii = 0.12;
constexpr double kLeastEdgePx = 1.6;

auto tooFewShow() {
    return fail(
        ErrorCode::NotFound,
        said("Something moves like a ball, but fewer than four frames show a ball there. Click the "
             "ball in two frames, or film against a plainer background."));
}

}  // namespace

FlightFit::FlightFit(FrameSource& source, const MovingPictures& moving, const LinkedFlight& flight,
                     std::span<const BallHint> clicks, const TrackOptions& options)
    : m_source{source}, m_moving{moving}, m_flight{flight}, m_clicks{clicks}, m_options{options} {
    m_setup.picture = options.focalPx
                          ? Camera{moving.fullWidth, moving.fullHeight, *options.focalPx}
                          : cameraFromFieldOfView(moving.fullWidth, moving.fullHeight,
                                                  fromDegrees(kUsualFieldOfViewDegrees));
    m_setup.isFocalKnown = options.focalPx.has_value();
    m_setup.rows = {moving.fullWidth, moving.fullHeight, options.rowOrder};
    m_givenReadout = options.readout;
    m_linkedFirst = std::max(flight.members.front().ordinal, flight.firstUsable);
    m_linkedLast = std::min(flight.members.back().ordinal, lastSure());
    m_linkedLast = std::max(m_linkedLast, m_linkedFirst + 1);
    m_first = std::max(m_linkedFirst - std::min(m_linkedFirst, kMostExtension),
                       std::min(flight.firstUsable, m_linkedFirst));
    m_last = std::min({m_linkedLast + kMostExtension, moving.frames.size() - 1,
                       std::max(lastSure(), m_linkedLast)});
    for (std::size_t i = 0; i < moving.frames.size(); ++i) {
        m_placed.push_back({moving.frames[i], moving.motion[i]});
    }
}

double FlightFit::intervalSeconds() const {
    std::vector<double> intervals;
    for (std::size_t i = m_first; i < m_last; ++i) {
        intervals.push_back(m_moving.times[i + 1].seconds - m_moving.times[i].seconds);
    }
    const auto middle = intervals.begin() + static_cast<std::ptrdiff_t>(intervals.size() / 2);
    std::nth_element(intervals.begin(), middle, intervals.end());
    return *middle;
}

Seconds FlightFit::longestReadout() const {
    return image::longestReadout({m_setup.intervalSeconds});
}

SharedState FlightFit::startState(Seconds reference, Seconds span) const {
    SharedState state;
    state.readoutSeconds =
        m_givenReadout.value_or(readoutKnowledge(std::nullopt, longestReadout()).mean).seconds;
    const PointPx middle = m_setup.picture.principalPoint();
    // The flight was linked by the frames' times; the path runs by those of the ball's row.
    const auto at = [&](double tau) {
        const double time = reference.seconds + tau * span.seconds;
        PointPx centre = m_flight.centreAt({time});
        for (int round = 0; round < 3; ++round) {
            centre = m_flight.centreAt({time - state.readoutSeconds * m_setup.rows.at(centre)});
        }
        return centre;
    };
    const PointPx before = at(-1.0);
    const PointPx now = at(0.0);
    const PointPx after = at(1.0);
    const double r = m_flight.radiusPx;
    state.x << (now.x - middle.x) / r, 0.5 * (after.x - before.x) / r,
        (0.5 * (after.x + before.x) - now.x) / r, 0.0;
    state.y << (now.y - middle.y) / r, 0.5 * (after.y - before.y) / r,
        (0.5 * (after.y + before.y) - now.y) / r, 0.0;
    state.inverseRadius << 1.0 / r, 0.0;
    state.exposureSeconds = 0.2 * m_setup.intervalSeconds;
    state.logFocal = std::log(m_setup.picture.focalPx);
    return state;
}

PathFit FlightFit::startFit() const {
    const double from = m_moving.times[m_linkedFirst].seconds;
    const double to = m_moving.times[m_linkedLast].seconds;
    const Seconds reference{0.5 * (from + to)};
    const Seconds span{0.5 * (to - from)};
    std::vector<PathFrame> frames;
    for (std::size_t i = m_first; i <= m_last; ++i) {
        PathFrame frame;
        frame.time = m_moving.times[i];
        frame.motion = m_moving.motion[i];
        frame.isUsed = i >= m_linkedFirst && i <= m_linkedLast;
        for (const BallHint& click : m_clicks) {
            if (click.frame == m_moving.frames[i]) {
                frame.held = HeldCentre{click.centre, kClickSigmaRadii * m_flight.radiusPx};
                frame.isUsed = true;
            }
        }
        frames.push_back(std::move(frame));
    }
    return {m_setup, std::move(frames), startState(reference, span), reference, span};
}

Ellipse FlightFit::outlineAt(const OutlineState& state) const {
    Camera camera = m_setup.picture;
    camera.focalPx = std::exp(state.logFocal);
    const double z = camera.focalPx / std::exp(state.logAxialRadius);
    const PointPx middle = camera.principalPoint();
    const SpherePosition sphere{(state.centre.x - middle.x) / camera.focalPx * z,
                                (state.centre.y - middle.y) / camera.focalPx * z, z};
    constexpr double kNearest = 1.5;
    return outlineOf(camera, {sphere.x, sphere.y, std::max(z, kNearest)}).value();
}

double FlightFit::visible(const PathFit& fit, const PathFrame& frame) const {
    const OutlineState state = fit.predict(frame);
    return visibleShare(outlineAt(state), {}, m_moving.fullWidth, m_moving.fullHeight);
}

std::vector<SweptDisc> FlightFit::expectedBalls(const PathFit& fit, double exposureSeconds) const {
    constexpr double kElsewherePx = -1e6;
    std::vector<SweptDisc> balls(m_placed.size(), SweptDisc{{kElsewherePx, kElsewherePx}, 1.0, {}});
    for (std::size_t k = 0; k < fit.frames().size(); ++k) {
        const OutlineState state = fit.predict(fit.frames()[k]);
        const Ellipse outline = outlineAt(state);
        balls[m_first + k] = {
            outline.centre,
            outline.semiMajorPx,
            {state.velocity.x * exposureSeconds, state.velocity.y * exposureSeconds}};
    }
    return balls;
}

// Frames whose ball has moved from where their patch was cut get a new one.
Result<void> FlightFit::cutPatches(PathFit& fit, double exposureSeconds,
                                   bool withNeighbours) const {
    const PlacedPictures pictures{m_source, {m_moving.fullWidth, m_moving.fullHeight}, m_placed};
    const std::vector<SweptDisc> balls = expectedBalls(fit, exposureSeconds);
    for (std::size_t k = 0; k < fit.frames().size(); ++k) {
        PathFrame& frame = fit.frames()[k];
        if (!frame.isUsed && !withNeighbours) {
            continue;
        }
        const SweptDisc& now = balls[m_first + k];
        const SweptDisc& then = frame.patch.about;
        const double drift =
            std::hypot(now.centre.x - then.centre.x, now.centre.y - then.centre.y) +
            std::abs(now.radiusPx - then.radiusPx) +
            0.5 * std::max(0.0, std::hypot(now.smear.x, now.smear.y) -
                                    std::hypot(then.smear.x, then.smear.y));
        if (frame.patch.pixels.empty() || drift > kMaxPatchDriftPx) {
            frame.patch = BallPatch{};
            if (visible(fit, frame) > 0.0) {
                BOOST_OUTCOME_TRY(patch, cutBallPatch(pictures, balls, m_first + k));
                frame.patch = std::move(patch);
            }
        }
    }
    return ok();
}

bool FlightFit::showsBall(const PathFit& fit, PathFrame& frame) const {
    if (visible(fit, frame) < kMinVisible) {
        return false;
    }
    const OutlineEquations seen = fit.probe(frame);
    if (seen.changedInside - seen.changedAround < kMinStandOut) {
        return false;
    }
    const Eigen::Matrix2d information = seen.information.topLeftCorner<2, 2>();
    if (information.determinant() < 1e-9) {
        return false;
    }
    const Eigen::Vector2d own = -information.inverse() * seen.gradient.head<2>();
    return own.norm() < kMaxOwnOffset * m_flight.radiusPx;
}

// Frames between the linked ones and, outwards, as long as they show a ball on the path.
void FlightFit::choose(PathFit& fit, bool isLast) const {
    auto& frames = fit.frames();
    const std::size_t from = m_linkedFirst - m_first;
    const std::size_t to = m_linkedLast - m_first;
    for (std::size_t k = from; k <= to; ++k) {
        frames[k].isUsed = showsBall(fit, frames[k]) || frames[k].held.has_value();
    }
    const std::size_t patience = isLast ? 2 : 1;
    std::size_t misses = 0;
    for (std::size_t k = to + 1; k < frames.size() && misses < patience; ++k) {
        frames[k].isUsed = showsBall(fit, frames[k]);
        misses = frames[k].isUsed ? 0 : misses + 1;
    }
    misses = 0;
    for (std::size_t k = from; k-- > 0 && misses < patience;) {
        frames[k].isUsed = showsBall(fit, frames[k]);
        misses = frames[k].isUsed ? 0 : misses + 1;
    }
}

// The outlines say what they can without a prior; the track is then that of the likeliest readout.
Result<void> FlightFit::settleReadout(PathFit& fit, const std::stop_token& stop) {
    if (m_givenReadout) {
        return ok();
    }
    m_readoutSeen = fit.readoutEstimate();
    fit.holdReadout(readoutKnowledge(m_readoutSeen, longestReadout()).mean);
    BOOST_OUTCOME_TRY(fit.iterate(4, std::nullopt, stop));
    fit.assess();
    return ok();
}

double FlightFit::coarseEdge(double shareOfRadius) const {
    return std::max(kLeastEdgePx, shareOfRadius * m_flight.radiusPx);
}

Result<void> FlightFit::fitCoarsely(PathFit& fit, const std::stop_token& stop) const {
    BOOST_OUTCOME_TRY(cutPatches(fit, kFirstExposure * m_setup.intervalSeconds, false));
    for (const double share : {kWideEdgeRadii, kCoarseEdgeRadii}) {
        BOOST_OUTCOME_TRY(fit.iterate(10, coarseEdge(share), stop));
        BOOST_OUTCOME_TRY(cutPatches(fit, fit.shared().exposureSeconds, false));
    }
    return ok();
}

Result<FrameRange> FlightFit::seen(const std::stop_token& stop) {
    m_setup.intervalSeconds = intervalSeconds();
    PathFit fit = startFit();
    BOOST_OUTCOME_TRY(fitCoarsely(fit, stop));
    for (const bool isLast : {false, true}) {
        BOOST_OUTCOME_TRY(cutPatches(fit, fit.shared().exposureSeconds, true));
        choose(fit, isLast);
        if (!isLast) {
            BOOST_OUTCOME_TRY(fit.iterate(4, coarseEdge(kCoarseEdgeRadii), stop));
        }
    }
    std::vector<timebase::FrameIndex> used;
    for (std::size_t k = 0; k < fit.frames().size(); ++k) {
        if (fit.frames()[k].isUsed) {
            used.push_back(m_moving.frames[m_first + k]);
        }
    }
    if (used.size() < kMinFrames) {
        return tooFewShow();
    }
    return FrameRange{used.front(), used.back()};
}

Result<BallTrack> FlightFit::run(const std::stop_token& stop) {
    m_setup.intervalSeconds = intervalSeconds();
    PathFit fit = startFit();
    BOOST_OUTCOME_TRY(fitCoarsely(fit, stop));
    if (!m_givenReadout) {
        fit.freeReadout();
    }
    BOOST_OUTCOME_TRY(fit.iterate(6, std::nullopt, stop));
    fit.assess();
    for (const bool isLast : {false, true}) {
        BOOST_OUTCOME_TRY(cutPatches(fit, fit.shared().exposureSeconds, true));
        choose(fit, isLast);
        BOOST_OUTCOME_TRY(fit.iterate(6, std::nullopt, stop));
        fit.assess();
    }
    BOOST_OUTCOME_TRY(settleReadout(fit, stop));
    const auto used = std::count_if(fit.frames().begin(), fit.frames().end(),
                                    [](const PathFrame& frame) { return frame.isUsed; });
    if (static_cast<std::size_t>(used) < kMinFrames && endsAtKink()) {
        return fail(ErrorCode::Untrustworthy,
                    tooFewBeforeKink(static_cast<std::size_t>(used), frameAfterKink()));
    }
    if (static_cast<std::size_t>(used) < kMinFrames) {
        return tooFewShow();
    }
    if (m_clicks.empty() && isShadow(fit)) {
        return fail(ErrorCode::NotFound,
                    said("What moves like a ball is a shadow: the ground shows through it. Click "
                         "the ball in two frames to lead the search."));
    }
    if (fit.scatterPx() > kMaxScatterRadii * m_flight.radiusPx) {
        return fail(ErrorCode::NotFound,
                    said("Something moves like a ball, but its outline jumps about the path. Click "
                         "the ball in two frames to lead the search."));
    }
    if (const auto shot = shotOf(fit)) {
        return FlightFit(m_source, m_moving, *shot, m_clicks, m_options).run(stop);
    }
    return endAtKink(collect(fit));
}

Result<BallTrack> fitFlight(FrameSource& source, const MovingPictures& moving,
                            const LinkedFlight& flight, std::span<const BallHint> clicks,
                            const TrackOptions& options, const std::stop_token& stop) {
    return FlightFit(source, moving, flight, clicks, options).run(stop);
}

Result<FrameRange> seenInFlight(FrameSource& source, const MovingPictures& moving,
                                const LinkedFlight& flight, const TrackOptions& options,
                                const std::stop_token& stop) {
    return FlightFit(source, moving, flight, {}, options).seen(stop);
}

}  // namespace core::image
