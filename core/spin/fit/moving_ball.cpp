#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/spin/fit/shot_samples.h"

namespace core::spin::fit {

namespace {

// Gauss's quadrature on [-1/2, 1/2] (Abramowitz and Stegun, table 25.4).
constexpr std::array<CoveredInstant, 1> kGauss1{{{0.0, 1.0}}};
constexpr std::array<CoveredInstant, 3> kGauss3{
    {{-0.38729833462074169, 5.0 / 18.0}, {0.0, 8.0 / 18.0}, {0.38729833462074169, 5.0 / 18.0}}};
constexpr std::array<CoveredInstant, 5> kGauss5{{{-0.45308992296933200, 0.11846344252809454},
                                                 {-0.26923465505284155, 0.23931433524968324},
                                                 {0.0, 0.28444444444444444},
                                                 {0.26923465505284155, 0.23931433524968324},
                                                 {0.45308992296933200, 0.11846344252809454}}};
constexpr std::array<CoveredInstant, 8> kGauss8{{{-0.48014492824876812, 0.05061426814518813},
                                                 {-0.39833323870681337, 0.11119051722668724},
                                                 {-0.26276620495816450, 0.15685332293894364},
                                                 {-0.09171732124782490, 0.18134189168918100},
                                                 {0.09171732124782490, 0.18134189168918100},
                                                 {0.26276620495816450, 0.15685332293894364},
                                                 {0.39833323870681337, 0.11119051722668724},
                                                 {0.48014492824876812, 0.05061426814518813}}};
// Smears over the radius up to which so many instants do for a pattern of degree 11.
constexpr double kOneInstant = 0.1;
constexpr double kThreeInstants = 0.4;
constexpr double kFiveInstants = 1.0;

}  // namespace

std::span<const CoveredInstant> instantsOf(const FrameSamples& frame) {
    const double smear = frame.smearPx.norm() / frame.place.radiusPx;
    if (smear <= kOneInstant) {
        return kGauss1;
    }
    if (smear <= kThreeInstants) {
        return kGauss3;
    }
    if (smear <= kFiveInstants) {
        return kGauss5;
    }
    return kGauss8;
}

MovingBall::MovingBall(const Pinhole& camera, const SphereImage& place,
                       const Eigen::Vector2d& smearPx)
    : m_camera{camera}, m_centre{ballCentre(camera, place)}, m_way{Eigen::Vector3d::Zero()} {
    if (!smearPx.isZero()) {
        m_way = ballCentre(camera, {place.centrePx + 0.5 * smearPx, place.radiusPx}) -
                ballCentre(camera, {place.centrePx - 0.5 * smearPx, place.radiusPx});
    }
}

// A unit ray d meets the surface at p = (d C - slant) d - C. What is almost beside the ball is
// taken for its rim.
Eigen::MatrixX3f MovingBall::seenBy(const FrameSamples& frame,
                                    const CoveredInstant& instant) const {
    Eigen::MatrixX3f directions(frame.pointPx.rows(), 3);
    for (Eigen::Index i = 0; i < directions.rows(); ++i) {
        const Eigen::Vector3d ray =
            rayThrough(m_camera, frame.pointPx.row(i).transpose().cast<double>());
        const Eigen::Vector3d centre = centreAt(frame, i, instant);
        const double along = ray.dot(centre);
        const double inside = along * along - centre.squaredNorm() + 1.0;
        const double slant = std::sqrt(std::max(inside, 0.0));
        directions.row(i) = ((along - slant) * ray - centre).normalized().transpose().cast<float>();
    }
    return directions;
}

Eigen::Vector3d MovingBall::centreAt(const FrameSamples& frame, Eigen::Index sample,
                                     const CoveredInstant& instant) const {
    const double time = static_cast<double>(frame.middle(sample)) +
                        static_cast<double>(frame.cover(sample)) * instant.offset;
    return m_centre + time * m_way;
}

BallChange MovingBall::changeTo(const MovingBall& other, double step, Zoom zoom) const {
    return {(other.m_centre - m_centre) / step, (other.m_way - m_way) / step, zoom};
}

// dp = (d(d C) - dslant) d + (d C - slant) dd - dC. With the logarithm of the focal length a ray
// changes by dd = -(d - d_z e_z) + d (d_x^2 + d_y^2).
Levers MovingBall::levers(const FrameSamples& frame, const CoveredInstant& instant,
                          const std::array<BallChange, 4>& changes) const {
    constexpr double kRimSlant = 0.1;  // slopes grow without bounds towards the rim
    Levers levers;
    for (Eigen::MatrixX3f& one : levers) {
        one.resize(frame.pointPx.rows(), 3);
    }
    for (Eigen::Index i = 0; i < frame.pointPx.rows(); ++i) {
        const Eigen::Vector3d ray =
            rayThrough(m_camera, frame.pointPx.row(i).transpose().cast<double>());
        const Eigen::Vector3d centre = centreAt(frame, i, instant);
        const double time = static_cast<double>(frame.middle(i)) +
                            static_cast<double>(frame.cover(i)) * instant.offset;
        const double along = ray.dot(centre);
        const double slant =
            std::sqrt(std::max(along * along - centre.squaredNorm() + 1.0, kRimSlant * kRimSlant));
        const Eigen::Vector3d point = (along - slant) * ray - centre;
        for (std::size_t k = 0; k < changes.size(); ++k) {
            const Eigen::Vector3d moved = changes[k].centre + time * changes[k].way;
            double alongBy = ray.dot(moved);
            Eigen::Vector3d change = -moved;
            if (changes[k].zoom == Zoom::Yes) {
                const Eigen::Vector3d bent = ray * (ray.x() * ray.x() + ray.y() * ray.y()) -
                                             Eigen::Vector3d{ray.x(), ray.y(), 0.0};
                alongBy += bent.dot(centre);
                change += (along - slant) * bent;
            }
            const double slantBy = (along * alongBy - centre.dot(moved)) / slant;
            change += (alongBy - slantBy) * ray;
            levers[k].row(i) = point.cross(change).transpose().cast<float>();
        }
    }
    return levers;
}

// slant^2 = (d C)^2 - |C|^2 + 1 along the unit ray d is a downward parabola of time where
// C = centre + time way.
Interval<double> MovingBall::whileSlantAbove(const Eigen::Vector3d& ray, double cosine) const {
    const double alongCentre = ray.dot(m_centre);
    const double alongWay = ray.dot(m_way);
    const double a = m_way.squaredNorm() - alongWay * alongWay;
    const double b = alongCentre * alongWay - m_centre.dot(m_way);
    const double c = alongCentre * alongCentre - m_centre.squaredNorm() + 1.0 - cosine * cosine;
    constexpr double kStill = 1e-12;
    if (a < kStill) {
        return c > 0.0 ? Interval<double>{-0.5, 0.5} : Interval<double>{0.0, 0.0};
    }
    const double root = b * b + a * c;
    if (root <= 0.0) {
        return {0.0, 0.0};
    }
    const double low = std::max(-0.5, (b - std::sqrt(root)) / a);
    const double high = std::min(0.5, (b + std::sqrt(root)) / a);
    return low < high ? Interval<double>{low, high} : Interval<double>{0.0, 0.0};
}

double MovingBall::slantAt(const Eigen::Vector3d& ray, double time) const {
    const Eigen::Vector3d centre = m_centre + time * m_way;
    const double along = ray.dot(centre);
    return std::sqrt(std::max(0.0, along * along - centre.squaredNorm() + 1.0));
}

}  // namespace core::spin::fit
