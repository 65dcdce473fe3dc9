#include "core/synthesis/geometry.h"

#include <gtest/gtest.h>

#include <cmath>
#include <opencv2/calib3d.hpp>

#include "tests/support/reference_csv.h"

namespace core::synthesis {
namespace {

constexpr double kRounding = 1e-12;      // of unit quaternions after one multiplication
constexpr double kRoundingPx = 1e-6;     // of picture places, from 15 digits in the table
constexpr double kRoundingAngle = 1e-7;  // acos and atan2 near their flat places

Quaternion quaternion(const tests::ReferenceTable& table, std::size_t row, const std::string& end) {
    return {table.number(row, "w" + end), table.number(row, "x" + end),
            table.number(row, "y" + end), table.number(row, "z" + end)};
}

/// Quaternions of opposite sign are one attitude.
double dot(const Quaternion& a, const Quaternion& b) {
    return a.w * b.w + a.x * b.x + a.y * b.y + a.z * b.z;
}

// tests/data/synthesis/attitudes.csv: scipy.spatial.transform.Rotation.
TEST(Geometry, AttitudesAfterATurnAgreeWithScipy) {
    const auto table = tests::ReferenceTable::load("synthesis/attitudes.csv");
    ASSERT_EQ(table.rowCount(), 24U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const Quaternion start = quaternion(table, row, "0");
        const Vector3 omega{table.number(row, "wx"), table.number(row, "wy"),
                            table.number(row, "wz")};
        const Quaternion end = turned(start, omega, {table.number(row, "t")});
        EXPECT_NEAR(std::abs(dot(end, quaternion(table, row, "1"))), 1.0, kRounding);
        EXPECT_NEAR(angleBetween(start, end).radians, table.number(row, "angle"), kRoundingAngle);
    }
}

// cv::Rodrigues computes the matrix of a rotation vector by Rodrigues' formula.
TEST(Geometry, RotatedDirectionsAgreeWithRodriguesOfOpenCv) {
    const cv::Vec3d turn{0.7, -1.9, 2.3};
    cv::Matx33d matrix;
    cv::Rodrigues(turn, matrix);
    const Quaternion q = turned({}, {turn[0], turn[1], turn[2]}, {1.0});
    for (int axis = 0; axis < 3; ++axis) {
        Vector3 direction{};
        direction[static_cast<std::size_t>(axis)] = 1.0;
        const Vector3 seen = rotated(q, direction);
        for (int part = 0; part < 3; ++part) {
            EXPECT_NEAR(seen[static_cast<std::size_t>(part)], matrix(part, axis), kRounding);
        }
    }
}

TEST(Geometry, ProjectionAgreesWithProjectPointsOfOpenCv) {
    const PinholeCamera camera{
        .widthPx = 1280, .heightPx = 720, .horizontalFieldOfViewDeg = 64.0, .shift = {1.5, -0.25}};
    const double focal = 640.0 / std::tan(32.0 * kPi / 180.0);
    const cv::Matx33d matrix{focal, 0.0, 641.5, 0.0, focal, 359.75, 0.0, 0.0, 1.0};
    const std::vector<cv::Point3d> points{{-0.8, 0.3, 1.4}, {0.0, 0.0, 2.0}, {1.1, -0.5, 1.7}};
    std::vector<cv::Point2d> expected;
    cv::projectPoints(points, cv::Vec3d{}, cv::Vec3d{}, matrix, cv::noArray(), expected);
    for (std::size_t i = 0; i < points.size(); ++i) {
        const PicturePoint seen = camera.project({points[i].x, points[i].y, points[i].z});
        EXPECT_NEAR(seen.x, expected[i].x, kRoundingPx);
        EXPECT_NEAR(seen.y, expected[i].y, kRoundingPx);
    }
}

// tests/data/synthesis/outlines.csv: conic of the tangent cone, by a solve and eigenvalues.
TEST(Geometry, OutlinesAgreeWithTheConicOfTheTangentCone) {
    const auto table = tests::ReferenceTable::load("synthesis/outlines.csv");
    ASSERT_EQ(table.rowCount(), 24U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const PinholeCamera camera{.widthPx = 1280,
                                   .heightPx = 720,
                                   .horizontalFieldOfViewDeg = table.number(row, "fov"),
                                   .shift = {}};
        const Vector3 centre{table.number(row, "x"), table.number(row, "y"),
                             table.number(row, "z")};
        const Ellipse outline = outlineOfBall(camera, centre, table.number(row, "radius"));
        EXPECT_NEAR(outline.centre.x, table.number(row, "u"), kRoundingPx);
        EXPECT_NEAR(outline.centre.y, table.number(row, "v"), kRoundingPx);
        EXPECT_NEAR(outline.semiMajorPx, table.number(row, "major"), kRoundingPx);
        EXPECT_NEAR(outline.semiMinorPx, table.number(row, "minor"), kRoundingPx);
        const double apart = outline.majorAxisFromX.radians - table.number(row, "angle");
        EXPECT_NEAR(std::sin(apart), 0.0, 1e-6);  // an axis has no sense: modulo pi
    }
}

}  // namespace
}  // namespace core::synthesis
