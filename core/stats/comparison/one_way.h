#pragma once

#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/comparison/pairwise.h"
#include "core/stats/model/distributions.h"
#include "core/stats/sample/moments.h"

namespace core::stats {

/// A ratio of mean squares with its degrees of freedom and P(F >= f) if nothing differs.
struct VarianceRatioTest {
    double f{};
    RatioDof dof{};
    double pValue{};
};

/// Classic one-way analysis of variance: one error variance for all groups.
struct OneWayAnova {
    VarianceRatioTest test{};
    double sumSquaresBetween{};
    double sumSquaresWithin{};
    double meanSquareBetween{};
    double meanSquareWithin{};  ///< pooled variance
    double rSquared{};          ///< share of the scatter between groups (eta squared)
};

/// Moments of each group, in order. Groups must not be empty.
std::vector<Moments> momentsOfGroups(std::span<const std::vector<double>> groups);

/// Fisher's analysis of variance; assumes equal variances. Sums in extended precision (NIST StRD).
/// Errors: InvalidInput for fewer than two groups, an empty group or no group of two; Untrustworthy
/// when no group has any scatter.
Result<OneWayAnova> oneWayAnova(std::span<const Moments> groups);

/// Welch's analysis of variance of means with a variance each: Welch 1951, Biometrika 38:330-336.
/// Errors: InvalidInput for fewer than two means; Untrustworthy for a mean whose variance is not
/// above zero, named by its position.
Result<VarianceRatioTest> welchAnova(std::span<const IndependentMean> means);

/// Where the deviations of Levene's test start from.
enum class DeviationCentre {
    Median,  ///< Brown and Forsythe 1974, J. Am. Stat. Assoc. 69:364-367
    Mean,    ///< Levene 1960
};

/// Test of equal variances: analysis of variance of the absolute deviations from the group centre.
/// Errors: as oneWayAnova(); NotFinite.
Result<VarianceRatioTest> leveneTest(std::span<const std::vector<double>> groups,
                                     DeviationCentre centre);

}  // namespace core::stats
