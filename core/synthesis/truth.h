#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/synthesis/capture_schedule.h"
#include "core/synthesis/strike_sound.h"

namespace core::synthesis {

/// The ball in one frame, as it truly was.
struct FrameTruth {
    timebase::FrameIndex frame;
    Seconds captureTime;  ///< middle of the exposure of the row that holds the ball's centre
    Seconds fileTime;     ///< presentation time stamp
    PicturePoint centre;  ///< projection of the ball's centre, not the middle of the outline
    double radiusPx{};    ///< geometric mean of the outline's semi-axes
    Ellipse outline;
    bool isFullyInside{};
    double visibleFraction{};  ///< share of the outline inside the picture
    double markFraction{};     ///< share of the outline that shows the mark
    double blurPx{};           ///< way of the centre during the exposure
    Vector3 positionM{};
    Quaternion attitude;  ///< ball to camera coordinates
};

/// One shot, as it truly was. Frames in which no part of the ball is inside the picture are left
/// out, and those after a bounce, where the shot ends.
struct ShotTruth {
    std::size_t flight{};  ///< index in Scene::flights
    Rpm spin;
    Vector3 axis{};  ///< unit vector, right-handed
    Vector3 spinRadPerS{};
    Seconds strike;                    ///< capture time
    timebase::FrameIndex strikeFrame;  ///< first frame after the strike
    double speedMPerS{};               ///< at the first frame
    Vector3 velocityMPerS{};           ///< at the first frame
    std::vector<FrameTruth> frames;
};

/// What is true of a whole film.
struct ClipTruth {
    Scene scene;
    CaptureSchedule schedule;
    std::vector<ShotTruth> shots;  ///< in order of their strikes; flights never seen are left out
    std::vector<HeardSound> sounds;
};

/// Computes the truth of a scene without rendering it. Errors: as checkScene().
Result<ClipTruth> truthOf(const Scene& scene);

/// Facts of a film's file for its truth in writing.
struct FilmFacts {
    std::string fileName;
    std::string codec;                       ///< "h264", "hevc"
    std::optional<double> megabitPerSecond;  ///< absent for constant quality
    std::optional<double> taggedCaptureFps;
};

/// The truth as JSON text: per shot spin_rpm, axis, omega_rad_s, strike_frame, frames with
/// centre_px, radius_px, outline, t_mid_s, pts_s and more, SI units, angles in degrees.
[[nodiscard]] std::string truthJson(const ClipTruth& truth, const FilmFacts& facts);

/// The frames in which the ball's attitude is nearest to that of the start frame after 1, 2, …,
/// turns whole turns; shorter where the last wholly visible frame comes before a return. Empty when
/// no frame is wholly visible or the ball does not spin. Frames that show an earlier picture again
/// count as any other.
[[nodiscard]] std::vector<timebase::FrameIndex> nearestReturnFrames(const ShotTruth& shot,
                                                                    int turns);

/// First frame in which the whole ball is inside the picture.
[[nodiscard]] std::optional<timebase::FrameIndex> startFrame(const ShotTruth& shot);

/// Name of a marking in truth files, for example "three_quarters_dark".
[[nodiscard]] std::string markingName(Marking marking);

}  // namespace core::synthesis
