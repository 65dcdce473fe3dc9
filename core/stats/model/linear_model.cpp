#include "core/stats/model/linear_model.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/stats/model/least_squares.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/moments.h"

namespace core::stats {
namespace {

Result<void> checkModel(const DesignMatrix& design, std::span<const double> response) {
    BOOST_OUTCOME_TRY(checkValues(response, toSay("Linear model"), 1));
    if (response.size() != design.rows() || design.rows() <= design.columns()) {
        return fail(ErrorCode::InvalidInput,
                    said("Linear model: {} values, {} rows and {} coefficients. There must be one "
                         "row for each value and more values than coefficients.",
                         response.size(), design.rows(), design.columns()));
    }
    for (std::size_t row = 0; row < design.rows(); ++row) {
        for (std::size_t column = 0; column < design.columns(); ++column) {
            if (!std::isfinite(design.at(row, column))) {
                return fail(ErrorCode::NotFinite,
                            said("Linear model: row {} of the design is not finite.", row + 1));
            }
        }
    }
    return ok();
}

}  // namespace

DesignMatrix DesignMatrix::polynomial(std::span<const double> x, int degree, bool hasIntercept) {
    CORE_EXPECTS(degree >= (hasIntercept ? 0 : 1));
    const std::size_t columns = static_cast<std::size_t>(degree) + (hasIntercept ? 1 : 0);
    DesignMatrix design(x.size(), columns);
    for (std::size_t row = 0; row < x.size(); ++row) {
        long double power = hasIntercept ? 1.0L : static_cast<long double>(x[row]);
        for (std::size_t column = 0; column < columns; ++column) {
            design.at(row, column) = power;
            power *= static_cast<long double>(x[row]);
        }
    }
    return design;
}

double LinearFit::standardError(std::size_t coefficient) const {
    CORE_EXPECTS(coefficient < coefficients.size());
    return std::sqrt(covariance[coefficient * coefficients.size() + coefficient]);
}

Result<LinearFit> fitLeastSquares(const DesignMatrix& design, std::span<const double> response,
                                  FitBaseline baseline) {
    BOOST_OUTCOME_TRY(checkModel(design, response));
    const std::vector<long double> y(response.begin(), response.end());
    BOOST_OUTCOME_TRY(solution, solveLeastSquares(design, y));
    const auto rows = static_cast<long double>(design.rows());
    const Moments moments = momentsOf(response);
    const bool isFromMean = baseline == FitBaseline::Mean;
    const long double total =
        moments.sumSquares + (isFromMean ? 0.0L : rows * moments.mean * moments.mean);
    const long double explained = total - solution.residualSumSquares;
    const long double residualDof = rows - static_cast<long double>(design.columns());
    const long double variance = solution.residualSumSquares / residualDof;
    const double terms = static_cast<double>(design.columns()) - (isFromMean ? 1.0 : 0.0);

    LinearFit fit{.residualSumSquares = static_cast<double>(solution.residualSumSquares),
                  .residualDeviation = static_cast<double>(std::sqrt(variance)),
                  .rSquared = static_cast<double>(explained / total)};
    fit.coefficients.assign(solution.coefficients.begin(), solution.coefficients.end());
    for (const long double entry : solution.inverse) {
        fit.covariance.push_back(static_cast<double>(entry * variance));
    }
    fit.regression.dof = {{terms}, {static_cast<double>(residualDof)}};
    if (terms > 0.0 && variance > 0.0L) {
        fit.regression.f =
            static_cast<double>(explained / static_cast<long double>(terms) / variance);
        fit.regression.pValue =
            FDistribution{fit.regression.dof}.upperTail(std::max(fit.regression.f, 0.0));
    }
    return fit;
}

}  // namespace core::stats
