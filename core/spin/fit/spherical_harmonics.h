#pragma once

#include <Eigen/Core>
#include <array>

#include "core/spin/fit/kernels.h"

/// Real spherical harmonics on the unit sphere. Module-internal: uses Eigen types.
///
/// Orthonormal over the sphere, no Condon-Shortley phase. Index of (l, m): l*l + l + m, |m| <= l;
/// m > 0 goes with cos(m phi), m < 0 with sin(|m| phi); phi from x towards y, z is the pole.
/// Recurrences of the fully normalised associated Legendre functions as in Holmes and Featherstone,
/// J. Geodesy 76 (2002) 279, eqs. 11-13.
namespace core::spin::fit {

[[nodiscard]] constexpr int coefficientCount(int degree) noexcept {
    return (degree + 1) * (degree + 1);
}
/// Degree l of a coefficient index.
[[nodiscard]] int degreeOfIndex(int index) noexcept;

/// Values of all harmonics to a degree at n points. Basis matrices are column-major, a column for
/// each coefficient, single precision: good to about 1e-6, far below a picture's noise.
class HarmonicBasis {
public:
    explicit HarmonicBasis(int degree);

    [[nodiscard]] int degree() const noexcept { return m_factors.degree; }
    [[nodiscard]] int size() const noexcept { return coefficientCount(m_factors.degree); }

    /// Row i of basis += weight(i) Y(point i). points: n x 3 unit vectors, one row each; basis:
    /// filledUp(n) x size().
    void addTo(const Eigen::Ref<const Eigen::MatrixX3f>& points,
               const Eigen::Ref<const Eigen::VectorXf>& weight, Eigen::MatrixXf& basis) const;
    /// Y(points), n x size().
    [[nodiscard]] Eigen::MatrixXf at(const Eigen::Ref<const Eigen::MatrixX3f>& points) const;
    /// Y(points) coefficients, n x columns of coefficients, without Y in between.
    [[nodiscard]] Eigen::MatrixXf sums(const Eigen::Ref<const Eigen::MatrixX3f>& points,
                                       const Eigen::MatrixXf& coefficients) const;

private:
    HarmonicFactors m_factors;
};

/// n points spread evenly over the sphere (golden-angle spiral), one a row; means over them are
/// means over the sphere to about 1/n.
[[nodiscard]] Eigen::MatrixX3f evenPoints(int n);

/// The matrices of the derivative operators q x grad (components x, y, z) on coefficients, block
/// diagonal in the degree: if f has coefficients c, (q x grad f)_j has coefficients L_j c.
[[nodiscard]] std::array<Eigen::MatrixXd, 3> rotationGenerators(int degree);

}  // namespace core::spin::fit
