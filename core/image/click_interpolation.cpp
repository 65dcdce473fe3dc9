#include "core/image/click_interpolation.h"

#include <cmath>

#include "core/image/flight_fit.h"
#include "core/image/kink.h"

namespace core::image {

namespace {

class Interpolation {
public:
    Interpolation(const MovingPictures& moving, std::span<const BallHint> clicks, double radiusPx)
        : m_moving{moving}, m_clicks{clicks}, m_radiusPx{radiusPx} {}

    [[nodiscard]] BallTrack track(const TrackOptions& options) const {
        BallTrack track;
        track.pictureWidth = m_moving.fullWidth;
        track.pictureHeight = m_moving.fullHeight;
        const Camera usual = cameraFromFieldOfView(track.pictureWidth, track.pictureHeight,
                                                   fromDegrees(kUsualFieldOfViewDegrees));
        constexpr double kUsualSpread = 0.2;
        track.focal = {{options.focalPx.value_or(usual.focalPx)},
                       {options.focalPx ? 0.0 : kUsualSpread * usual.focalPx}};
        const Camera camera{track.pictureWidth, track.pictureHeight, track.focal.value.px};
        const double interval = m_moving.times[1].seconds - m_moving.times[0].seconds;
        track.rowOrder = options.rowOrder;
        track.longestReadout = longestReadout({interval});
        track.readout =
            options.readout.value_or(readoutKnowledge(std::nullopt, track.longestReadout).mean);
        for (std::size_t i = ordinalOf(m_moving, m_clicks.front().frame);
             i <= ordinalOf(m_moving, m_clicks.back().frame); ++i) {
            track.frames.push_back(ballAt(i, camera));
            BallInFrame& ball = track.frames.back();
            ball.time.seconds += track.readout.seconds * track.rows().at(ball.centre);
            track.motion.push_back(m_moving.motion[i]);
        }
        track.path = straightPath(camera);
        track.exposure = {{0.0}, {interval}};
        return track;
    }

private:
    /// Timed as the first row.
    [[nodiscard]] BallInFrame ballAt(std::size_t ordinal, const Camera& camera) const {
        const Seconds time = m_moving.times[ordinal];
        std::size_t k = 1;
        while (k + 1 < m_clicks.size() && m_clicks[k].frame < m_moving.frames[ordinal]) {
            ++k;
        }
        const BallHint& a = m_clicks[k - 1];
        const BallHint& b = m_clicks[k];
        const double from = m_moving.times[ordinalOf(m_moving, a.frame)].seconds;
        const double to = m_moving.times[ordinalOf(m_moving, b.frame)].seconds;
        const double share = (time.seconds - from) / (to - from);
        BallInFrame ball;
        ball.frame = m_moving.frames[ordinal];
        ball.centre = {a.centre.x + share * (b.centre.x - a.centre.x),
                       a.centre.y + share * (b.centre.y - a.centre.y)};
        ball.time = time;
        ball.radiusPx = m_radiusPx;
        ball.centreSigma = {kClickSigmaRadii * m_radiusPx, kClickSigmaRadii * m_radiusPx};
        ball.radiusSigmaPx = kClickSigmaRadii * m_radiusPx;
        ball.smearSigmaPx = std::hypot(b.centre.x - a.centre.x, b.centre.y - a.centre.y) /
                            static_cast<double>(b.frame.value - a.frame.value);
        const auto outline = outlineOf(camera, sphereFromPicture(camera, ball.centre, m_radiusPx));
        ball.outline = outline.value();
        ball.source = BallSource::Clicked;
        ball.isPartial = visibleShare(ball.outline, {}, camera.width, camera.height) < 1.0;
        return ball;
    }

    [[nodiscard]] BallPath straightPath(const Camera& camera) const {
        const LinkedFlight::Member a = memberFor(m_moving, m_clicks.front());
        const LinkedFlight::Member b = memberFor(m_moving, m_clicks.back());
        BallPath path;
        path.referenceTime = m_moving.times[a.ordinal];
        path.principalPoint = camera.principalPoint();
        path.inverseRadius = {1.0 / m_radiusPx, 0.0};
        const double span = m_moving.times[b.ordinal].seconds - path.referenceTime.seconds;
        path.x = {(a.centre.x - path.principalPoint.x) / m_radiusPx,
                  (b.centre.x - a.centre.x) / m_radiusPx / span, 0.0, 0.0};
        path.y = {(a.centre.y - path.principalPoint.y) / m_radiusPx,
                  (b.centre.y - a.centre.y) / m_radiusPx / span, 0.0, 0.0};
        return path;
    }

    const MovingPictures& m_moving;
    std::span<const BallHint> m_clicks;
    double m_radiusPx;
};

}  // namespace

std::size_t ordinalOf(const MovingPictures& moving, timebase::FrameIndex frame) {
    return static_cast<std::size_t>(frame.value - moving.frames.front().value);
}

LinkedFlight::Member memberFor(const MovingPictures& moving, const BallHint& click) {
    const std::size_t ordinal = ordinalOf(moving, click.frame);
    const PointPx middle{0.5 * moving.fullWidth, 0.5 * moving.fullHeight};
    return {ordinal, moving.motion[ordinal].undo(click.centre, middle), moving.times[ordinal]};
}

BallTrack interpolateClicks(const MovingPictures& moving, std::span<const BallHint> clicks,
                            double radiusPx, const TrackOptions& options) {
    std::vector<PathPoint> points;
    for (const BallHint& click : clicks) {
        const LinkedFlight::Member at = memberFor(moving, click);
        points.push_back({at.time, at.centre, radiusPx, kClickSigmaRadii * radiusPx});
    }
    const PathPart shot = shotAmong(findKinks(points), points.size());
    BallTrack track =
        Interpolation(moving, clicks.subspan(shot.begin, shot.end - shot.begin), radiusPx)
            .track(options);
    if (shot.end < clicks.size()) {
        track.kink = clicks[shot.end].frame;
    }
    return track;
}

}  // namespace core::image
