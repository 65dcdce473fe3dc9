#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/synthesis/truth.h"

namespace core::synthesis {
namespace {

using nlohmann::ordered_json;

/// To a decimal unit such as 1e-3. Divides last, so that the text has no more digits than that.
double rounded(double value, double unit) {
    const double perUnit = std::round(1.0 / unit);
    return std::round(value * perUnit) / perUnit;
}

ordered_json pair(const PicturePoint& point) {
    return {rounded(point.x, 1e-3), rounded(point.y, 1e-3)};
}

ordered_json numberOrNull(const std::optional<double>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}

ordered_json frameJson(const FrameTruth& frame) {
    const Quaternion& q = frame.attitude;
    return {{"frame", frame.frame.value},
            {"t_mid_s", frame.captureTime.seconds},
            {"pts_s", frame.fileTime.seconds},
            {"centre_px", pair(frame.centre)},
            {"radius_px", rounded(frame.radiusPx, 1e-3)},
            {"outline",
             {{"centre_px", pair(frame.outline.centre)},
              {"semi_axes_px", pair({frame.outline.semiMajorPx, frame.outline.semiMinorPx})},
              {"angle_deg", rounded(toDegrees(frame.outline.majorAxisFromX), 1e-2)}}},
            {"fully_inside", frame.isFullyInside},
            {"visible_fraction", rounded(frame.visibleFraction, 1e-3)},
            {"mark_fraction", rounded(frame.markFraction, 1e-3)},
            {"blur_px", rounded(frame.blurPx, 1e-2)},
            {"position_m", frame.positionM},
            {"orientation_wxyz", {q.w, q.x, q.y, q.z}}};
}

ordered_json shotJson(const ClipTruth& truth, const ShotTruth& shot) {
    const double stretch = truth.scene.timing.stretch.toDouble();
    const auto inside = std::count_if(shot.frames.begin(), shot.frames.end(),
                                      [](const FrameTruth& f) { return f.isFullyInside; });
    ordered_json frames = ordered_json::array();
    for (const FrameTruth& frame : shot.frames) {
        frames.push_back(frameJson(frame));
    }
    const Flight& flight = truth.scene.flights[shot.flight];
    const double delayS = lengthOf(flight.positionM) / kSoundMPerS;
    ordered_json json{
        {"spin_rpm", shot.spin.rpm},
        {"axis", shot.axis},
        {"omega_rad_s", shot.spinRadPerS},
        {"axis_to_camera_axis_deg",
         rounded(toDegrees(Radians{std::acos(std::min(1.0, std::abs(shot.axis[2])))}), 1e-2)},
        {"first_frame", shot.frames.front().frame.value},
        {"last_frame", shot.frames.back().frame.value},
        {"n_frames", shot.frames.size()},
        {"n_frames_fully_inside", inside},
        {"first_t_s", shot.frames.front().captureTime.seconds},
        {"first_pts_s", shot.frames.front().fileTime.seconds},
        {"strike_t_s", shot.strike.seconds},
        {"strike_frame", shot.strikeFrame.value},
        {"strike_pts_s", stretch * shot.strike.seconds},
        {"speed_m_s", shot.speedMPerS},
        {"velocity_m_s", shot.velocityMPerS},
        {"frames", std::move(frames)}};
    if (truth.scene.sound) {
        json["strike_audio_t_s"] = stretch * (shot.strike.seconds + delayS);
    }
    return json;
}

std::string soundName(SoundKind kind) {
    switch (kind) {
        case SoundKind::Strike:
            return "strike";
        case SoundKind::DoorSlam:
            return "door_slam";
        case SoundKind::Bounce:
            return "bounce";
    }
    return {};
}

void addTimes(ordered_json& json, const ClipTruth& truth) {
    ordered_json capture = ordered_json::array();
    ordered_json file = ordered_json::array();
    ordered_json ticks = ordered_json::array();
    for (const ScheduledFrame& frame : truth.schedule.frames) {
        capture.push_back(frame.shownTime.seconds);
        file.push_back((timebase::Rational{frame.ticks} * truth.schedule.timeBase).toDouble());
        ticks.push_back(frame.ticks);
    }
    json["frame_times_s"] = std::move(capture);
    json["frame_pts_s"] = std::move(file);
    json["frame_ticks"] = std::move(ticks);
    json["time_base"] = truth.schedule.timeBase.toString();
}

void addShotsAndSounds(ordered_json& json, const ClipTruth& truth) {
    ordered_json shots = ordered_json::array();
    for (const ShotTruth& shot : truth.shots) {
        shots.push_back(shotJson(truth, shot));
    }
    json["shots"] = std::move(shots);
    if (!truth.sounds.empty()) {
        ordered_json events = ordered_json::array();
        for (const HeardSound& sound : truth.sounds) {
            events.push_back({{"kind", soundName(sound.kind)}, {"t", sound.fileTime.seconds}});
        }
        json["audio_events"] = std::move(events);
    }
}

}  // namespace

std::string markingName(Marking marking) {
    switch (marking) {
        case Marking::ThreeQuartersDark:
            return "three_quarters_dark";
        case Marking::HalfDark:
            return "half_dark";
        case Marking::Band:
            return "band";
        case Marking::BandWithDot:
            return "band_with_dot";
        case Marking::SeamWithBlob:
            return "seam_with_blob";
        case Marking::SeamWithPrint:
            return "seam_with_print";
        case Marking::Plain:
            return "plain";
        case Marking::Hidden:
            return "hidden";
    }
    return {};
}

std::string truthJson(const ClipTruth& truth, const FilmFacts& facts) {
    const Scene& scene = truth.scene;
    const CaptureTiming& timing = scene.timing;
    const bool isVariable = !timing.dropped.empty() || timing.jitter > 0.0;
    const double playbackFps = (timing.captureRate / timing.stretch).toDouble();
    const bool hasReadout = scene.shutter.readout.seconds > 0.0;
    const BallLook* ball =
        truth.shots.empty() ? nullptr : &scene.flights[truth.shots[0].flight].ball;
    ordered_json json{
        {"file", facts.fileName},
        {"made_by", "footage maker of this project; invented"},
        {"kind", truth.shots.size() > 1 ? "session" : "single"},
        {"expect", "measure"},
        {"resolution", {scene.camera.widthPx, scene.camera.heightPx}},
        {"codec", facts.codec},
        {"bitrate_mbit_s", numberOrNull(facts.megabitPerSecond)},
        {"capture_fps", timing.captureRate.toDouble()},
        {"container_fps", isVariable ? ordered_json(nullptr) : ordered_json(playbackFps)},
        {"capture_fps_tag", numberOrNull(facts.taggedCaptureFps)},
        {"variable_frame_rate", isVariable},
        {"dropped_nominal_frames", timing.dropped},
        {"repeated_nominal_frames", timing.frozen},
        {"frames_total", truth.schedule.frames.size()},
        {"exposure_s", scene.shutter.exposure.seconds},
        {"readout_s", scene.shutter.readout.seconds},
        {"readout_direction", hasReadout ? ordered_json("top to bottom") : ordered_json(nullptr)},
        {"hfov_deg", scene.camera.horizontalFieldOfViewDeg},
        {"focal_px", scene.camera.focalPx()},
        {"gravity_camera_m_s2", scene.air.gravityMPerS2},
        {"ball_diameter_m",
         ball != nullptr ? ordered_json(ball->diameterM) : ordered_json(nullptr)},
        {"mark",
         ball != nullptr ? ordered_json(markingName(ball->marking)) : ordered_json(nullptr)},
        {"half_turn_symmetric", ball != nullptr && ball->marking == Marking::Band},
        {"lift_coefficient", scene.air.liftCoefficient},
        {"drag_coefficient", scene.air.dragCoefficient},
        {"seed", scene.seed}};
    addShotsAndSounds(json, truth);
    addTimes(json, truth);
    return json.dump(1) + "\n";
}

}  // namespace core::synthesis
