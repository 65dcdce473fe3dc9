#include "core/spin/fit/shot_samples.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace core::spin::fit {

namespace {

// Pixels beyond 0.88 of the ball's own radius are left out: foreshortening is above two there, and
// the outline's error becomes an error of the direction.
constexpr double kUsedRadius = 0.88;
const double kLeastSlant = std::sqrt(1.0 - kUsedRadius * kUsedRadius);
// Of the exposure, during which a point must slant less than that.
constexpr double kLeastShareWithin = 0.3;
// Without the background: while the shutter opens and closes a point may be nearer to the rim, but
// must not leave the ball.
constexpr double kLeastSlantAtEnds = 0.3;
constexpr double kLeastShareSeen = 0.6;
// Of the used disc that the ball must cover. On narrower strips a pattern can be made up for any
// rotation: readings of twice the rate came of it. Blocks count by the square of their cover.
constexpr double kLeastShareSteady = 0.17;
// Where the ball comes and goes during the exposure an error of the outline is one of the light: as
// large as other errors when the smear is as long as this.
constexpr double kEdgePx = 3.0;

/// Linear light of the levels of a picture (sRGB, IEC 61966-2-1), 255 is white.
const std::array<float, 256>& lightOfLevels() {
    static const std::array<float, 256> kLight = [] {
        std::array<float, 256> light{};
        for (std::size_t level = 0; level < light.size(); ++level) {
            const double v = static_cast<double>(level) / 255.0;
            light[level] = static_cast<float>(
                255.0 * (v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4)));
        }
        return light;
    }();
    return kLight;
}

struct Block {
    int left{}, top{}, size{};
};

/// Mean light of a block of a picture; absent when it reaches beyond it.
std::optional<Eigen::Vector3f> blockMean(const PixelView& picture, const Block& block) {
    if (block.left < 0 || block.top < 0 || block.left + block.size > picture.width ||
        block.top + block.size > picture.height) {
        return std::nullopt;
    }
    const auto& light = lightOfLevels();
    Eigen::Vector3f sum = Eigen::Vector3f::Zero();
    for (int y = 0; y < block.size; ++y) {
        const std::uint8_t* pixel = picture.row(block.top + y) + 3 * block.left;
        for (int x = 0; x < block.size; ++x, pixel += 3) {
            sum += Eigen::Vector3f{light[pixel[0]], light[pixel[1]], light[pixel[2]]};
        }
    }
    return sum / static_cast<float>(block.size * block.size);
}

/// How a point of the picture is covered.
struct Covered {
    double middle{}, cover{};
    double weight{};  ///< zero where it is of no use
};

Covered coveredAt(const MovingBall& ball, const Eigen::Vector3d& ray, double smearPx,
                  bool isBackgroundKnown) {
    const auto within = ball.whileSlantAbove(ray, kLeastSlant);
    const auto covered = ball.whileSlantAbove(ray, 0.0);
    Covered result{0.5 * (covered.low + covered.high), covered.high - covered.low, 0.0};
    if (within.high - within.low < kLeastShareWithin) {
        return result;
    }
    const bool isAlways = covered.low <= -0.5 && covered.high >= 0.5;
    const bool isSteady = isAlways && ball.slantAt(ray, -0.5) >= kLeastSlantAtEnds &&
                          ball.slantAt(ray, 0.5) >= kLeastSlantAtEnds &&
                          ball.slantAt(ray, 0.0) >= kLeastSlant;
    if (!isSteady && !isBackgroundKnown) {
        return result;
    }
    const double quarter = 0.25 * result.cover;
    result.weight = 0.5 * (ball.slantAt(ray, result.middle - quarter) +
                           ball.slantAt(ray, result.middle + quarter));
    if (!isAlways) {
        result.weight /= 1.0 + std::pow(kEdgePx / smearPx, 2);
    }
    return result;
}

/// Gathers the blocks of one frame.
class Gathering {
public:
    Gathering(const BallFrame& source, const FitCamera& shutter, const Pinhole& camera, int block,
              const FrameSamples& frame)
        : m_source{source},
          m_camera{camera},
          m_frame{frame},
          m_ball{camera, frame.place, frame.smearPx},
          m_size{block},
          m_readout{shutter.readout.seconds},
          m_drift{source.drift.xPx, source.drift.yPx},
          m_rowsPerPx{shutter.rowsPerPx.xPx, shutter.rowsPerPx.yPx} {}

    void add(int x, int y) {
        const Eigen::Vector2d seen{x + 0.5 * m_size, y + 0.5 * m_size};
        const double rows = m_rowsPerPx.dot(seen - m_frame.place.centrePx);
        const Eigen::Vector2d point = seen - rows * m_drift;
        const bool isBehindKnown = !m_source.background.isEmpty();
        const Covered covered =
            coveredAt(m_ball, rayThrough(m_camera, point), m_frame.smearPx.norm(), isBehindKnown);
        if (covered.weight <= 0.0) {
            return;
        }
        const double counted = covered.cover * covered.cover;
        m_wanted += counted;
        const Block block{x - m_source.leftPx, y - m_source.topPx, m_size};
        auto light = blockMean(m_source.picture, block);
        if (!light) {
            return;
        }
        if (covered.cover < 1.0) {
            *light -=
                static_cast<float>(1.0 - covered.cover) * *blockMean(m_source.background, block);
        }
        m_got += counted;
        m_points.emplace_back(point.cast<float>());
        m_light.push_back(*light);
        m_covered.push_back(covered);
        m_late.push_back(static_cast<float>(rows * m_readout));
    }

