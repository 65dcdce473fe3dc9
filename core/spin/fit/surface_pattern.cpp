#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/spin/fit/rotation_fit.h"
#include "core/spin/fit/spherical_harmonics.h"

namespace core::spin::fit {

PixelBuffer SurfacePattern::unrolled(const Vector3& axis, int heightPx) const {
    CORE_EXPECTS(heightPx > 0);
    const int width = 2 * heightPx;
    PixelBuffer map{width, heightPx, PixelFormat::Rgb8};
    const HarmonicBasis basis{degree};
    // Longitude is counted from the direction of the axis frame that is nearest the camera.
    const Eigen::Vector3d pole = Eigen::Vector3d{axis.x, axis.y, axis.z}.normalized();
    const Eigen::Vector3d helper = std::abs(pole.z()) < 0.9
                                       ? Eigen::Vector3d{-Eigen::Vector3d::UnitZ()}
                                       : Eigen::Vector3d{Eigen::Vector3d::UnitX()};
    const Eigen::Vector3d e1 = (helper - helper.dot(pole) * pole).normalized();
    const Eigen::Vector3d e2 = pole.cross(e1);
    Eigen::MatrixX3f points(width, 3);
    for (int row = 0; row < heightPx; ++row) {
        const double latitude = kPi * (0.5 - (row + 0.5) / heightPx);
        for (int column = 0; column < width; ++column) {
            const double longitude = 2.0 * kPi * (column + 0.5) / width;
            const Eigen::Vector3d around = std::cos(longitude) * e1 + std::sin(longitude) * e2;
            points.row(column) =
                (std::sin(latitude) * pole + std::cos(latitude) * around).transpose().cast<float>();
        }
        const Eigen::MatrixXf values = basis.at(points);
        for (std::size_t c = 0; c < 3; ++c) {
            const Eigen::VectorXf colour =
                values * Eigen::Map<const Eigen::VectorXd>(redGreenBlue[c].data(), basis.size())
                             .cast<float>();
            for (int column = 0; column < width; ++column) {
                map.row(row)[3 * column + static_cast<int>(c)] =
                    static_cast<std::uint8_t>(std::clamp(std::lround(colour(column)), 0L, 255L));
            }
        }
    }
    return map;
}

}  // namespace core::spin::fit
