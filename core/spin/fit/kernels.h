#pragma once

#include <Eigen/Core>

/// Inner loops of the pattern fit, in single precision. Module-internal: uses Eigen types.
///
/// Each exists twice: for processors with AVX2 and FMA, which is found out when the program runs,
/// and for all. The two differ by rounding.
namespace core::spin::fit {

/// Matrices for these loops have their rows filled up with zeros to a multiple of this.
inline constexpr Eigen::Index kRowStep = 16;

[[nodiscard]] constexpr Eigen::Index filledUp(Eigen::Index rows) noexcept {
    return (rows + kRowStep - 1) / kRowStep * kRowStep;
}

/// a' b, columns of a x columns of b. a, b: of the same, filled-up number of rows.
[[nodiscard]] Eigen::MatrixXf productOf(const Eigen::MatrixXf& a, const Eigen::MatrixXf& b);
/// The lower triangle of a' a; what is above it is not set.
[[nodiscard]] Eigen::MatrixXf lowerGram(const Eigen::MatrixXf& a);

/// Recurrence factors of the harmonics to a degree, see HarmonicBasis.
struct HarmonicFactors {
    int degree{};
    Eigen::MatrixXf a, b;  // at (l, m)
    Eigen::VectorXf sectoral;
};

/// Row i of basis += weight(i) Y(point i). points: n x 3; basis: filledUp(n) x coefficients.
void addHarmonics(const HarmonicFactors& factors, const Eigen::Ref<const Eigen::MatrixX3f>& points,
                  const Eigen::Ref<const Eigen::VectorXf>& weight, Eigen::MatrixXf& basis);

/// Functions of which each column of coefficients holds one, at n points: n x columns.
[[nodiscard]] Eigen::MatrixXf harmonicSums(const HarmonicFactors& factors,
                                           const Eigen::Ref<const Eigen::MatrixX3f>& points,
                                           const Eigen::MatrixXf& coefficients);

}  // namespace core::spin::fit
