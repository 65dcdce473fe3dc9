#pragma once

#include <array>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/base/units.h"

/// Spin and axis of a marked ball from the pictures of one shot, without a template of the marking.
///
/// All vectors are in camera coordinates: x right, y down, z forward (right-handed); an angular
/// velocity turns right-handed about its direction.
///
/// What to expect: on 134 rendered shots of varied conditions (ball of 30 px and more, 8 frames and
/// more, at most 30 degrees an exposure; track errors of 0.3 px and 0.7 % of the radius, field of
/// view not given; tests/benchmarks/spin_fit/rotation_accuracy.cpp) the median error of the rate
/// was 0.2 %, nine in ten were within 0.8 % and none beyond 3.3 %, that of the axis 1.7 degrees,
/// the 95 % interval held the truth in 94 % of readings and 7 % had no reading. On clips of an
/// independent renderer the medians were 0.05 % and 0.7 degrees. The axis has a heavier tail than
/// its sigma says: a two-tone ball whose axis lies across the view can drag the field of view, and
/// with it the axis, by 10 degrees and more.
namespace core::spin::fit {

struct Vector3 {
    double x{}, y{}, z{};
};
/// Row-major 3 x 3 matrix.
using Matrix3 = std::array<std::array<double, 3>, 3>;

/// A point or displacement in the picture; the centre of pixel (0, 0) is (0.5, 0.5).
struct PicturePoint {
    double xPx{}, yPx{};
};

/// One frame of a shot with the ball in it.
struct BallFrame {
    /// Middle of the exposure in capture time; under a rolling shutter that of the ball's row.
    Seconds captureTime;
    /// The whole frame or a cut-out of it, Rgb8; must outlive the call.
    PixelView picture;
    /// The same cut-out as it would look without the ball, Rgb8; empty where that is not known.
    PixelView background;
    /// Place of the cut-out's top left pixel in the whole frame.
    int leftPx{}, topPx{};
    /// Projection of the ball's centre (not the centre of its elliptic outline).
    PicturePoint centre;
    /// Radius of the circle that has the outline's area, without exposure smear.
    double radiusPx{};
    double radiusSigmaPx{0.2};  ///< standard uncertainty, taken as shared by all frames of the shot
    double centreSigmaPx{0.3};  ///< standard uncertainty of each coordinate
    /// Displacement of the ball's centre while the shutter is open.
    PicturePoint smear;
    /// Displacement of the ball's centre while the whole sensor is read (rolling shutter).
    PicturePoint drift;
};

/// What is known of the camera. Square pixels, principal point in the middle, no distortion.
struct FitCamera {
    int widthPx{}, heightPx{};
    /// Angle of view across the longer side, with its standard uncertainty; absent: estimated with
    /// a prior for phones (about 45 to 80 degrees).
    std::optional<Measured<Radians>> fieldOfView;
    /// Time the shutter is open; absent: taken as short against a turn.
    std::optional<Seconds> exposure;
    /// Time in which a rolling shutter reads all rows; zero for a global shutter.
    Seconds readout;
    /// Share of all rows that is read from a pixel to the one at its right, and to the one below.
    PicturePoint rowsPerPx;
};

/// What a person says of the sense of a spin.
struct StatedSense {
    Vector3 along;     ///< the spin's part along this direction is positive
    std::string word;  ///< "topspin", as it is kept
};

struct FitOptions {
    /// Rates outside are not looked for. The upper end is lowered to half a turn a frame where
    /// evenly spaced frames cannot tell more.
    Interval<Rpm> searchRange{{60.0}, {9000.0}};
    /// Symmetry of the marking: it looks the same after 1/markingSymmetry of a turn (1: unique).
    int markingSymmetry{1};
    /// Decides where the pictures leave two senses of turning, be it as two minima or as the alias
    /// of too few frames a turn. Where they do not, it decides nothing. Absent: nobody says.
    std::optional<StatedSense> sense;
};

/// Everything about one shot that the fit uses.
struct FitInput {
    std::vector<BallFrame> frames;
    FitCamera camera;
    FitOptions options;
};

/// Why a rate stands in the list of candidates.
enum class CandidateKind {
    Best,     ///< the reading
    Minimum,  ///< another distinct minimum of the residual
    Alias,    ///< differs by whole turns between frames: the frames alone look the same
    Twin,     ///< differs by the symmetry of the marking, told or seen, between frames
};

/// A rate that could explain the pictures.
struct Candidate {
    CandidateKind kind{CandidateKind::Minimum};
    Vector3 angularVelocity;  ///< rad/s
    Rpm rate;
    /// Error of predicting a frame from all others, relative to the best candidate's (1 = as good);
    /// absent for candidates that follow from arithmetic alone.
    std::optional<double> relativeError;
    /// How many standard errors (over frames) the best one predicts better.
    std::optional<double> deficit;
};

/// The ball's surface as the fit saw it: real orthonormal spherical harmonics in the ball's own
/// coordinates, which agree with camera coordinates at the reference time. Values are
/// display-encoded brightness 0 to 255 with shading removed.
struct SurfacePattern {
    int degree{};
    Seconds referenceTime;
    std::array<std::vector<double>, 3> redGreenBlue;
    /// Unrolled map around an axis: column = longitude 0 to 360 degrees about the axis
    /// (right-handed), row = latitude +90 to -90 degrees. Parts never seen are the smoothest
    /// continuation.
    [[nodiscard]] PixelBuffer unrolled(const Vector3& axis, int heightPx) const;
};

/// How a frame fits.
struct FrameResidual {
    double rms{};               ///< of the brightness, 0 to 255
    Radians attitudeDeviation;  ///< of the frame's own best attitude from the fitted rotation
    PicturePoint centreShift;   ///< correction of the ball's centre made by the fit
};

/// Where the residual puts the camera's field of view: one value with its uncertainty, before any
/// prior.
struct FieldOfViewEstimate {
    Measured<Radians> value;  ///< used in the fit, prior included
    double logFocal{};        ///< ln(focal length in pixels) favoured by this shot alone
    std::optional<double> logFocalSigma;  ///< absent when the shot cannot tell
};

enum class FitStatus { Reading, NoReading };

/// The result of a fit. "No reading" is a value, not an error: numbers are present where they
/// could be computed and must not be shown as a reading.
struct FitOutcome {
    FitStatus status{FitStatus::NoReading};
    std::string reason;  ///< why there is no reading, in kept words; empty for a reading
    std::vector<std::string> warnings;  ///< kept words (base/kept_words.h)

