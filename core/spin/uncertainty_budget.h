#pragma once

#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/base/result.h"

namespace core::spin {

/// Shape of the probability density that describes a contribution.
enum class Distribution {
    Normal,
    Rectangular,
    Triangular,
    Trapezoidal,
    PiecewiseLinear,  ///< concave, from several bounded instants (timebase::SlopeDensity)
    Arcsine,
    StudentT,
    NotAssessed,  ///< named so that it is not forgotten; contributes nothing
};

/// Stable name for storage and JSON, for example "rectangular", "not_assessed"; for people by
/// saidText().
[[nodiscard]] std::string_view distributionName(Distribution distribution) noexcept;

/// One line of an uncertainty budget (JCGM 100:2008, clause 8 and table H.1). Plain data.
struct BudgetRow {
    std::string name;
    double value{};    ///< estimate of the input, in unit
    std::string unit;  ///< of the input
    Distribution distribution{Distribution::Normal};
    std::optional<double> halfWidth{};  ///< in unit, for bounded distributions
    double sigma{};                     ///< standard uncertainty of the input, in unit
    double sensitivity{};               ///< output units per input unit, with its sign
    double contribution{};              ///< standard uncertainty of the output from this input
    double share{};                     ///< of the combined variance, 0 … 1
    double degreesOfFreedom{std::numeric_limits<double>::infinity()};
    bool operator==(const BudgetRow&) const = default;
};

/// All contributions to the uncertainty of one number, independent of each other.
struct UncertaintyBudget {
    std::vector<BudgetRow> rows;
    std::string unit;   ///< of the output
    double combined{};  ///< u_c = sqrt(sum of contribution²), JCGM 100:2008, eq. (10)
    double effectiveDegreesOfFreedom{std::numeric_limits<double>::infinity()};
    bool operator==(const UncertaintyBudget&) const = default;
};

/// Completes a budget: a contribution left at zero becomes |sensitivity|·sigma; then combined
/// uncertainty, shares, and effective degrees of freedom by Welch and Satterthwaite, JCGM 100:2008,
/// G.4.1, eq. (G.2b): nu_eff = u_c⁴ / sum(contribution⁴ / nu).
/// A row whose contribution is not |sensitivity|·sigma (a strongly curved model) keeps its own.
/// Errors: NotFinite, OutOfRange for negative uncertainty or degrees of freedom that are not
/// positive; names the row.
Result<UncertaintyBudget> completeBudget(std::vector<BudgetRow> rows, std::string unit);

/// Standard uncertainty of a quantity known to lie within ± halfWidth (JCGM 100:2008, 4.3.7 to
/// 4.3.9): rectangular a/√3, triangular a/√6, trapezoidal a·√((1+β²)/6) with β = top ÷ base,
/// arcsine a/√2. Other distributions are a bug of the caller.
[[nodiscard]] double sigmaFromHalfWidth(Distribution distribution, double halfWidth,
                                        double trapezoidTop = 1.0);

}  // namespace core::spin
