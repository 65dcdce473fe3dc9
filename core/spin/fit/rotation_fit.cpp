#include "core/spin/fit/rotation_fit.h"

#include <algorithm>
#include <cmath>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/spin/fit/shot_analysis.h"
#include "core/spin/fit/verdict.h"

namespace core::spin::fit {

namespace {

constexpr double kLeastRadiusPx = 7.0;  // half a radian a block: nothing is resolved below

Result<void> checkFrame(const BallFrame& frame, std::size_t i) {
    if (frame.picture.isEmpty() || frame.picture.format != PixelFormat::Rgb8) {
        return fail(ErrorCode::InvalidInput,
                    said("Frame {} of the shot has no colour picture.", i));
    }
    const double sum = frame.captureTime.seconds + frame.centre.xPx + frame.centre.yPx +
                       frame.radiusPx + frame.radiusSigmaPx + frame.centreSigmaPx +
                       frame.smear.xPx + frame.smear.yPx;
    if (!std::isfinite(sum)) {
        return fail(ErrorCode::NotFinite,
                    said("Frame {} of the shot has a time or ball that is not a number.", i));
    }
    if (frame.radiusPx <= 0.0 || frame.centreSigmaPx < 0.0 || frame.radiusSigmaPx < 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("Frame {} of the shot has a ball radius of {} px; it must be "
                         "positive and its uncertainties not negative.",
                         i, frame.radiusPx));
    }
    return ok();
}

Result<void> checkInput(const FitInput& input) {
    if (input.camera.widthPx <= 0 || input.camera.heightPx <= 0) {
        return fail(ErrorCode::InvalidInput, said("The picture size of the camera is not given."));
    }
    if (input.camera.fieldOfView) {
        const double angle = input.camera.fieldOfView->value.radians;
        const double sigma = input.camera.fieldOfView->sigma.radians;
        if (!(angle > 0.0 && angle < kPi && sigma >= 0.0 && std::isfinite(sigma))) {
            return fail(ErrorCode::OutOfRange,
                        said("The field of view must be between 0 and 180 degrees, its uncertainty "
                             "must not be negative."));
        }
    }
    const Interval<Rpm>& range = input.options.searchRange;
    if (!(range.low.rpm > 0.0 && range.high.rpm > range.low.rpm && range.high.rpm < 1e6)) {
        return fail(ErrorCode::OutOfRange, said("The range of rates to search is empty."));
    }
    if (input.options.markingSymmetry < 1) {
        return fail(ErrorCode::OutOfRange, said("The symmetry of the marking must be 1 or more."));
    }
    for (std::size_t i = 0; i < input.frames.size(); ++i) {
        BOOST_OUTCOME_TRY(checkFrame(input.frames[i], i));
        if (i > 0 && !(input.frames[i].captureTime > input.frames[i - 1].captureTime)) {
            return fail(ErrorCode::InvalidInput,
                        said("The capture time of frame {} of the shot is not after the "
                             "one before it.",
                             i));
        }
    }
    return ok();
}

}  // namespace

Result<FitOutcome> fitRotation(const FitInput& input, std::stop_token stop,
                               const FitProgress& progress) {
    BOOST_OUTCOME_TRY(checkInput(input));
    const FocalPrior prior = focalPriorOf(input.camera);
    if (input.frames.size() < kLeastFrames) {
        return refusal(toKeep("The ball shows in {} only; a reading needs {}.",
                              countToKeep(input.frames.size(), "frame", "frames"), kLeastFrames));
    }
    const auto smallest = std::min_element(
        input.frames.begin(), input.frames.end(),
        [](const BallFrame& a, const BallFrame& b) { return a.radiusPx < b.radiusPx; });
    if (smallest->radiusPx < kLeastRadiusPx) {
        return refusal(toKeep("The ball is only {:.0f} px wide; a reading needs {:.0f} px.",
                              2.0 * smallest->radiusPx, 2.0 * kLeastRadiusPx));
    }
    ShotAnalysis analysis;
    analysis.samples = collectSamples(input, std::exp(prior.logFocal), kFineBlocks);
    const std::size_t seen =
        std::min(analysis.samples.frames.size(),
                 collectSamples(input, std::exp(prior.logFocal), kCoarseBlocks).frames.size());
    if (seen < kLeastFrames) {
        return refusal(toKeep(
            "The ball shows well enough in {} of {} frames only; a reading needs {}. It is cut "
            "off, or "
            "moves by more than 0.7 of its width while the shutter is open before a background "
            "that is never seen without it.",
            seen, input.frames.size(), kLeastFrames));
    }
    analyseShot(input, prior, stop, progress, analysis);
    if (stop.stop_requested() || analysis.ranked.empty()) {
        return fail(ErrorCode::Cancelled, said("Reading from the pictures was stopped."));
    }
    FitOutcome outcome = judge(input, prior, analysis);
    if (progress) {
        progress(1.0);
    }
    return outcome;
}

}  // namespace core::spin::fit
