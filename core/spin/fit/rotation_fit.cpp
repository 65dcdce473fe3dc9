#include "core/spin/fit/rotation_fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/spin/fit/shot_analysis.h"
#include "core/spin/fit/verdict.h"

namespace core::spin::fit {

namespace {

constexpr double kLeastRadiusPx = 7.0;    // half a radian a block: nothing is resolved below
constexpr double kWellKnownFocal = 0.05;  // the shots together say no more than this

Result<void> checkFrame(const BallFrame& frame, std::size_t i) {
    if (frame.picture.isEmpty() || frame.picture.format != PixelFormat::Rgb8) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("Frame {} of the shot has no colour picture.", i));
    }
    const double sum = frame.captureTime.seconds + frame.centre.xPx + frame.centre.yPx +
                       frame.radiusPx + frame.radiusSigmaPx + frame.centreSigmaPx +
                       frame.smear.xPx + frame.smear.yPx;
    if (!std::isfinite(sum)) {
        return fail(
            ErrorCode::NotFinite,
            fmt::format("Frame {} of the shot has a time or ball that is not a number.", i));
    }
    if (frame.radiusPx <= 0.0 || frame.centreSigmaPx < 0.0 || frame.radiusSigmaPx < 0.0) {
        return fail(ErrorCode::OutOfRange,
                    fmt::format("Frame {} of the shot has a ball radius of {} px; it must be "
                                "positive and its uncertainties not negative.",
                                i, frame.radiusPx));
    }
    return ok();
}

Result<void> checkInput(const FitInput& input) {
    if (input.camera.widthPx <= 0 || input.camera.heightPx <= 0) {
        return fail(ErrorCode::InvalidInput, "The picture size of the camera is not given.");
    }
    if (input.camera.fieldOfView) {
        const double angle = input.camera.fieldOfView->value.radians;
        const double sigma = input.camera.fieldOfView->sigma.radians;
        if (!(angle > 0.0 && angle < kPi && sigma >= 0.0 && std::isfinite(sigma))) {
            return fail(ErrorCode::OutOfRange,
                        "The field of view must lie between 0 and 180 degrees, its uncertainty "
                        "must not be negative.");
        }
    }
    const Interval<Rpm>& range = input.options.searchRange;
    if (!(range.low.rpm > 0.0 && range.high.rpm > range.low.rpm && range.high.rpm < 1e6)) {
        return fail(ErrorCode::OutOfRange, "The range of rates to search is empty.");
    }
    if (input.options.markingSymmetry < 1) {
        return fail(ErrorCode::OutOfRange, "The symmetry of the marking must be 1 or more.");
    }
    for (std::size_t i = 0; i < input.frames.size(); ++i) {
        BOOST_OUTCOME_TRY(checkFrame(input.frames[i], i));
        if (i > 0 && !(input.frames[i].captureTime > input.frames[i - 1].captureTime)) {
            return fail(ErrorCode::InvalidInput,
                        fmt::format("The capture time of frame {} of the shot is not after the "
                                    "one before it.",
                                    i));
        }
    }
    return ok();
}

Eigen::Vector3d fromVector(const Vector3& v) {
    return {v.x, v.y, v.z};
}

Result<FitOutcome> fitWith(const FitInput& input, const FocalPrior& prior,
                           const std::vector<Eigen::Vector3d>& starts, std::stop_token stop,
                           const FitProgress& progress) {
    if (input.frames.size() < kLeastFrames) {
        return refusal(fmt::format("Only {} frames show the ball; a fit needs {}.",
                                   input.frames.size(), kLeastFrames));
    }
    const auto smallest = std::min_element(
        input.frames.begin(), input.frames.end(),
        [](const BallFrame& a, const BallFrame& b) { return a.radiusPx < b.radiusPx; });
    if (smallest->radiusPx < kLeastRadiusPx) {
        return refusal(fmt::format("The ball is only {:.0f} px across; a fit needs {:.0f} px.",
                                   2.0 * smallest->radiusPx, 2.0 * kLeastRadiusPx));
    }
    ShotAnalysis analysis;
    analysis.samples = collectSamples(input, std::exp(prior.logFocal), kFineBlocks);
    const std::size_t seen =
        std::min(analysis.samples.frames.size(),
                 collectSamples(input, std::exp(prior.logFocal), kCoarseBlocks).frames.size());
    if (seen < kLeastFrames) {
        return refusal(fmt::format(
            "The ball shows well enough in {} of {} frames only; a fit needs {}. It is "
            "cut off, or moves by more than 0.7 of its width while the shutter is open.",
            seen, input.frames.size(), kLeastFrames));
    }
    analyseShot(input, prior, starts, stop, progress, analysis);
    if (stop.stop_requested() || analysis.ranked.empty()) {
        return fail(ErrorCode::Cancelled, "The rotation fit was stopped.");
    }
    FitOutcome outcome = judge(input, prior, analysis);
    if (progress) {
        progress(1.0);
    }
    return outcome;
}

