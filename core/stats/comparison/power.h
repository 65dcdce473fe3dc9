#pragma once

#include "core/base/result.h"
#include "core/stats/model/distributions.h"

namespace core::stats {

/// What a comparison of two implements shall find.
struct StepDesign {
    double step{};               ///< true difference of the means, not zero
    double standardDeviation{};  ///< of single shots, the same for both
    double alpha{0.05};          ///< error probability of the test
    bool isOneSided{false};
};

/// Power of the two-sample t test with shotsPerCell values on each side, not necessarily whole.
/// Noncentral t, both rejection regions of a two-sided test counted ("strict").
/// Errors: NotFinite; OutOfRange for shots below 2, alpha outside (0, 1), a step or deviation of
/// zero or less; Untrustworthy when the noncentral distribution does not converge.
Result<double> powerForStep(const StepDesign& design, double shotsPerCell);

/// Shots per cell for a power, not rounded: the next whole number is what to film. At least 2.
/// Errors: as above; OutOfRange for a power outside (alpha, 1) or beyond ten million shots.
Result<double> shotsForStep(const StepDesign& design, Probability power);

/// The smallest true difference of the means that the test finds with a power, in the unit of the
/// standard deviation; design.step is not asked. What shotsForStep() is for shots, for the step.
/// Errors: as above, but for the step.
Result<double> smallestStep(StepDesign design, double shotsPerCell, Probability power);

/// Two cells as they stand.
struct PresentPair {
    double difference{};     ///< of the means, assumed to be the true one
    double firstVariance{};  ///< of single shots
    double secondVariance{};
    double firstCount{};
    double secondCount{};
};

/// How many more shots in each cell would let Welch's test tell the pair apart with a power, should
/// the present difference and scatter be the true ones; 0 when the present counts already have that
/// power. The difference is itself uncertain: an outlook, not a promise. For a family of pairs give
/// the alpha of a single pair (alpha over the number of pairs).
/// Errors: NotFinite; OutOfRange for a difference of zero, a count below 2, variances that are not
/// positive together, or more than 100,000 shots.
Result<int> extraShotsToSeparate(const PresentPair& pair, double alpha, Probability power);

}  // namespace core::stats
