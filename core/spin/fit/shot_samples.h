#pragma once

#include <Eigen/Core>
#include <array>
#include <span>
#include <vector>

#include "core/spin/fit/projected_sphere.h"
#include "core/spin/fit/rotation_fit.h"

/// The pixels of a shot that show the ball. Module-internal: uses Eigen types.
///
/// A pixel collects linear light while the shutter is open. The ball moves on meanwhile, so a pixel
/// is covered during a part of the exposure only, its cover a, and shows
///
///     a ball + (1 - a) background,
///
/// where "ball" is the mean over the time in which it is covered. Where the background is known it
/// is taken off; else only pixels that are covered all the time are used.
namespace core::spin::fit {

/// Samples of one frame: n blocks of pixels, each the mean of a square block.
struct FrameSamples {
    double time{};  ///< capture time at the ball's row, relative to the shot's reference time, s
    SphereImage place;
    Eigen::Vector2d smearPx{0.0, 0.0};
    double centreSigmaPx{};
    /// n x 2, block centres in the whole frame, moved to where they would be if all rows were read
    /// with that of the ball's centre.
    Eigen::MatrixX2f pointPx;
    Eigen::VectorXf lateS;  ///< n, seconds after the frame's time at which the block is read
    /// n, middle of the time in which the block is covered, from the middle of the exposure; and
    /// its length. In exposures: a block that is always covered has 0 and 1.
    Eigen::VectorXf middle, cover;
    /// n x 3, red green blue: linear light of the ball over the exposure, its background taken off;
    /// 255 is white.
    Eigen::MatrixX3f light;
    Eigen::VectorXf weight;  ///< n, falls with the slant
    std::size_t source{};    ///< index in FitInput::frames
};

struct ShotSamples {
    Pinhole camera;  ///< as assumed when the samples were chosen
    double referenceTime{};
    double exposure{};
    double relativeRadiusSigma{};  ///< standard uncertainty of the radii over the radii, shared
    std::vector<FrameSamples> frames;
};

/// Collects samples of frames in which enough of the ball is seen; others are left out.
/// blocksPerRadius: about how many blocks a radius is divided into (never finer than pixels).
[[nodiscard]] ShotSamples collectSamples(const FitInput& input, double focalPx,
                                         double blocksPerRadius);

/// An instant within the time in which a block is covered: offset in shares of that time from its
/// middle. Weights add up to 1.
struct CoveredInstant {
    double offset{};
    double weight{};
};

/// Instants of Gauss's quadrature, the more the farther the ball moves during the exposure.
[[nodiscard]] std::span<const CoveredInstant> instantsOf(const FrameSamples& frame);

/// Whether a change is one of the focal length, which turns the rays too.
enum class Zoom { No, Yes };

/// How a ball changes with an unknown: derivatives of its centre and its way.
struct BallChange {
    Eigen::Vector3d centre;
    Eigen::Vector3d way;
    Zoom zoom{Zoom::No};
};

/// p x dp with four unknowns, n x 3 each.
using Levers = std::array<Eigen::MatrixX3f, 4>;

/// The ball over the exposure of one frame as a camera sees it.
class MovingBall {
public:
    MovingBall(const Pinhole& camera, const SphereImage& place, const Eigen::Vector2d& smearPx);

    /// Directions p (camera coordinates) of the surface that the frame's samples show at an instant
    /// of their own, n x 3. Samples that miss the ball by a little show its rim.
    [[nodiscard]] Eigen::MatrixX3f seenBy(const FrameSamples& frame,
                                          const CoveredInstant& instant) const;

    /// Derivatives from the ball after a step of an unknown.
    [[nodiscard]] BallChange changeTo(const MovingBall& other, double step, Zoom zoom) const;
    /// How the directions of seenBy() change with the unknowns: p x dp.
    [[nodiscard]] Levers levers(const FrameSamples& frame, const CoveredInstant& instant,
                                const std::array<BallChange, 4>& changes) const;

    /// Time in which the surface along a unit ray slants by at least this cosine, in exposures from
    /// their middle; empty (low = high) when it never does.
    [[nodiscard]] Interval<double> whileSlantAbove(const Eigen::Vector3d& ray, double cosine) const;
    /// Slant along a unit ray at a time, in exposures from their middle; 0 outside the ball.
    [[nodiscard]] double slantAt(const Eigen::Vector3d& ray, double time) const;

private:
    [[nodiscard]] Eigen::Vector3d centreAt(const FrameSamples& frame, Eigen::Index sample,
                                           const CoveredInstant& instant) const;

    Pinhole m_camera;
    Eigen::Vector3d m_centre;  // in radii, in the middle of the exposure
    Eigen::Vector3d m_way;     // during the exposure
};

}  // namespace core::spin::fit
