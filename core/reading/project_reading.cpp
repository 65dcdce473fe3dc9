#include "core/reading/project_reading.h"

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/project/clip_clock.h"

namespace core::reading {
namespace {

/// Absent where the line of sight was not assessed.
std::optional<double> viewPartOf(const spin::MarksReading& read) {
    for (const spin::BudgetRow& row : read.budget.rows) {
        if (row.name == spin::kLineOfSightRow &&
            row.distribution != spin::Distribution::NotAssessed && read.estimate.rpm > 0.0) {
            return row.contribution / read.estimate.rpm;
        }
    }
    return std::nullopt;
}

}  // namespace

Result<spin::MarksReading> readMarks(const MarksInputs& inputs, const project::ClipFrames& frames) {
    BOOST_OUTCOME_TRY(clock, project::clipClock(inputs.clock, frames));
    return spin::readMarks(inputs.marks, clock, inputs.context);
}

Result<spin::MarksReading> readMarks(const project::Snapshot& snapshot, const project::Shot& shot,
                                     const project::ClipFrames& frames) {
    BOOST_OUTCOME_TRY(inputs, marksInputsOf(snapshot, shot, frames));
    return readMarks(inputs, frames);
}

project::Reading makeMarksReading(const project::Snapshot& snapshot, const project::Shot& shot,
                                  const project::ClipFrames& frames,
                                  const spin::MarksReading& read) {
    const auto inputs = marksInputsOf(snapshot, shot, frames);
    CORE_EXPECTS(inputs.has_value());
    project::Reading reading;
    reading.shot = shot.id;
    reading.method = project::ReadingMethod::Marks;
    reading.methodVersion = kMarksMethodVersion;
    reading.reader = snapshot.reader;
    reading.rate = {read.estimate, read.standardUncertainty};
    reading.interval95 = read.interval95;
    reading.bounds = read.bounds;
    reading.viewRelativeSigma = viewPartOf(read);
    reading.clockRelativeSigma = inputs.value().clock.relativeSigma;
    reading.inputsJson = toJson(inputs.value());
    return reading;
}

Result<spin::MarksReading> readAgain(const project::Reading& reading,
                                     const project::ClipFrames& frames) {
    if (reading.method != project::ReadingMethod::Marks) {
        return fail(ErrorCode::Unsupported,
                    said("Only readings by marks can be computed from marks."));
    }
    BOOST_OUTCOME_TRY(inputs, marksInputsFromJson(reading.inputsJson));
    return readMarks(inputs, frames);
}

project::Reading makeFitReading(const project::Snapshot& snapshot, const project::Shot& shot,
                                const ShotRequest& request, const PictureReading& read) {
    const auto* clip = snapshot.clips.find(shot.clip);
    CORE_EXPECTS(clip != nullptr && read.rate && read.interval95);
    project::Reading reading;
    reading.shot = shot.id;
    reading.method = project::ReadingMethod::RotationFit;
    reading.methodVersion = kFitMethodVersion;
    reading.reader = snapshot.reader;
    reading.rate = *read.rate;
    reading.interval95 = *read.interval95;
    reading.clockRelativeSigma = read.clockRelativeSigma;
    std::optional<KeptReadout> readout;
    if (read.readout.source != ReadoutSource::Stated) {
        readout = KeptReadout{{read.readout.readout.mean, read.readout.readout.sigma},
                              read.readout.relativePerSecond};
    }
    const auto& diameter = request.facts.ballDiameter;
    const auto flight = diameter ? shotFlightOf(read, *diameter) : std::nullopt;
    reading.inputsJson =
        toJson(KeptFit{clip->fingerprint, request, read.track.frames, read.fit.angularVelocity,
                       read.fit.covariance, read.fit.explainedShare,
                       read.fit.fieldOfView.value.value, read.fit.uniqueness, read.fit.restsOnSense,
                       readout, read.track.readoutSeen, read.track.kink, flight});
    return reading;
}

}  // namespace core::reading
