#include "core/spin/fit/rotation.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>

#include "tests/support/reference_csv.h"

namespace core::spin::fit {
namespace {

constexpr double kRoundingTol = 1e-12;  // a few hundred ulp: sums of products of sines
constexpr double kStep = 1e-6;          // central difference: error of order kStep^2
constexpr double kTolSlope = 1e-8;      // rounding 1e-16/kStep plus the above, with room

const char* const kMatrixColumns[9] = {"m00", "m01", "m02", "m10", "m11",
                                       "m12", "m20", "m21", "m22"};

// The way back, by Eigen.
Eigen::Vector3d vectorOf(const Eigen::Matrix3d& rotation) {
    const Eigen::AngleAxisd turn{rotation};
    return turn.angle() * turn.axis();
}

TEST(Rotation, MatricesAgreeWithSciPy) {
    const auto table = tests::ReferenceTable::load("spin_fit/rotations_scipy.csv");
    ASSERT_EQ(table.rowCount(), 9U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const Eigen::Vector3d r{table.number(row, "rx"), table.number(row, "ry"),
                                table.number(row, "rz")};
        const Eigen::Matrix3d m = rotationFromVector(r);
        for (int i = 0; i < 9; ++i) {
            EXPECT_NEAR(m(i / 3, i % 3), table.number(row, kMatrixColumns[i]), kRoundingTol)
                << "row " << row;
        }
    }
}

TEST(Rotation, RightJacobianIsTheSlopeOfTheRotation) {
    const Eigen::Vector3d r{0.7, -1.1, 0.4};
    const Eigen::Matrix3d j = rightJacobian(r);
    for (int k = 0; k < 3; ++k) {
        const Eigen::Vector3d d = kStep * Eigen::Vector3d::Unit(k);
        const Eigen::Matrix3d change =
            rotationFromVector(r - d).transpose() * rotationFromVector(r + d);
        EXPECT_NEAR((vectorOf(change) / (2.0 * kStep) - j.col(k)).norm(), 0.0, kTolSlope);
    }
}

TEST(Rotation, QuarterTurnAboutTheViewTakesRightToDown) {
    // x right, y down, z forward is right-handed: from x to y is clockwise as the camera sees it.
    const Eigen::Vector3d turned =
        rotationFromVector({0.0, 0.0, 1.5707963267948966}) * Eigen::Vector3d::UnitX();
    EXPECT_NEAR((turned - Eigen::Vector3d::UnitY()).norm(), 0.0, kRoundingTol);
}

}  // namespace
}  // namespace core::spin::fit
