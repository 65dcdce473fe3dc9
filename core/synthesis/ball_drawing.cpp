#include "core/synthesis/ball_drawing.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

constexpr int kMarginPx = 3;
constexpr float kUsualExponent = 24.0F;

/// The ball at one instant of the exposure.
struct Pose {
    Eigen::Vector3f centreM;
    Eigen::Matrix3f ballFromCamera;
};

struct Scenery {
    Eigen::Vector3f towardsLight;
    float direct;
    float ambientAbove;
    float ambientBelow;
    float highlight;
    float highlightExponent;
    float varnish;
};

Eigen::Vector3f toFloat(const Vector3& v) {
    return {static_cast<float>(v[0]), static_cast<float>(v[1]), static_cast<float>(v[2])};
}

Pose poseAt(const FlightPath& path, Seconds time) {
    const FlightState state = path.at(time);
    const Quaternion& q = state.attitude;
    const Eigen::Matrix3d cameraFromBall = Eigen::Quaterniond{q.w, q.x, q.y, q.z}.matrix();
    return {toFloat(state.positionM), cameraFromBall.transpose().cast<float>()};
}

float ambientOn(const Scenery& scenery, float upwards) {
    return std::lerp(scenery.ambientBelow, scenery.ambientAbove, upwards);
}

/// What a varnished surface mirrors of sky and ground, which are as bright as what they light.
float mirrored(const Eigen::Vector3f& normal, const Eigen::Vector3f& ray, const Scenery& scenery) {
    constexpr float kHeadOn = 0.04F;  // of glass and varnish, refractive index 1.5
    const float cosine = std::clamp(-normal.dot(ray), 0.0F, 1.0F);
    const float grazing = 1.0F - cosine;
    const float square = grazing * grazing;
    const float share = kHeadOn + (1.0F - kHeadOn) * square * square * grazing;
    const float up = -(ray.y() + 2.0F * cosine * normal.y());
    return scenery.varnish * share * (up > 0.0F ? scenery.ambientAbove : scenery.ambientBelow);
}

/// Light thrown back from the surface with the given normal towards the camera, seen along ray.
LinearColour shaded(const LinearColour& albedo, const Eigen::Vector3f& normal,
                    const Eigen::Vector3f& ray, const Scenery& scenery) {
    const float facing = std::max(0.0F, normal.dot(scenery.towardsLight));
    const float up = 0.5F - 0.5F * normal.y();
    const float light = scenery.direct * facing + ambientOn(scenery, up);
    float gloss = scenery.varnish > 0.0F ? mirrored(normal, ray, scenery) : 0.0F;
    const Eigen::Vector3f half = (scenery.towardsLight - ray).normalized();
    const float along = normal.dot(half);
    if (along > 0.8F) {
        const float square = along * along;
        const float fourth = square * square;
        const float eighth = fourth * fourth;
        const float base = eighth * eighth * eighth;  // along^24
        gloss +=
            scenery.highlight * (scenery.highlightExponent == kUsualExponent
                                     ? base
                                     : std::pow(base, scenery.highlightExponent / kUsualExponent));
    }
    return {albedo.red * light + gloss, albedo.green * light + gloss, albedo.blue * light + gloss};
}

PixelRect reachOf(const LightPicture& picture, const PinholeCamera& camera,
                  const Exposure& exposure, const FlightPath& path, double radiusM,
                  double lensBlurPx) {
    const Seconds middle = exposureTimeOfBall(path, camera, exposure);
    const Ellipse outline = outlineOfBall(camera, path.at(middle).positionM, radiusM);
    // Rows of the ball are exposed before and after its centre's row.
    const double rows = 2.0 * outline.semiMajorPx + kMarginPx;
    const double halfSpan = 0.5 * exposure.shutter.exposure.seconds +
                            rows / camera.heightPx * exposure.shutter.readout.seconds;
    PixelRect rect{picture.width, picture.height, 0, 0};
    for (const double offset : {-halfSpan, 0.0, halfSpan}) {
        const Ellipse at =
            outlineOfBall(camera, path.at({middle.seconds + offset}).positionM, radiusM);
        const double reach = at.semiMajorPx + kMarginPx + 4.0 * lensBlurPx;
        rect.left = std::min(rect.left, static_cast<int>(std::floor(at.centre.x - reach)));
        rect.top = std::min(rect.top, static_cast<int>(std::floor(at.centre.y - reach)));
        rect.right = std::max(rect.right, static_cast<int>(std::ceil(at.centre.x + reach)));
        rect.bottom = std::max(rect.bottom, static_cast<int>(std::ceil(at.centre.y + reach)));
    }
    return {std::max(rect.left, 0), std::max(rect.top, 0), std::min(rect.right, picture.width),
            std::min(rect.bottom, picture.height)};
}

bool isInFrontOfCamera(const FlightPath& path, Seconds time, double radiusM) {
    return path.at(time).positionM[2] > 2.0 * radiusM;
}

/// Casts the rays of one row.
class RowCaster {
public:
    RowCaster(const PinholeCamera& camera, const SamplePlaces& places, const BallSurface& surface,
              const Scenery& scenery, double radiusM)
        : m_places{places},
          m_surface{surface},
          m_scenery{scenery},
          m_perFocal{static_cast<float>(1.0 / camera.focalPx())},
          m_middleX{static_cast<float>(camera.principalPoint().x)},
          m_middleY{static_cast<float>(camera.principalPoint().y)},
          m_radius{static_cast<float>(radiusM)} {}

