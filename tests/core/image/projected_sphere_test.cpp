#include "core/image/projected_sphere.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <opencv2/calib3d.hpp>

#include "tests/support/reference_csv.h"

namespace {

using namespace core::image;

constexpr double kTolPx = 1e-6;  // double arithmetic over a few thousand pixels

const Camera kCamera{1280, 720, 950.0};

std::vector<cv::Point2d> openCvProjection(const std::vector<cv::Point3d>& points) {
    const PointPx middle = kCamera.principalPoint();
    const cv::Matx33d matrix(kCamera.focalPx, 0, middle.x, 0, kCamera.focalPx, middle.y, 0, 0, 1);
    std::vector<cv::Point2d> projected;
    cv::projectPoints(points, cv::Vec3d(), cv::Vec3d(), matrix, cv::noArray(), projected);
    return projected;
}

// The circle in which the tangent rays touch a unit sphere (its plane lies 1/D nearer than the
// centre, its radius is sqrt(1 - 1/D^2), D the distance).
std::vector<cv::Point3d> tangentCircle(const SpherePosition& s) {
    const cv::Vec3d centre(s.x, s.y, s.z);
    const double distance = cv::norm(centre);
    const cv::Vec3d axis = centre / distance;
    const cv::Vec3d u = cv::normalize(axis.cross(cv::Vec3d(0.3, 1.0, 0.1)));
    const cv::Vec3d v = axis.cross(u);
    const double radius = std::sqrt(1.0 - 1.0 / (distance * distance));
    std::vector<cv::Point3d> points;
    for (int k = 0; k < 24; ++k) {
        const double angle = 2.0 * core::kPi * k / 24;
        points.emplace_back(centre - axis / distance +
                            radius * (std::cos(angle) * u + std::sin(angle) * v));
    }
    return points;
}

double ellipseEquation(const Ellipse& e, cv::Point2d p) {
    const double dx = p.x - e.centre.x;
    const double dy = p.y - e.centre.y;
    const double c = std::cos(e.angle.radians);
    const double s = std::sin(e.angle.radians);
    return std::hypot((c * dx + s * dy) / e.semiMajorPx, (-s * dx + c * dy) / e.semiMinorPx);
}

TEST(ProjectedSphere, CentreIsWhereOpenCvProjectsIt) {
    const auto projected = openCvProjection({{-12.0, 5.0, 40.0}});
    const PointPx centre = projectCentre(kCamera, {-12.0, 5.0, 40.0});
    EXPECT_NEAR(centre.x, projected[0].x, kTolPx);
    EXPECT_NEAR(centre.y, projected[0].y, kTolPx);
}

TEST(ProjectedSphere, OutlineIsTheTangentCircleAsOpenCvProjectsIt) {
    for (const SpherePosition s : {SpherePosition{0.0, 0.0, 30.0},
                                   {-26.0, 3.0, 42.0},
                                   {9.0, -14.0, 25.0},
                                   {3.0, 4.0, 6.0}}) {
        const Ellipse outline = outlineOf(kCamera, s).value();
        for (const cv::Point2d& point : openCvProjection(tangentCircle(s))) {
            EXPECT_NEAR(ellipseEquation(outline, point), 1.0, 1e-9);
        }
    }
}

TEST(ProjectedSphere, ComesBackFromItsPicture) {
    for (const SpherePosition s : {SpherePosition{0.0, 0.0, 30.0}, {-26.0, 3.0, 42.0}, {3, 4, 6}}) {
        const Ellipse outline = outlineOf(kCamera, s).value();
        const SpherePosition back =
            sphereFromPicture(kCamera, projectCentre(kCamera, s),
                              std::sqrt(outline.semiMajorPx * outline.semiMinorPx));
        EXPECT_NEAR(back.x, s.x, 1e-9);
        EXPECT_NEAR(back.y, s.y, 1e-9);
        EXPECT_NEAR(back.z, s.z, 1e-9);
    }
}

TEST(ProjectedSphere, HasNoOutlineWhenItReachesIntoTheCamera) {
    EXPECT_FALSE(outlineOf(kCamera, {0.0, 0.0, 0.9}).has_value());
}

TEST(ProjectedSphere, AgreesWithTheIndependentRenderer) {
    std::ifstream file(tests::dataFolder() / "footage" / "seam_print_tilted_120fps.json");
    const auto truth = nlohmann::json::parse(file);
    const double radius = 0.5 * truth["ball_diameter_m"].get<double>();
    const Camera camera =
        cameraFromFieldOfView(1280, 720, core::fromDegrees(truth["hfov_deg"].get<double>()));
    EXPECT_NEAR(camera.focalPx, truth["focal_px"].get<double>(), 1e-3);  // given to 0.001 px
    for (const auto& frame : truth["shots"][0]["frames"]) {
        const auto& p = frame["position_m"];
        const SpherePosition sphere{p[0].get<double>() / radius, p[1].get<double>() / radius,
                                    p[2].get<double>() / radius};
        const Ellipse outline = outlineOf(camera, sphere).value();
        const auto& expected = frame["outline"];
        constexpr double kTruthDigitsPx = 0.003;  // positions are given to 1e-6 m, pixels to 0.001
        EXPECT_NEAR(outline.centre.x, expected["centre_px"][0].get<double>(), kTruthDigitsPx);
        EXPECT_NEAR(outline.centre.y, expected["centre_px"][1].get<double>(), kTruthDigitsPx);
        EXPECT_NEAR(outline.semiMajorPx, expected["semi_axes_px"][0].get<double>(), kTruthDigitsPx);
        EXPECT_NEAR(outline.semiMinorPx, expected["semi_axes_px"][1].get<double>(), kTruthDigitsPx);
    }
}

}  // namespace
