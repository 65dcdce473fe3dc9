#include "core/image/flight_fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/image/kink.h"
#include "core/image/path_fit.h"

namespace core::image {

namespace {

constexpr std::size_t kMostExtension = 12;    // frames beyond those that were linked, each way
constexpr double kMinVisible = 0.15;          // of the outline, for a frame to be searched
constexpr double kMinMeasuredVisible = 0.35;  // for a frame to be called measured
constexpr double kMinStandOut = 0.2;          // changed pixels on the ball less those around it
constexpr double kMaxOwnOffset = 0.35;        // radii between the frame's own centre and the path
constexpr std::size_t kMinFrames = 4;
constexpr double kCoreShare = 0.7;        // of the outline, where the background cannot mix in
constexpr double kMaxScatterRadii = 0.2;  // a ball in strong noise keeps to a twentieth
// What all frames have in common and their scatter does not show: gloss at the rim, the coder, the
// shape of the edge. From comparison with independently rendered footage.
constexpr double kCommonCentrePx = 0.1;
constexpr double kCommonRadius = 0.005;   // relative
constexpr double kCommonExposure = 0.04;  // relative; limb darkening eats into the smear
constexpr double kCommonFocal = 0.05;     // relative
constexpr double kMaxPatchDriftPx = 2.0;  // of the margin about the ball
constexpr double kFirstExposure = 0.5;    // of the frame interval, until it is known
constexpr double kSeenAlonePx = 0.15;     // least scatter of a ball that is seen on its own
constexpr double kSeenAloneRadii = 0.005;

double exposureSigma(const PathFit& fit) {
    return std::hypot(fit.exposureSigma(), kCommonExposure * fit.shared().exposureSeconds);
}

/// The frames a flight may occupy, and the fit over them.
class FlightFit {
public:
    FlightFit(const MovingPictures& moving, const LinkedFlight& flight,
              std::span<const BallHint> clicks, const TrackOptions& options)
        : m_moving{moving}, m_flight{flight}, m_clicks{clicks}, m_options{options} {
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
            m_placed.push_back({moving.pictures[i], moving.motion[i]});
        }
    }

    Result<BallTrack> run(const std::stop_token& stop);

private:
    [[nodiscard]] double intervalSeconds() const;
    [[nodiscard]] Seconds longestReadout() const;
    Result<void> settleReadout(PathFit& fit, const std::stop_token& stop);
    [[nodiscard]] PathFit startFit() const;
    [[nodiscard]] SharedState startState(Seconds reference, Seconds span) const;
    [[nodiscard]] std::vector<SweptDisc> expectedBalls(const PathFit& fit,
                                                       double exposureSeconds) const;
    void cutPatches(PathFit& fit, double exposureSeconds, bool withNeighbours) const;
    [[nodiscard]] double visible(const PathFit& fit, const PathFrame& frame) const;
    void choose(PathFit& fit, bool isLast) const;
    [[nodiscard]] bool showsBall(const PathFit& fit, PathFrame& frame) const;
    [[nodiscard]] bool isShadow(const PathFit& fit) const;
    /// The frames in which the ball was seen whole, as points of its path.
    [[nodiscard]] std::vector<PathPoint> seenAlone(const PathFit& fit,
                                                   std::vector<std::size_t>& ordinals) const;
    /// The part of the flight that is the shot, when the flight has kinks.
    [[nodiscard]] std::optional<LinkedFlight> shotOf(const PathFit& fit) const;
    [[nodiscard]] bool endsAtKink() const {
        return m_flight.lastUsable < m_moving.frames.size() - 1;
    }
    /// On which side of a kink the frame next to it lies is not sure.
    [[nodiscard]] std::size_t lastSure() const {
        return m_flight.lastUsable - (endsAtKink() && m_flight.lastUsable > 0 ? 1 : 0);
    }
    [[nodiscard]] timebase::FrameIndex frameAfterKink() const {
        return m_moving.frames[m_flight.lastUsable + 1];
    }
    [[nodiscard]] Result<BallTrack> endAtKink(BallTrack track) const;
    [[nodiscard]] BallTrack collect(PathFit& fit) const;
    [[nodiscard]] BallInFrame describe(const PathFit& fit, const PathFrame& frame,
                                       std::size_t ordinal) const;
    [[nodiscard]] Ellipse outlineAt(const OutlineState& state) const;

    const MovingPictures& m_moving;
    const LinkedFlight& m_flight;
    std::span<const BallHint> m_clicks;
    const TrackOptions& m_options;
    PathFitSetup m_setup;
    std::optional<Seconds> m_givenReadout;
    std::optional<ReadoutEstimate> m_readoutSeen;
    std::size_t m_linkedFirst{};
    std::size_t m_linkedLast{};
    std::size_t m_first{};
    std::size_t m_last{};
    std::vector<PlacedFrame> m_placed;
};

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
void FlightFit::cutPatches(PathFit& fit, double exposureSeconds, bool withNeighbours) const {
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
            frame.patch = visible(fit, frame) > 0.0 ? cutBallPatch(m_placed, balls, m_first + k)
                                                    : BallPatch{};
        }
    }
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
        ball.radiusPx * std::hypot(std::sqrt(frame.covariance(2, 2)), kCommonRadius);
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

Result<BallTrack> FlightFit::run(const std::stop_token& stop) {
    m_setup.intervalSeconds = intervalSeconds();
    PathFit fit = startFit();
    const double radius = m_flight.radiusPx;
    cutPatches(fit, kFirstExposure * m_setup.intervalSeconds, false);
    for (const double share : {0.25, 0.12}) {
        BOOST_OUTCOME_TRY(fit.iterate(10, std::max(1.6, share * radius), stop));
        cutPatches(fit, fit.shared().exposureSeconds, false);
    }
    if (!m_givenReadout) {
        fit.freeReadout();
    }
    BOOST_OUTCOME_TRY(fit.iterate(6, std::nullopt, stop));
    fit.assess();
    for (const bool isLast : {false, true}) {
        cutPatches(fit, fit.shared().exposureSeconds, true);
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
        return fail(ErrorCode::NotFound,
                    "Something moves like a ball, but fewer than four frames show a ball there. "
                    "Click the ball in two frames, or film against a plainer background.");
    }
    if (m_clicks.empty() && isShadow(fit)) {
        return fail(ErrorCode::NotFound,
                    "What moves like a ball is a shadow: the ground shows through it. "
                    "Click the ball in two frames to lead the search.");
    }
    if (fit.scatterPx() > kMaxScatterRadii * radius) {
        return fail(ErrorCode::NotFound,
                    "Something moves like a ball, but its outline jumps about the path. "
                    "Click the ball in two frames to lead the search.");
    }
    if (const auto shot = shotOf(fit)) {
        return FlightFit(m_moving, *shot, m_clicks, m_options).run(stop);
    }
    return endAtKink(collect(fit));
}

}  // namespace

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

Result<BallTrack> fitFlight(const MovingPictures& moving, const LinkedFlight& flight,
                            std::span<const BallHint> clicks, const TrackOptions& options,
                            const std::stop_token& stop) {
    return FlightFit(moving, flight, clicks, options).run(stop);
}

}  // namespace core::image
