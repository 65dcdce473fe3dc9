#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/image/frame_source.h"
#include "core/project/snapshot.h"
#include "core/reading/filming_facts.h"
#include "core/reading/shot_flight.h"
#include "core/spin/fit/rotation_fit.h"
#include "core/spin/reading_by_marks.h"

/// From the facts of a clip and its session to the inputs of a reading. Two equal inputs give the
/// same reading.
namespace core::reading {

/// Everything a reading by marks is computed from, except the time stamps, which the project keeps
/// with the clip.
struct MarksInputs {
    std::string clipFingerprint;  ///< of the clip that was read
    spin::MarkSet marks;
    project::ClockSetting clock;
    spin::ReadingContext context;
    bool operator==(const MarksInputs&) const = default;
};

/// The inputs of a reading of the shot's marks as they stand now.
///
/// Symmetry, exposure, readout and field of view are those of factsOf(). The ball is where a person
/// pointed at it (ball_places.h); it needs two clicks. Then
///   rolling shutter: readout 0 is Absent, a stated readout is Known; one that nobody stated is
///     Estimated where kept readings from the pictures tell it (session_readout.h), else Unknown
///     up to the frame interval, at most 12 ms; with
///     the rows counted on the sensor (before the turn applied for showing);
///   line of sight: with a known field of view (pinhole camera) the angle between the directions to
///     the ball at the first and the last mark, as a Contribution, because the axis is not known.
/// Without two clicks both are NotAssessed, except a readout of 0.
/// Marks on both sides of a kink of the ball's path (image/kink.h) are refused, where a kept
/// reading from the pictures or six clicks tell it. Errors: NotFound when clip or session are gone;
/// for a clip whose clock is not settled the reason, as Contradiction (evidence conflicts) or
/// InvalidInput (nobody has settled it); InvalidInput for marks across a kink; those of
/// project::clipClock().
Result<MarksInputs> marksInputsOf(const project::Snapshot& snapshot, const project::Shot& shot,
                                  const project::ClipFrames& frames);

/// Everything a reading from the pictures is computed from, except the film.
struct ShotRequest {
    image::FrameRange range;  ///< the shot with frames about it for the background, where no other
                              ///< shot of the clip lies
    std::vector<image::BallHint> clicks;
    FilmingFacts facts;
    project::ClockSetting clock;
    /// The shot itself; absent in requests of older method versions.
    std::optional<image::FrameRange> shot;

    bool operator==(const ShotRequest& other) const;
};

/// The inputs of a reading of the shot's pictures. Errors: NotFound and those of an unsettled clock
/// as above.
Result<ShotRequest> requestOf(const project::Snapshot& snapshot, project::ShotId shot);

/// The readout's part of a kept reading, see ReadoutPart.
struct KeptReadout {
    Measured<Seconds> value;
    double relativePerSecond{};
};

/// What a kept reading by rotation fit was computed from, and what it found besides its number.
struct KeptFit {
    std::string clipFingerprint;
    ShotRequest request;
    /// As image::BallTrack::frames, without outlines.
    std::vector<image::BallInFrame> track;
    spin::fit::Vector3 angularVelocity;  ///< rad/s, camera coordinates
    spin::fit::Matrix3 covariance{};     ///< of angularVelocity, (rad/s)^2
    double explainedShare{};
    Radians fieldOfView;               ///< as used in the fit
    std::optional<double> uniqueness;  ///< see spin::fit::FitOutcome
    bool restsOnStroke{};              ///< see spin::fit::FitOutcome::restsOnSense
    /// Of a readout that nobody stated: what the rate rests on, and what this shot's own outlines
    /// say. Both absent where it was stated, and in readings of earlier versions.
    std::optional<KeptReadout> readout;
    std::optional<image::ReadoutEstimate> readoutSeen;
    std::optional<timebase::FrameIndex> kink;  ///< see image::BallTrack
    /// Where the ball's diameter was known; absent also in readings of earlier versions.
    std::optional<ShotFlight> flight;
};

}  // namespace core::reading
