#include "core/stats/comparison/deleted_residuals.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "core/base/words.h"

namespace core::stats {
namespace {

constexpr double kNoLeverageLeft = 1e-9;  // 1 - leverage of a cell that the others do not predict

Result<void> checkCells(std::span<const CrossedMean> cells) {
    std::set<std::pair<std::size_t, std::size_t>> seen;
    for (const CrossedMean& cell : cells) {
        const auto& mean = cell.mean;
        if (!std::isfinite(mean.mean) || !std::isfinite(mean.variance) ||
            std::isnan(mean.dof.value)) {
            return fail(ErrorCode::NotFinite, said("A cell's mean or its variance is no number."));
        }
        if (mean.variance <= 0.0 || mean.dof.value <= 0.0) {
            return fail(ErrorCode::OutOfRange,
                        said("A cell's variance and its degrees of freedom must be above zero."));
        }
        if (!seen.emplace(cell.row, cell.column).second) {
            return fail(ErrorCode::InvalidInput, said("A cell comes twice in one table."));
        }
    }
    return ok();
}

/// The model with the rows eliminated: within a row each cell's indicator of its column and its
/// mean, less their weighted average over the row.
class WithinRows {
public:
    explicit WithinRows(std::span<const CrossedMean> cells) : m_cells{cells} {
        Eigen::Index rows = 0;
        Eigen::Index columns = 0;
        for (const CrossedMean& cell : cells) {
            rows = std::max(rows, static_cast<Eigen::Index>(cell.row) + 1);
            columns = std::max(columns, static_cast<Eigen::Index>(cell.column) + 1);
        }
        m_rowWeights = Eigen::VectorXd::Zero(rows);
        Eigen::MatrixXd averages = Eigen::MatrixXd::Zero(rows, columns);
        Eigen::VectorXd rowMeans = Eigen::VectorXd::Zero(rows);
        for (const CrossedMean& cell : cells) {
            const auto row = static_cast<Eigen::Index>(cell.row);
            const double weight = weightOf(cell);
            m_rowWeights(row) += weight;
            averages(row, static_cast<Eigen::Index>(cell.column)) += weight;
            rowMeans(row) += weight * cell.mean.mean;
        }
        const auto count = static_cast<Eigen::Index>(cells.size());
        m_indicators = Eigen::MatrixXd::Zero(count, columns);
        m_centred = Eigen::VectorXd::Zero(count);
        Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(columns, columns);
        Eigen::VectorXd right = Eigen::VectorXd::Zero(columns);
        for (Eigen::Index i = 0; i < count; ++i) {
            const CrossedMean& cell = cells[static_cast<std::size_t>(i)];
            const auto row = static_cast<Eigen::Index>(cell.row);
            m_indicators.row(i) = -averages.row(row) / m_rowWeights(row);
            m_indicators(i, static_cast<Eigen::Index>(cell.column)) += 1.0;
            m_centred(i) = cell.mean.mean - rowMeans(row) / m_rowWeights(row);
            normal += weightOf(cell) * m_indicators.row(i).transpose() * m_indicators.row(i);
            right += weightOf(cell) * m_centred(i) * m_indicators.row(i).transpose();
        }
        // One column is set by the others: of the least squares solutions the shortest.
        m_inverse = normal.completeOrthogonalDecomposition().pseudoInverse();
        m_effects = m_inverse * right;
    }

    [[nodiscard]] std::optional<DeletedResidual> residualOf(Eigen::Index i) const {
        const double left = 1.0 - influence(i, i);
        if (left < kNoLeverageLeft) {
            return std::nullopt;
        }
        double squares = 0.0;
        for (Eigen::Index j = 0; j < m_centred.size(); ++j) {
            const auto& mean = m_cells[static_cast<std::size_t>(j)].mean;
            const double share = ((i == j ? 1.0 : 0.0) - influence(i, j)) / left;
            squares += std::pow(share * share * mean.variance, 2.0) / mean.dof.value;
        }
        const double variance = m_cells[static_cast<std::size_t>(i)].mean.variance / left;
        const double residual = m_centred(i) - m_indicators.row(i).dot(m_effects);
        return DeletedResidual{
            residual / left, std::sqrt(variance), {variance * variance / squares}};
    }

private:
    static double weightOf(const CrossedMean& cell) { return 1.0 / cell.mean.variance; }

    /// Of the mean of cell j on the fitted value of cell i.
    [[nodiscard]] double influence(Eigen::Index i, Eigen::Index j) const {
        const CrossedMean& from = m_cells[static_cast<std::size_t>(j)];
        const std::size_t row = m_cells[static_cast<std::size_t>(i)].row;
        const double sameRow =
            row == from.row ? 1.0 / m_rowWeights(static_cast<Eigen::Index>(row)) : 0.0;
        return weightOf(from) *
               (sameRow + m_indicators.row(i) * m_inverse * m_indicators.row(j).transpose());
    }

    std::span<const CrossedMean> m_cells;
    Eigen::VectorXd m_rowWeights;
    Eigen::MatrixXd m_indicators;  // cells by columns
    Eigen::VectorXd m_centred;
    Eigen::MatrixXd m_inverse;
    Eigen::VectorXd m_effects;  // of the columns
};

}  // namespace

double DeletedResidual::drop() const noexcept {
    return (value / standardError) * (value / standardError);
}

double DeletedResidual::pValue() const {
    return StudentT{dof}.twoSided(value / standardError);
}

Result<std::vector<std::optional<DeletedResidual>>> deletedResiduals(
    std::span<const CrossedMean> cells) {
    BOOST_OUTCOME_TRYV(checkCells(cells));
    std::vector<std::optional<DeletedResidual>> residuals;
    if (cells.empty()) {
        return residuals;
    }
    const WithinRows model{cells};
    for (std::size_t i = 0; i < cells.size(); ++i) {
        residuals.push_back(model.residualOf(static_cast<Eigen::Index>(i)));
    }
    return residuals;
}

}  // namespace core::stats
