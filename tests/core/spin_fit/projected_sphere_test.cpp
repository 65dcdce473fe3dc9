#include "core/spin/fit/projected_sphere.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <cmath>
#include <opencv2/calib3d.hpp>

namespace core::spin::fit {
namespace {

constexpr double kTolPx = 1e-6;  // iteration of ballCentre stops far below
const Pinhole kCamera{950.0, {640.0, 360.0}};

cv::Point2d projectWithOpenCv(const Eigen::Vector3d& point) {
    const cv::Matx33d matrix{950.0, 0.0, 640.0, 0.0, 950.0, 360.0, 0.0, 0.0, 1.0};
    std::vector<cv::Point2d> pixels;
    cv::projectPoints(std::vector<cv::Point3d>{{point.x(), point.y(), point.z()}},
                      cv::Vec3d{0, 0, 0}, cv::Vec3d{0, 0, 0}, matrix, cv::noArray(), pixels);
    return pixels.front();
}

TEST(ProjectedSphere, CentreIsRecoveredFromTheAreaOfTheOutline) {
    const Eigen::Vector3d centre{-15.0, 4.0, 30.0};
    // Area of the outline by summing over its tangent rays, projected by OpenCV: the tangent points
    // form a circle at distance |C| - 1/|C| of radius sqrt(1 - 1/|C|^2) about the line of sight.
    const double distance = centre.norm();
    const Eigen::Vector3d towards = centre / distance;
    const Eigen::Vector3d e1 = towards.cross(Eigen::Vector3d::UnitY()).normalized();
    const Eigen::Vector3d e2 = towards.cross(e1);
    const int steps = 20000;
    double area = 0.0;
    cv::Point2d last;
    for (int i = 0; i <= steps; ++i) {
        const double angle = 2.0 * CV_PI * i / steps;
        const Eigen::Vector3d rim = (distance - 1.0 / distance) * towards +
                                    std::sqrt(1.0 - 1.0 / (distance * distance)) *
                                        (std::cos(angle) * e1 + std::sin(angle) * e2);
        const cv::Point2d now = projectWithOpenCv(rim);
        if (i > 0) {
            area += 0.5 * (last.x * now.y - now.x * last.y);
        }
        last = now;
    }
    const double radius = std::sqrt(std::abs(area) / CV_PI);
    EXPECT_NEAR(outlineRadiusPx(kCamera, centre), radius,
                1e-4);  // polygon for ellipse: 1e-8 relative
    const cv::Point2d middle = projectWithOpenCv(centre);
    const Eigen::Vector3d found =
        ballCentre(kCamera, {{middle.x, middle.y}, outlineRadiusPx(kCamera, centre)});
    EXPECT_NEAR((found - centre).norm(), 0.0, 1e-6);
}

}  // namespace
}  // namespace core::spin::fit