    void cast(LightPicture& picture, int y, const PixelRect& rect,
              const std::vector<Pose>& poses) const {
        const auto total = static_cast<float>(m_places.samples());
        for (int x = rect.left; x < rect.right; ++x) {
            const auto set = static_cast<int>(
                mixed(static_cast<std::uint64_t>(x), static_cast<std::uint64_t>(y)) %
                SamplePlaces::kSets);
            LinearColour sum;
            int hits = 0;
            for (int s = 0; s < m_places.samples(); ++s) {
                const float* place = m_places.place(set, s);
                const Eigen::Vector3f ray{
                    (static_cast<float>(x) + 0.5F + place[0] - m_middleX) * m_perFocal,
                    (static_cast<float>(y) + 0.5F + place[1] - m_middleY) * m_perFocal, 1.0F};
                hits += add(sum, ray, poses[static_cast<std::size_t>(s)]) ? 1 : 0;
            }
            if (hits == 0) {
                continue;
            }
            float* pixel = picture.pixel(x, y);
            const float behind = (total - static_cast<float>(hits)) / total;
            pixel[0] = behind * pixel[0] + sum.red / total;
            pixel[1] = behind * pixel[1] + sum.green / total;
            pixel[2] = behind * pixel[2] + sum.blue / total;
        }
    }

private:
    bool add(LinearColour& sum, const Eigen::Vector3f& ray, const Pose& pose) const {
        const float perRay = 1.0F / ray.squaredNorm();
        const float nearest = ray.dot(pose.centreM) * perRay;
        const Eigen::Vector3f beside = pose.centreM - nearest * ray;
        const float inside = m_radius * m_radius - beside.squaredNorm();
        if (inside <= 0.0F) {
            return false;
        }
        const Eigen::Vector3f normal = (-beside - std::sqrt(inside * perRay) * ray) / m_radius;
        const Eigen::Vector3f own = pose.ballFromCamera.lazyProduct(normal);
        const LinearColour albedo = m_surface.albedo({own.x(), own.y(), own.z()});
        const LinearColour light = shaded(albedo, normal, std::sqrt(perRay) * ray, m_scenery);
        sum.red += light.red;
        sum.green += light.green;
        sum.blue += light.blue;
        return true;
    }

    const SamplePlaces& m_places;
    const BallSurface& m_surface;
    const Scenery& m_scenery;
    float m_perFocal;
    float m_middleX;
    float m_middleY;
    float m_radius;
};

}  // namespace

// NOLINTNEXTLINE(bugprone-easily-swappable-parameters)
SamplePlaces::SamplePlaces(int samples, double lensBlurPx, std::uint64_t seed)
    : m_samples{samples} {
    // The plastic-number sequence covers a square evenly; each set is shifted at random.
    constexpr double kStepX = 0.7548776662466927;
    constexpr double kStepY = 0.5698402909980532;
    RandomNumbers random{mixed(seed, 0x9ACE5)};
    for (int set = 0; set < kSets; ++set) {
        const double shiftX = random.uniform();
        const double shiftY = random.uniform();
        for (int s = 0; s < samples; ++s) {
            const double x = std::fmod(shiftX + s * kStepX, 1.0) - 0.5;
            const double y = std::fmod(shiftY + s * kStepY, 1.0) - 0.5;
            m_places.push_back(static_cast<float>(x + lensBlurPx * random.normal()));
            m_places.push_back(static_cast<float>(y + lensBlurPx * random.normal()));
        }
    }
}

Seconds exposureTimeOfBall(const FlightPath& path, const PinholeCamera& camera,
                           const Exposure& exposure) {
    Seconds time = exposure.row0Middle;
    const double readout = exposure.shutter.readout.seconds;
    constexpr int kRounds = 12;  // each gains a factor of 10 or more: a ball crosses few rows
    for (int i = 0; i < kRounds && readout > 0.0; ++i) {
        const double y = camera.project(path.at(time).positionM).y;
        time.seconds = exposure.row0Middle.seconds + y / camera.heightPx * readout;
    }
    return time;
}

PixelRect drawBall(LightPicture& picture, const PinholeCamera& camera, const Exposure& exposure,
                   const Light& light, const SamplePlaces& places, const Flight& flight,
                   const FlightPath& path, const BallSurface& surface) {
    const double radiusM = 0.5 * flight.ball.diameterM;
    if (!isInFrontOfCamera(path, exposure.row0Middle, radiusM)) {
        return {};
    }
    const PixelRect rect = reachOf(picture, camera, exposure, path, radiusM, 1.0);
    const Scenery scenery{.towardsLight = toFloat(unitOf(light.towardsLight)),
                          .direct = static_cast<float>(light.direct),
                          .ambientAbove = static_cast<float>(light.ambientAbove),
                          .ambientBelow = static_cast<float>(light.ambientBelow),
                          .highlight = flight.ball.highlight,
                          .highlightExponent = flight.ball.highlightExponent,
                          .varnish = flight.ball.varnish};
    const RowCaster caster{camera, places, surface, scenery, radiusM};
    std::vector<Pose> poses(static_cast<std::size_t>(places.samples()));
    const bool isRolling = exposure.shutter.readout.seconds > 0.0;
    for (int y = rect.top; y < rect.bottom; ++y) {
        if (isRolling || y == rect.top) {
            const double rowMiddle = exposure.row0Middle.seconds +
                                     (y + 0.5) / camera.heightPx * exposure.shutter.readout.seconds;
            for (std::size_t s = 0; s < poses.size(); ++s) {
                const double share =
                    (static_cast<double>(s) + 0.5) / static_cast<double>(poses.size()) - 0.5;
                poses[s] = poseAt(path, {rowMiddle + share * exposure.shutter.exposure.seconds});
            }
        }
        caster.cast(picture, y, rect, poses);
    }
    return rect;
}

}  // namespace core::synthesis
