#include "core/synthesis/ball_surface.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

using Place = std::array<float, 3>;

constexpr int kGrainSide = 48;
constexpr float kBandHalfWidth = 0.22F;   // of the radius
constexpr float kDotRadius = 0.28F;       // radians, nearly
constexpr float kSeamHalfWidth = 0.075F;  // of the radius
constexpr float kBlobRadius = 0.40F;
constexpr Place kDotPlace{0.80F, 0.60F, 0.0F};
constexpr Place kBlobPlace{-0.60F, 0.48F, 0.64F};

float dot(const Place& a, const Place& b) noexcept {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

bool isInDot(const Place& p, const Place& middle, float radius) noexcept {
    return dot(p, middle) > 1.0F - 0.5F * radius * radius;
}

/// The line F = z - 2 x y = 0 on the sphere, drawn to even width: |F| over the length of the part
/// of its gradient that lies in the sphere.
bool isInSeam(const Place& p) noexcept {
    const float value = p[2] - 2.0F * p[0] * p[1];
    const Place gradient{-2.0F * p[1], -2.0F * p[0], 1.0F};
    const float radial = dot(gradient, p);
    const float along = dot(gradient, gradient) - radial * radial;
    return value * value < kSeamHalfWidth * kSeamHalfWidth * along;
}

/// Letters of five rows, printed on one of the four lobe ends, away from the seam.
bool isInPrint(const Place& p) noexcept {
    constexpr std::array<std::string_view, 5> kLetters{"####.#..#.###..#..#",  //
                                                       ".##..#..#.#..#.##.#",  //
                                                       ".##..#..#.###..####",  //
                                                       ".##..#..#.#.#..#.##",  //
                                                       ".##..####.#..#.#..#"};
    constexpr Place kMiddle{0.6124F, -0.6124F, 0.5F};
    constexpr Place kAlong{-0.7071F, -0.7071F, 0.0F};
    constexpr Place kAcross{-0.3536F, 0.3536F, 0.8660F};
    constexpr float kCellWidth = 0.062F;  // of the radius
    constexpr float kCellHeight = 0.099F;
    if (dot(p, kMiddle) < 0.5F) {
        return false;
    }
    const auto column = static_cast<int>(std::floor(dot(p, kAlong) / kCellWidth + 9.5F));
    const auto row = static_cast<int>(std::floor(dot(p, kAcross) / kCellHeight + 2.5F));
    if (column < 0 || column >= 19 || row < 0 || row >= 5) {
        return false;
    }
    return kLetters[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] == '#';
}

/// Cell of the cube that the direction p meets.
std::size_t cubeCell(const Place& p) noexcept {
    const Place size{std::abs(p[0]), std::abs(p[1]), std::abs(p[2])};
    std::size_t axis = size[0] > size[1] ? 0 : 1;
    axis = size[2] > size[axis] ? 2 : axis;
    const float scale = 0.5F * kGrainSide / size[axis];
    const auto cell = [&](std::size_t along) {
        return std::clamp(static_cast<int>(p[along] * scale + 0.5F * kGrainSide), 0,
                          kGrainSide - 1);
    };
    const std::size_t face = 2 * axis + (p[axis] < 0.0F ? 1 : 0);
    const int u = cell((axis + 1) % 3);
    const int v = cell((axis + 2) % 3);
    return face * kGrainSide * kGrainSide + static_cast<std::size_t>(v * kGrainSide + u);
}

Place hiddenPoleOf(const Flight& flight) {
    // The end of the axis that points away from the camera, in the ball's own frame.
    Vector3 away = unitOf(flight.spinRadPerS);
    if (away[2] < 0.0) {
        away = scaled(away, -1.0);
    }
    const Quaternion& q = flight.attitude;
    const Vector3 own = rotated({q.w, -q.x, -q.y, -q.z}, away);
    return {static_cast<float>(own[0]), static_cast<float>(own[1]), static_cast<float>(own[2])};
}

}  // namespace

bool isMarked(Marking marking, const Place& p, const Place& hiddenPole) noexcept {
    switch (marking) {
        case Marking::ThreeQuartersDark:
            return p[0] > 0.0F && p[1] > 0.0F;
        case Marking::HalfDark:
            return p[0] < 0.0F;
        case Marking::Band:
            return std::abs(p[0]) < kBandHalfWidth;
        case Marking::BandWithDot:
            return std::abs(p[0]) < kBandHalfWidth || isInDot(p, kDotPlace, kDotRadius);
        case Marking::SeamWithBlob:
            return isInSeam(p) || isInDot(p, kBlobPlace, kBlobRadius);
        case Marking::SeamWithPrint:
            return isInSeam(p) || isInPrint(p);
        case Marking::Plain:
            return false;
        case Marking::Hidden:
            return isInDot(p, hiddenPole, kDotRadius);
    }
    return false;
}

BallSurface::BallSurface(const Flight& flight, std::uint64_t seed)
    : m_marking{flight.ball.marking},
      m_base{toLight(flight.ball.base)},
      m_mark{toLight(flight.ball.mark)} {
    if (m_marking == Marking::Hidden) {
        m_hiddenPole = hiddenPoleOf(flight);
    }
    RandomNumbers random{mixed(seed, 0x62A11)};
    m_grain.reserve(6U * kGrainSide * kGrainSide);
    for (int i = 0; i < 6 * kGrainSide * kGrainSide; ++i) {
        const double relative = 1.0 + static_cast<double>(flight.ball.grain) * random.normal();
        m_grain.push_back(static_cast<float>(std::clamp(relative, 0.0, 2.0)));
    }
}

LinearColour BallSurface::albedo(const Place& p) const noexcept {
    const LinearColour& colour = isMarkedAt(p) ? m_mark : m_base;
    const float grain = m_grain[cubeCell(p)];
    return {grain * colour.red, grain * colour.green, grain * colour.blue};
}

}  // namespace core::synthesis
