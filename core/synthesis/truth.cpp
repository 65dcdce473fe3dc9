#include "core/synthesis/truth.h"

#include <algorithm>
#include <cmath>

#include "core/base/expects.h"
#include "core/synthesis/ball_drawing.h"

namespace core::synthesis {
namespace {

constexpr int kRings = 24;
constexpr int kSpokes = 48;

/// Shares of the outline inside the picture and marked, by a net of equal areas over it.
void measureOutline(FrameTruth& frame, const PinholeCamera& camera, double radiusM,
                    const BallSurface& surface) {
    const double f = camera.focalPx();
    const PicturePoint middle = camera.principalPoint();
    const double turn = frame.outline.majorAxisFromX.radians;
    const Quaternion toOwn{frame.attitude.w, -frame.attitude.x, -frame.attitude.y,
                           -frame.attitude.z};
    int inside = 0;
    int marked = 0;
    for (int ring = 0; ring < kRings; ++ring) {
        const double r = std::sqrt((ring + 0.5) / kRings);
        for (int spoke = 0; spoke < kSpokes; ++spoke) {
            const double phi = 2.0 * kPi * (spoke + 0.5) / kSpokes;
            const double u = r * frame.outline.semiMajorPx * std::cos(phi);
            const double v = r * frame.outline.semiMinorPx * std::sin(phi);
            const double x = frame.outline.centre.x + u * std::cos(turn) - v * std::sin(turn);
            const double y = frame.outline.centre.y + u * std::sin(turn) + v * std::cos(turn);
            inside += x >= 0.0 && x < camera.widthPx && y >= 0.0 && y < camera.heightPx ? 1 : 0;
            const Vector3 ray = unitOf({(x - middle.x) / f, (y - middle.y) / f, 1.0});
            const double along = dotOf(ray, frame.positionM);
            const Vector3 beside = sumOf(scaled(ray, along), scaled(frame.positionM, -1.0));
            const double depth2 = radiusM * radiusM - dotOf(beside, beside);
            const Vector3 normal = sumOf(beside, scaled(ray, -std::sqrt(std::max(depth2, 0.0))));
            const Vector3 own = unitOf(rotated(toOwn, normal));
            marked += surface.isMarkedAt({static_cast<float>(own[0]), static_cast<float>(own[1]),
                                          static_cast<float>(own[2])})
                          ? 1
                          : 0;
        }
    }
    frame.visibleFraction = static_cast<double>(inside) / (kRings * kSpokes);
    frame.markFraction = static_cast<double>(marked) / (kRings * kSpokes);
}

bool isWhollyInside(const Ellipse& outline, const PinholeCamera& camera) {
    const double c = std::cos(outline.majorAxisFromX.radians);
    const double s = std::sin(outline.majorAxisFromX.radians);
    const double reachX = std::hypot(outline.semiMajorPx * c, outline.semiMinorPx * s);
    const double reachY = std::hypot(outline.semiMajorPx * s, outline.semiMinorPx * c);
    return outline.centre.x - reachX >= 0.0 && outline.centre.x + reachX <= camera.widthPx &&
           outline.centre.y - reachY >= 0.0 && outline.centre.y + reachY <= camera.heightPx;
}

struct Watched {
    const Scene& scene;
    const CaptureSchedule& schedule;
    const FlightPath& path;
    const BallSurface& surface;
    double radiusM;
};

FrameTruth frameTruth(const Watched& watched, std::size_t index) {
    const ScheduledFrame& what = watched.schedule.frames[index];
    PinholeCamera camera = watched.scene.camera;
    const PicturePoint sway = swayAt(watched.scene, what.shownTime);
    camera.shift = {camera.shift.x + sway.x, camera.shift.y + sway.y};
    const Exposure exposure{what.shownTime, watched.scene.shutter};
    const Seconds time = exposureTimeOfBall(watched.path, camera, exposure);
    const FlightState state = watched.path.at(time);
    FrameTruth frame;
    frame.frame = {static_cast<std::int64_t>(index)};
    frame.captureTime = time;
    frame.fileTime = {(timebase::Rational{what.ticks} * watched.schedule.timeBase).toDouble()};
    frame.centre = camera.project(state.positionM);
    frame.outline = outlineOfBall(camera, state.positionM, watched.radiusM);
    frame.radiusPx = std::sqrt(frame.outline.semiMajorPx * frame.outline.semiMinorPx);
    frame.isFullyInside = isWhollyInside(frame.outline, camera);
    const double half = 0.5 * watched.scene.shutter.exposure.seconds;
    const PicturePoint from = camera.project(watched.path.at({time.seconds - half}).positionM);
    const PicturePoint to = camera.project(watched.path.at({time.seconds + half}).positionM);
    frame.blurPx = std::hypot(to.x - from.x, to.y - from.y);
    frame.positionM = state.positionM;
    frame.attitude = state.attitude;
    measureOutline(frame, camera, watched.radiusM, watched.surface);
    return frame;
}

ShotTruth shotTruth(const Scene& scene, const CaptureSchedule& schedule, std::size_t index) {
    const Flight& flight = scene.flights[index];
    const FlightPath path{flight, scene.air};
    const BallSurface surface{flight, scene.seed};
    const Watched watched{scene, schedule, path, surface, 0.5 * flight.ball.diameterM};
    ShotTruth shot;
    shot.flight = index;
    shot.spinRadPerS = flight.spinRadPerS;
    shot.spin = toRpm(RadiansPerSecond{lengthOf(flight.spinRadPerS)});
    shot.axis = unitOf(flight.spinRadPerS);
    shot.strike = flight.strike;
    const auto after =
        std::find_if(schedule.frames.begin(), schedule.frames.end(),
                     [&](const ScheduledFrame& f) { return f.stampedTime >= flight.strike; });
    shot.strikeFrame = {after - schedule.frames.begin()};
    for (std::size_t i = 0; i < schedule.frames.size(); ++i) {
        const Seconds time = schedule.frames[i].shownTime;
        if (!path.isUnderWay(time) || path.at(time).positionM[2] <= 2.0 * watched.radiusM) {
            continue;
        }
        const FrameTruth frame = frameTruth(watched, i);
        if (flight.bounce && frame.captureTime > flight.bounce->time) {
            break;
        }
        if (frame.visibleFraction > 0.0) {
            shot.frames.push_back(frame);
        }
    }
    if (!shot.frames.empty()) {
        shot.velocityMPerS = path.at(shot.frames.front().captureTime).velocityMPerS;
        shot.speedMPerS = lengthOf(shot.velocityMPerS);
    }
    return shot;
}

}  // namespace

Result<ClipTruth> truthOf(const Scene& scene) {
    BOOST_OUTCOME_TRY(checkScene(scene));
    ClipTruth truth{
        .scene = scene, .schedule = scheduleOf(scene), .shots = {}, .sounds = heardSoundsOf(scene)};
    for (std::size_t i = 0; i < scene.flights.size(); ++i) {
        if (scene.flights[i].isDecoy) {
            continue;
        }
        ShotTruth shot = shotTruth(scene, truth.schedule, i);
        if (!shot.frames.empty()) {
            truth.shots.push_back(std::move(shot));
        }
    }
    std::stable_sort(truth.shots.begin(), truth.shots.end(),
                     [](const ShotTruth& a, const ShotTruth& b) { return a.strike < b.strike; });
    return truth;
}

std::optional<timebase::FrameIndex> startFrame(const ShotTruth& shot) {
    for (const FrameTruth& frame : shot.frames) {
        if (frame.isFullyInside) {
            return frame.frame;
        }
    }
    return std::nullopt;
}

std::vector<timebase::FrameIndex> nearestReturnFrames(const ShotTruth& shot, int turns) {
    CORE_EXPECTS(turns >= 1);
    const auto isWhole = [](const FrameTruth& frame) { return frame.isFullyInside; };
    const auto start = std::find_if(shot.frames.begin(), shot.frames.end(), isWhole);
    const auto end = std::find_if(shot.frames.rbegin(), shot.frames.rend(), isWhole).base();
    std::vector<timebase::FrameIndex> returns;
    if (start == shot.frames.end() || !(shot.spin.rpm > 0.0)) {
        return returns;
    }
    const double turnS = 60.0 / shot.spin.rpm;
    for (int turn = 1; turn <= turns; ++turn) {
        const double returnS = start->captureTime.seconds + turn * turnS;
        if (std::prev(end)->captureTime.seconds < returnS) {
            break;
        }
        // Attitudes repeat every turn: only the half turns before and after this return count.
        const FrameTruth* nearest = nullptr;
        double smallest = 2.0 * kPi;
        for (auto frame = start; frame != end; ++frame) {
            const double apart = angleBetween(frame->attitude, start->attitude).radians;
            if (std::abs(frame->captureTime.seconds - returnS) <= 0.5 * turnS && apart < smallest) {
                smallest = apart;
                nearest = &*frame;
            }
        }
        if (nearest != nullptr) {
            returns.push_back(nearest->frame);
        }
    }
    return returns;
}

}  // namespace core::synthesis
