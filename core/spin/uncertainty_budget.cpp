#include "core/spin/uncertainty_budget.h"

#include <array>
#include <cmath>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/stats/model/distributions.h"

namespace core::spin {
namespace {

Result<void> checkRow(const BudgetRow& row) {
    const std::string name = saidText(row.name);
    for (const double number : {row.value, row.sigma, row.sensitivity, row.contribution}) {
        if (!std::isfinite(number)) {
            return fail(ErrorCode::NotFinite,
                        said("The budget row \"{}\" holds a number that is not finite.", name));
        }
    }
    if (row.sigma < 0.0 || row.contribution < 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The budget row \"{}\" has a negative uncertainty.", name));
    }
    if (std::isnan(row.degreesOfFreedom) || row.degreesOfFreedom <= 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The budget row \"{}\" needs positive degrees of freedom.", name));
    }
    return ok();
}

}  // namespace

std::string_view distributionName(Distribution distribution) noexcept {
    constexpr std::array<std::string_view, 8> kNames{
        toSay("normal"),      toSay("rectangular"),      toSay("triangular"),
        toSay("trapezoidal"), toSay("piecewise_linear"), toSay("arcsine"),
        toSay("student_t"),   toSay("not_assessed")};
    return kNames.at(static_cast<std::size_t>(distribution));
}

Result<UncertaintyBudget> completeBudget(std::vector<BudgetRow> rows, std::string unit) {
    double variance = 0.0;
    double quartic = 0.0;
    for (auto& row : rows) {
        BOOST_OUTCOME_TRY(checkRow(row));
        if (row.contribution == 0.0) {
            row.contribution = std::abs(row.sensitivity) * row.sigma;
        }
        const double part = row.contribution * row.contribution;
        variance += part;
        quartic += part * part / row.degreesOfFreedom;
    }
    UncertaintyBudget budget;
    budget.unit = std::move(unit);
    budget.combined = std::sqrt(variance);
    if (quartic > 0.0) {
        budget.effectiveDegreesOfFreedom = variance * variance / quartic;
    }
    for (auto& row : rows) {
        row.share = variance > 0.0 ? row.contribution * row.contribution / variance : 0.0;
    }
    budget.rows = std::move(rows);
    return budget;
}

double sigmaFromHalfWidth(Distribution distribution, double halfWidth, double trapezoidTop) {
    CORE_EXPECTS(halfWidth >= 0.0 && trapezoidTop >= 0.0 && trapezoidTop <= 1.0);
    switch (distribution) {
        case Distribution::Rectangular:
            return halfWidth / std::sqrt(3.0);
        case Distribution::Triangular:
            return halfWidth / std::sqrt(6.0);
        case Distribution::Trapezoidal:
            return halfWidth * std::sqrt((1.0 + trapezoidTop * trapezoidTop) / 6.0);
        case Distribution::Arcsine:
            return halfWidth / std::sqrt(2.0);
        default:
            break;
    }
    CORE_EXPECTS(false && "a bounded distribution with a known divisor");
    return 0.0;
}

}  // namespace core::spin