    [[nodiscard]] bool isEnough() const {
        const double disc = kPi * std::pow(kUsedRadius * m_frame.place.radiusPx / m_size, 2);
        return m_points.size() >= 12 && m_got >= kLeastShareSeen * m_wanted &&
               m_wanted >= kLeastShareSteady * disc;
    }

    void fill(FrameSamples& frame) const {
        const auto n = static_cast<Eigen::Index>(m_points.size());
        frame.pointPx.resize(n, 2);
        frame.light.resize(n, 3);
        frame.weight.resize(n);
        frame.lateS.resize(n);
        frame.middle.resize(n);
        frame.cover.resize(n);
        for (Eigen::Index i = 0; i < n; ++i) {
            const auto k = static_cast<std::size_t>(i);
            frame.pointPx.row(i) = m_points[k].transpose();
            frame.light.row(i) = m_light[k].transpose();
            frame.weight(i) = static_cast<float>(m_covered[k].weight);
            frame.middle(i) = static_cast<float>(m_covered[k].middle);
            frame.cover(i) = static_cast<float>(m_covered[k].cover);
            frame.lateS(i) = m_late[k];
        }
    }

private:
    const BallFrame& m_source;
    const Pinhole& m_camera;
    const FrameSamples& m_frame;
    MovingBall m_ball;
    int m_size;
    double m_readout;
    Eigen::Vector2d m_drift, m_rowsPerPx;
    double m_wanted{}, m_got{};
    std::vector<Eigen::Vector2f> m_points;
    std::vector<Eigen::Vector3f> m_light;
    std::vector<Covered> m_covered;
    std::vector<float> m_late;
};

/// Fills the samples; false when too little of the ball is inside the picture.
bool fillFrame(const BallFrame& source, const FitCamera& shutter, const Pinhole& camera, int block,
               FrameSamples& frame) {
    Gathering gathering{source, shutter, camera, block, frame};
    // The outline is up to 1.3 times as long as wide; the ball may come from as far as its smear.
    const Eigen::Vector2d reach = Eigen::Vector2d::Constant(1.3 * frame.place.radiusPx + block) +
                                  0.5 * frame.smearPx.cwiseAbs();
    const Eigen::Vector2i first = (frame.place.centrePx - reach).array().floor().cast<int>();
    const Eigen::Vector2i last = (frame.place.centrePx + reach).array().ceil().cast<int>();
    for (int y = first.y(); y <= last.y(); y += block) {
        for (int x = first.x(); x <= last.x(); x += block) {
            gathering.add(x, y);
        }
    }
    if (!gathering.isEnough()) {
        return false;
    }
    gathering.fill(frame);
    return true;
}

/// Side of a block: as many blocks on a smeared ball as on one at rest.
int blockSize(const FrameSamples& frame, double blocksPerRadius) {
    const double swept = 1.0 + 2.0 * frame.smearPx.norm() / (kPi * frame.place.radiusPx);
    return std::max(1, static_cast<int>(
                           std::lround(frame.place.radiusPx * std::sqrt(swept) / blocksPerRadius)));
}

}  // namespace

ShotSamples collectSamples(const FitInput& input, double focalPx, double blocksPerRadius) {
    ShotSamples shot;
    shot.camera = {focalPx, {0.5 * input.camera.widthPx, 0.5 * input.camera.heightPx}};
    shot.exposure = input.camera.exposure ? input.camera.exposure->seconds : 0.0;
    for (std::size_t i = 0; i < input.frames.size(); ++i) {
        const BallFrame& source = input.frames[i];
        FrameSamples frame;
        frame.source = i;
        frame.time = source.captureTime.seconds;
        frame.place = {{source.centre.xPx, source.centre.yPx}, source.radiusPx};
        frame.smearPx = {source.smear.xPx, source.smear.yPx};
        frame.centreSigmaPx = source.centreSigmaPx;
        const int block = blockSize(frame, blocksPerRadius);
        if (fillFrame(source, input.camera, shot.camera, block, frame)) {
            shot.relativeRadiusSigma += source.radiusSigmaPx / source.radiusPx;
            shot.frames.push_back(std::move(frame));
        }
    }
    if (!shot.frames.empty()) {
        shot.relativeRadiusSigma /= static_cast<double>(shot.frames.size());
        // Between the two middle frames, so that no frame's time is zero.
        const std::size_t middle = shot.frames.size() / 2;
        shot.referenceTime =
            0.5 * (shot.frames[middle == 0 ? 0 : middle - 1].time + shot.frames[middle].time);
    }
    for (FrameSamples& frame : shot.frames) {
        frame.time -= shot.referenceTime;
    }
    return shot;
}

}  // namespace core::spin::fit