/// Weighted mean of what the shots and the prior say, spread widened when the shots disagree.
FocalPrior combinedFocal(const std::vector<FitOutcome>& outcomes, const FocalPrior& prior) {
    double weight = std::pow(prior.sigma, -2);
    double sum = weight * prior.logFocal;
    int count = 0;
    for (const FitOutcome& outcome : outcomes) {
        if (outcome.status == FitStatus::Reading && outcome.fieldOfView.logFocalSigma) {
            const double w = std::pow(*outcome.fieldOfView.logFocalSigma, -2);
            weight += w;
            sum += w * outcome.fieldOfView.logFocal;
            ++count;
        }
    }
    const double mean = sum / weight;
    double disagreement = 0.0;
    for (const FitOutcome& outcome : outcomes) {
        if (outcome.status == FitStatus::Reading && outcome.fieldOfView.logFocalSigma) {
            disagreement += std::pow(
                (outcome.fieldOfView.logFocal - mean) / *outcome.fieldOfView.logFocalSigma, 2);
        }
    }
    const double widening =
        count > 1 ? std::max(1.0, disagreement / (count - 1)) : 1.0;  // Birge ratio
    return {mean, std::sqrt(widening / weight)};
}

}  // namespace

Result<FitOutcome> fitRotation(const FitInput& input, std::stop_token stop,
                               const FitProgress& progress) {
    BOOST_OUTCOME_TRY(checkInput(input));
    return fitWith(input, focalPriorOf(input.camera), {}, stop, progress);
}

Result<std::vector<FitOutcome>> fitJointly(std::span<const FitInput> shots, std::stop_token stop,
                                           const FitProgress& progress) {
    std::vector<FitOutcome> outcomes;
    const auto numbered = [](std::size_t i, const Error& error) {
        return fail(error.code, fmt::format("Shot {}: {}", i + 1, error.message));
    };
    const auto count = static_cast<double>(shots.size());
    for (std::size_t i = 0; i < shots.size(); ++i) {
        auto outcome = fitRotation(shots[i], stop);
        if (!outcome) {
            return numbered(i, outcome.error());
        }
        outcomes.push_back(std::move(outcome.value()));
        if (progress) {
            progress(0.7 * static_cast<double>(i + 1) / count);
        }
    }
    if (shots.size() < 2) {
        return outcomes;
    }
    const FocalPrior prior = focalPriorOf(shots.front().camera);
    if (prior.sigma < kWellKnownFocal) {
        return outcomes;
    }
    const FocalPrior joint = combinedFocal(outcomes, prior);
    for (std::size_t i = 0; i < shots.size(); ++i) {
        std::vector<Eigen::Vector3d> starts;
        for (const Candidate& candidate : outcomes[i].candidates) {
            if (candidate.relativeError) {
                starts.push_back(fromVector(candidate.angularVelocity));
            }
        }
        if (starts.empty()) {
            continue;
        }
        auto outcome = fitWith(shots[i], joint, starts, stop, {});
        if (!outcome) {
            return numbered(i, outcome.error());
        }
        outcomes[i] = std::move(outcome.value());
        if (progress) {
            progress(0.7 + 0.3 * static_cast<double>(i + 1) / count);
        }
    }
    return outcomes;
}

}  // namespace core::spin::fit
