#include "core/stats/sample/cell_summary.h"

#include <cmath>
#include <limits>
#include <string>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

Result<void> checkShared(double relativeUncertainty) {
    if (!std::isfinite(relativeUncertainty)) {
        return fail(ErrorCode::NotFinite,
                    said("Cell summary: the shared relative uncertainty is not a finite number."));
    }
    if (relativeUncertainty < 0.0) {
        return fail(
            ErrorCode::OutOfRange,
            said("Cell summary: the shared relative uncertainty is {}. It must be zero or more.",
                 relativeUncertainty));
    }
    return ok();
}

CellMean meanOf(const SampleSummary& sample, const SampleSpread& spread, double sharedRelative,
                Confidence confidence) {
    const double shared = std::abs(sample.mean) * sharedRelative;
    const double combined = std::hypot(spread.standardError, shared);
    // Welch-Satterthwaite with one finite term: u^4 / (se^4 / (n - 1)).
    const double ratio = combined / spread.standardError;
    const DegreesOfFreedom dof{spread.standardError > 0.0
                                   ? spread.dof.value * std::pow(ratio, 4.0)
                                   : std::numeric_limits<double>::infinity()};
    const double reach = StudentT{dof}.coverageFactor(confidence) * combined;
    return {.standardUncertainty = combined,
            .sharedUncertainty = shared,
            .dof = dof,
            .interval = {sample.mean - reach, sample.mean + reach}};
}

Result<ScatterSplit> splitOf(const CellReadings& readings, Confidence confidence) {
    const MeasuredValues data{readings.values, readings.readingUncertainties};
    BOOST_OUTCOME_TRY(reml, estimateRandomEffects(data, BetweenEstimator::Reml, confidence));
    BOOST_OUTCOME_TRY(moments,
                      estimateRandomEffects(data, BetweenEstimator::DerSimonianLaird, confidence));
    double squares = 0.0;
    for (const double uncertainty : readings.readingUncertainties) {
        squares += uncertainty * uncertainty;
    }
    return ScatterSplit{.readingDeviation = std::sqrt(
                            squares / static_cast<double>(readings.readingUncertainties.size())),
                        .reml = reml,
                        .moments = moments};
}

}  // namespace

Result<CellSummary> summariseCell(const CellReadings& readings, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkShared(readings.sharedRelativeUncertainty));
    BOOST_OUTCOME_TRY(sample, summarise(readings.values, confidence));
    CellSummary summary{.sample = sample};
    if (sample.spread) {
        summary.mean =
            meanOf(sample, *sample.spread, readings.sharedRelativeUncertainty, confidence);
        if (!readings.readingUncertainties.empty()) {
            BOOST_OUTCOME_TRY(split, splitOf(readings, confidence));
            summary.split = split;
        }
    }
    return summary;
}

}  // namespace core::stats
