#include "core/spin/fit/spherical_harmonics.h"

#include <cmath>
#include <complex>
#include <numbers>

namespace core::spin::fit {

namespace {

/// Columns of the unitary change from complex harmonics (with Condon-Shortley phase) to ours.
Eigen::MatrixXcd realFromComplex(int l) {
    using std::complex;
    const int n = 2 * l + 1;
    const double h = std::numbers::sqrt2 / 2.0;
    Eigen::MatrixXcd u = Eigen::MatrixXcd::Zero(n, n);  // real_i = sum_j u(i, j) complex_j
    u(l, l) = 1.0;
    for (int m = 1; m <= l; ++m) {
        const double sign = m % 2 == 0 ? 1.0 : -1.0;
        u(l + m, l + m) = h * sign;
        u(l + m, l - m) = h;
        u(l - m, l + m) = complex<double>{0.0, -h * sign};
        u(l - m, l - m) = complex<double>{0.0, h};
    }
    return u;
}

/// Angular momentum matrices of degree l in the complex basis: (J_x, J_y, J_z) with
/// J = -i q x grad, J Y_m = sum_m' matrix(m', m) Y_m'.
std::array<Eigen::MatrixXcd, 3> angularMomentum(int l) {
    using std::complex;
    const int n = 2 * l + 1;
    Eigen::MatrixXcd up = Eigen::MatrixXcd::Zero(n, n);
    Eigen::MatrixXcd jz = Eigen::MatrixXcd::Zero(n, n);
    for (int m = -l; m <= l; ++m) {
        jz(l + m, l + m) = m;
        if (m < l) {
            up(l + m + 1, l + m) = std::sqrt(static_cast<double>(l * (l + 1) - m * (m + 1)));
        }
    }
    const Eigen::MatrixXcd down = up.adjoint();
    return {0.5 * (up + down), complex<double>{0.0, -0.5} * (up - down), jz};
}

}  // namespace

int degreeOfIndex(int index) noexcept {
    int l = 0;
    while ((l + 1) * (l + 1) <= index) {
        ++l;
    }
    return l;
}

HarmonicBasis::HarmonicBasis(int degree)
    : m_factors{degree, Eigen::MatrixXf::Zero(degree + 1, degree + 1),
                Eigen::MatrixXf::Zero(degree + 1, degree + 1), Eigen::VectorXf(degree + 1)} {
    double sectoral = std::sqrt(0.25 / std::numbers::pi);
    for (int m = 0; m <= degree; ++m) {
        if (m > 0) {
            sectoral *= std::sqrt((2.0 * m + 1.0) / (2.0 * m));
        }
        m_factors.sectoral(m) =
            static_cast<float>(m == 0 ? sectoral : sectoral * std::numbers::sqrt2);
        for (int l = m + 1; l <= degree; ++l) {
            const double span = (l - m) * static_cast<double>(l + m);
            m_factors.a(l, m) =
                static_cast<float>(std::sqrt((2.0 * l - 1.0) * (2.0 * l + 1.0) / span));
            const double ratio = (2.0 * l + 1.0) * (l + m - 1.0) * (l - m - 1.0);
            m_factors.b(l, m) =
                l == m + 1 ? 0.0F : static_cast<float>(std::sqrt(ratio / ((2.0 * l - 3.0) * span)));
        }
    }
}

Eigen::MatrixXf HarmonicBasis::at(const Eigen::Ref<const Eigen::MatrixX3f>& points) const {
    Eigen::MatrixXf values = Eigen::MatrixXf::Zero(filledUp(points.rows()), size());
    addTo(points, Eigen::VectorXf::Ones(points.rows()), values);
    return values.topRows(points.rows());
}

void HarmonicBasis::addTo(const Eigen::Ref<const Eigen::MatrixX3f>& points,
                          const Eigen::Ref<const Eigen::VectorXf>& weight,
                          Eigen::MatrixXf& basis) const {
    addHarmonics(m_factors, points, weight, basis);
}

Eigen::MatrixXf HarmonicBasis::sums(const Eigen::Ref<const Eigen::MatrixX3f>& points,
                                    const Eigen::MatrixXf& coefficients) const {
    return harmonicSums(m_factors, points, coefficients);
}

Eigen::MatrixX3f evenPoints(int n) {
    const double golden = std::numbers::pi * (3.0 - std::sqrt(5.0));
    Eigen::MatrixX3f points(n, 3);
    for (int i = 0; i < n; ++i) {
        const double z = (2.0 * i + 1.0) / n - 1.0;
        const double r = std::sqrt(1.0 - z * z);
        points.row(i) = Eigen::Vector3d{r * std::cos(golden * i), r * std::sin(golden * i), z}
                            .transpose()
                            .cast<float>();
    }
    return points;
}

std::array<Eigen::MatrixXd, 3> rotationGenerators(int degree) {
    const int n = coefficientCount(degree);
    std::array<Eigen::MatrixXd, 3> generators;
    generators.fill(Eigen::MatrixXd::Zero(n, n));
    for (int l = 0; l <= degree; ++l) {
        const Eigen::MatrixXcd u = realFromComplex(l);
        const auto momentum = angularMomentum(l);
        for (std::size_t j = 0; j < 3; ++j) {
            // f = sum c_i real_i; real = u complex; (i J) acts on the complex functions.
            const Eigen::MatrixXcd acting =
                std::complex<double>{0.0, 1.0} * u * momentum[j].transpose() * u.adjoint();
            generators[j].block(l * l, l * l, 2 * l + 1, 2 * l + 1) = acting.transpose().real();
        }
    }
    return generators;
}

}  // namespace core::spin::fit
