#include "core/stats/model/least_squares.h"

#include <Eigen/QR>

#include "core/base/expects.h"
#include "core/base/words.h"

namespace core::stats {
namespace {

using Matrix = Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<long double, Eigen::Dynamic, 1>;
using RowMajor = Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

// A pivot this small beside the largest, of columns of length one, comes from rounding in data that
// were doubles. All NIST sets, Filip among them, stay above it.
constexpr long double kRankThreshold = 1e-14L;

Matrix toEigen(const DesignMatrix& design) {
    Matrix matrix(static_cast<Eigen::Index>(design.rows()),
                  static_cast<Eigen::Index>(design.columns()));
    for (std::size_t row = 0; row < design.rows(); ++row) {
        for (std::size_t column = 0; column < design.columns(); ++column) {
            matrix(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(column)) =
                design.at(row, column);
        }
    }
    return matrix;
}

}  // namespace

Result<LeastSquaresSolution> solveLeastSquares(const DesignMatrix& design,
                                               std::span<const long double> response) {
    CORE_EXPECTS(response.size() == design.rows());
    if (design.rows() < design.columns()) {
        return fail(ErrorCode::InvalidInput, said("Linear model: fewer values than coefficients. "
                                                  "Add values or use a simpler model."));
    }
    const Matrix x = toEigen(design);
    const Vector lengths = x.colwise().norm();
    if (!(lengths.minCoeff() > 0.0L)) {
        return fail(ErrorCode::InvalidInput,
                    said("Linear model: a term of the model is zero throughout. Leave it out."));
    }
    const Matrix scaled = x * lengths.cwiseInverse().asDiagonal();
    Eigen::ColPivHouseholderQR<Matrix> qr(scaled);
    qr.setThreshold(kRankThreshold);
    if (qr.rank() < scaled.cols()) {
        return fail(
            ErrorCode::InvalidInput,
            said("Linear model: the terms of the model depend on each other, so they cannot be "
                 "told apart by these data. Leave a term out or film the missing combinations."));
    }
    const Eigen::Map<const Vector> y(response.data(), static_cast<Eigen::Index>(response.size()));
    const Vector solution = qr.solve(y);
    const Vector residuals = y - scaled * solution;
    const Matrix r = qr.matrixQR().topRows(scaled.cols()).triangularView<Eigen::Upper>();
    Matrix inverseR =
        r.triangularView<Eigen::Upper>().solve(Matrix::Identity(scaled.cols(), scaled.cols()));
    inverseR = qr.colsPermutation() * inverseR;
    inverseR = lengths.cwiseInverse().asDiagonal() * inverseR;
    const RowMajor inverse = inverseR * inverseR.transpose();
    const Vector coefficients = solution.cwiseQuotient(lengths);
    return LeastSquaresSolution{
        .coefficients = {coefficients.data(), coefficients.data() + coefficients.size()},
        .inverse = {inverse.data(), inverse.data() + inverse.size()},
        .residualSumSquares = residuals.squaredNorm()};
}

}  // namespace core::stats
