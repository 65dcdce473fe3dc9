#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/comparison/one_way.h"
#include "core/stats/model/distributions.h"

namespace core::stats {

/// Design of a linear model, one row for each value and one column for each coefficient. Extended
/// precision, so that powers and products of columns are not rounded before the fit.
class DesignMatrix {
public:
    DesignMatrix(std::size_t rows, std::size_t columns)
        : m_columns{columns}, m_entries(rows * columns), m_rows{rows} {}

    /// 1, x, x^2 … up to the degree, or without the leading 1.
    static DesignMatrix polynomial(std::span<const double> x, int degree, bool hasIntercept = true);

    [[nodiscard]] std::size_t rows() const noexcept { return m_rows; }
    [[nodiscard]] std::size_t columns() const noexcept { return m_columns; }
    [[nodiscard]] long double& at(std::size_t row, std::size_t column) noexcept {
        return m_entries[row * m_columns + column];
    }
    [[nodiscard]] long double at(std::size_t row, std::size_t column) const noexcept {
        return m_entries[row * m_columns + column];
    }

private:
    std::size_t m_columns;
    std::vector<long double> m_entries;  // row-major
    std::size_t m_rows;
};

/// What the regression sum of squares is measured from.
enum class FitBaseline {
    Mean,  ///< the model holds a constant
    Zero,  ///< it does not: a line through the origin
};

/// Ordinary least squares.
struct LinearFit {
    std::vector<double> coefficients{};
    std::vector<double> covariance{};  ///< of the coefficients, row-major
    double residualSumSquares{};
    double residualDeviation{};  ///< s, with the denominator of regression.dof
    double rSquared{};           ///< share of the sum of squares about the baseline
    VarianceRatioTest regression{};

    [[nodiscard]] double standardError(std::size_t coefficient) const;
};

/// Least squares by Householder QR with column pivoting on columns scaled to length one, in
/// extended precision. Assumes independent errors of equal variance. O(rows * columns^2).
/// Errors: InvalidInput for a response of another length, not more rows than columns, or columns
/// that depend on each other; NotFinite.
Result<LinearFit> fitLeastSquares(const DesignMatrix& design, std::span<const double> response,
                                  FitBaseline baseline = FitBaseline::Mean);

}  // namespace core::stats