    Vector3 angularVelocity;  ///< rad/s
    Matrix3 covariance{};     ///< of angularVelocity, (rad/s)^2
    Measured<Rpm> rate;
    Interval<Rpm> interval95;
    Radians axisSigma;  ///< standard uncertainty of the axis direction (one component)

    SurfacePattern pattern;
    std::vector<FrameResidual> frames;
    double explainedShare{};  ///< of what a plain ball that mirrors as much leaves, predicted
    double residualRms{};     ///< brightness, 0 to 255
    /// Deficit of the strongest minimum with another rate, standard errors; absent: there is none.
    std::optional<double> uniqueness;
    bool restsOnSense{};     ///< the pictures left two, and the stated sense decided
    double turnsPerFrame{};  ///< median
    double smearDegrees{};   ///< turn during the exposure
    FieldOfViewEstimate fieldOfView;
    std::vector<Candidate> candidates;  ///< best first
};

/// Share done, 0 to 1.
using FitProgress = std::function<void(double)>;

/// Fits one shot. Thread: any; no state is shared between calls. Cost: 0.6 to 1.6 s of processor
/// time for 20 frames, measured on a busy machine.
///
/// Errors: Cancelled; InvalidInput for pictures that are not Rgb8, times that do not increase, a
/// camera without size; OutOfRange or NotFinite for a radius, sigma or field of view that cannot
/// be. Too few frames, a ball too small or a marking that does not tell are outcomes.
Result<FitOutcome> fitRotation(const FitInput& input, std::stop_token stop = {},
                               const FitProgress& progress = {});

}  // namespace core::spin::fit
