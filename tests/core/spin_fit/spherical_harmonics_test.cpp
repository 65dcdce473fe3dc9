#include "core/spin/fit/spherical_harmonics.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>

#include "core/base/units.h"
#include "core/spin/fit/rotation.h"
#include "tests/support/reference_csv.h"

namespace core::spin::fit {
namespace {

constexpr double kTolSingle =
    5e-6;  // single precision through eight recurrence steps, values up to 3
constexpr double kTurnStep =
    0.02;  // rad; central difference, error of order (8 kTurnStep)^2/6 of the slope
constexpr double kTurnSlopeTol =
    0.03;  // of the largest slope: 0.5 % from the step, rounding 1e-6/kTurnStep

TEST(SphericalHarmonics, ValuesAgreeWithSciPy) {
    const HarmonicBasis basis{8};
    const auto table = tests::ReferenceTable::load("spin_fit/harmonics_scipy.csv");
    ASSERT_EQ(table.rowCount(), 4U * 81U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        Eigen::MatrixX3f point(1, 3);
        point << static_cast<float>(table.number(row, "x")),
            static_cast<float>(table.number(row, "y")), static_cast<float>(table.number(row, "z"));
        const Eigen::MatrixXf values = basis.at(point);
        const auto l = static_cast<int>(table.number(row, "l"));
        const int index = l * l + l + static_cast<int>(table.number(row, "m"));
        EXPECT_NEAR(static_cast<double>(values(0, index)), table.number(row, "value"), kTolSingle)
            << "row " << row;
    }
}

// The mean of a product over the sphere is its integral over 4 pi.
TEST(SphericalHarmonics, AreOrthonormalOverEvenPoints) {
    const int points = 4000;
    const Eigen::MatrixXf values = HarmonicBasis{11}.at(evenPoints(points));
    const Eigen::MatrixXf products =
        4.0F * static_cast<float>(core::kPi) / points * values.transpose() * values;
    EXPECT_LT((products - Eigen::MatrixXf::Identity(144, 144)).cwiseAbs().maxCoeff(), 5e-3F);
}

TEST(SphericalHarmonics, WeightsScaleTheRowsThatAreAdded) {
    const HarmonicBasis basis{2};
    Eigen::MatrixX3f points(2, 3);
    points << 0.0F, 0.0F, 1.0F, 0.6F, 0.0F, 0.8F;
    Eigen::MatrixXf sum = Eigen::MatrixXf::Zero(filledUp(points.rows()), basis.size());
    sum.topRows(points.rows()) = basis.at(points);
    basis.addTo(points, Eigen::Vector2f{1.0F, -0.5F}, sum);
    EXPECT_LT((sum.row(0) - 2.0F * basis.at(points).row(0)).norm(), 1e-6F);
    EXPECT_LT((sum.row(1) - 0.5F * basis.at(points).row(1)).norm(), 1e-6F);
}

TEST(SphericalHarmonics, GeneratorsAreTheSlopesOfATurnedFunction) {
    // d/da f(R(a e) q) at a = 0 is (e x q) . grad f = e . (q x grad f).
    const HarmonicBasis basis{5};
    const auto generators = rotationGenerators(5);
    Eigen::VectorXd c(basis.size());
    for (int i = 0; i < basis.size(); ++i) {
        c(i) = std::sin(1.0 + 3.7 * i);
    }
    const Eigen::Vector3d q = Eigen::Vector3d{0.3, -0.8, 0.5}.normalized();
    const auto valueAt = [&](const Eigen::Vector3d& point, const Eigen::VectorXd& coefficients) {
        const Eigen::MatrixX3f row = point.transpose().cast<float>();
        return basis.at(row).row(0).cast<double>().dot(coefficients);
    };
    for (int axis = 0; axis < 3; ++axis) {
        const Eigen::Vector3d turn = kTurnStep * Eigen::Vector3d::Unit(axis);
        const double slope =
            (valueAt(rotationFromVector(turn) * q, c) - valueAt(rotationFromVector(-turn) * q, c)) /
            (2.0 * kTurnStep);
        const double expected = valueAt(q, generators[static_cast<std::size_t>(axis)] * c);
        EXPECT_NEAR(expected, slope, kTurnSlopeTol * std::abs(slope)) << "axis " << axis;
    }
}

}  // namespace
}  // namespace core::spin::fit
