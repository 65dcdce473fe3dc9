#pragma once

#include <Eigen/Core>
#include <deque>
#include <filesystem>
#include <string>
#include <vector>

#include "core/spin/fit/rotation_fit.h"

namespace tests {

/// How far a track is from the truth. Errors are normal; the same seed gives the same errors.
struct TrackErrors {
    double centrePx{0.3};     ///< of each coordinate in each frame
    double radiusShare{0.0};  ///< of the radius; one error for the whole shot
    double radiusPx{0.0};     ///< of the radius, one error for the whole shot
    std::uint64_t seed{1};
};

/// The ball in one frame as the truth has it.
struct SeenBall {
    std::int64_t frame{};
    double time{};  ///< capture time, s
    double xPx{}, yPx{}, radiusPx{};
};

/// One shot of a clip whose truth is written beside it (tests/data/footage/README.md), made ready
/// for the fit as a tracker with known errors would. Neither copied nor moved: the input refers to
/// the pictures.
///
/// Frames in which the ball is cut off by the picture's border are left out; the field of view is
/// not given to the fit; the smear is the way between neighbouring frames, scaled.
class FilmedShot {
public:
    /// Throws std::runtime_error when the clip or its truth cannot be read.
    FilmedShot(const std::filesystem::path& truthFile, const TrackErrors& errors,
               std::size_t shot = 0);
    FilmedShot(const FilmedShot&) = delete;
    FilmedShot& operator=(const FilmedShot&) = delete;

    core::spin::fit::FitInput input;

    /// The truth.
    Eigen::Vector3d angularVelocity;  ///< rad/s
    double rpm{};
    double fieldOfViewDegrees{};
    double exposureS{};
    double captureFps{};
    double meanRadiusPx{};
    std::string marking;

private:
    void addFrames(const std::vector<SeenBall>& balls, const TrackErrors& errors,
                   const std::filesystem::path& film);

    std::deque<core::PixelBuffer> m_pictures;
};

}  // namespace tests
