#include "core/synthesis/background.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

constexpr float kGroundFrom = 0.72F;  // of the height
constexpr int kShapes = 9;
const LinearColour kMortar = toLight({0.70F, 0.66F, 0.60F});
const LinearColour kBricks = toLight({0.60F, 0.34F, 0.28F});
const LinearColour kGap = toLight({0.20F, 0.24F, 0.20F});
const LinearColour kTimber = toLight({0.72F, 0.62F, 0.46F});
const LinearColour kLeaves = toLight({0.34F, 0.50F, 0.24F});
const LinearColour kWall = toLight({0.66F, 0.68F, 0.66F});
const LinearColour kSky = toLight({0.55F, 0.68F, 0.85F});
const LinearColour kGrass = toLight({0.38F, 0.46F, 0.30F});

struct Shape {
    float x{};
    float y{};
    float size{};
    bool isRound{};
    LinearColour colour;
};

/// Everything a texture needs; places are in shares of the picture's height.
class Painter {
public:
    Painter(BackgroundKind kind, float aspect, std::uint64_t seed) : m_kind{kind}, m_seed{seed} {
        if (kind != BackgroundKind::Brick && kind != BackgroundKind::Fence) {
            return;
        }
        RandomNumbers random{mixed(seed, 0x5A9E5)};
        for (int i = 0; i < kShapes; ++i) {
            const auto part = [&] { return static_cast<float>(random.uniform()); };
            Shape shape{.x = aspect * part(),
                        .y = 0.05F + 0.55F * part(),
                        .size = 0.03F + 0.06F * part(),
                        .isRound = random.below(2) == 0,
                        .colour = {}};
            shape.colour = toLight({part(), part(), part()});
            m_shapes.push_back(shape);
        }
    }

    [[nodiscard]] LinearColour at(float x, float y) const {
        if (y > kGroundFrom && m_kind != BackgroundKind::Gradient) {
            return ground(x, y);
        }
        for (const Shape& shape : m_shapes) {
            const float dx = std::abs(x - shape.x);
            const float dy = std::abs(y - shape.y);
            const float reach = shape.isRound ? std::hypot(dx, dy) : std::max(dx, dy);
            if (reach < shape.size) {
                return shape.colour;
            }
        }
        switch (m_kind) {
            case BackgroundKind::Brick:
                return brick(x, y);
            case BackgroundKind::Fence:
                return fence(x, y);
            case BackgroundKind::Foliage:
                return foliage(x, y);
            case BackgroundKind::PlainWall:
                return plainWall(x, y);
            case BackgroundKind::Gradient:
                return gradient(x, y);
        }
        return {};
    }

private:
    /// Smooth noise between 0 and 1 with details of size 1 / frequency.
    [[nodiscard]] float noise(float x, float y, float frequency, std::uint64_t layer) const {
        const float u = x * frequency;
        const float v = y * frequency;
        const float u0 = std::floor(u);
        const float v0 = std::floor(v);
        const auto corner = [&](float du, float dv) {
            const auto column = static_cast<std::uint32_t>(static_cast<std::int32_t>(u0 + du));
            const auto row = static_cast<std::uint32_t>(static_cast<std::int32_t>(v0 + dv));
            const std::uint64_t cell = (std::uint64_t{column} << 32U) | row;
            return mixedUnit(cell, m_seed + layer);
        };
        const float a = u - u0;
        const float b = v - v0;
        const float sa = a * a * (3.0F - 2.0F * a);
        const float sb = b * b * (3.0F - 2.0F * b);
        const float top = std::lerp(corner(0, 0), corner(1, 0), sa);
        const float bottom = std::lerp(corner(0, 1), corner(1, 1), sa);
        return std::lerp(top, bottom, sb);
    }

    [[nodiscard]] float octaves(float x, float y, float frequency, std::uint64_t layer) const {
        return 0.5F * noise(x, y, frequency, layer) +
               0.3F * noise(x, y, 2.3F * frequency, layer + 1) +
               0.2F * noise(x, y, 5.1F * frequency, layer + 2);
    }

    static LinearColour tinted(const LinearColour& light, float factor) {
        return {light.red * factor, light.green * factor, light.blue * factor};
    }

    [[nodiscard]] LinearColour brick(float x, float y) const {
        constexpr float kWide = 0.055F;
        constexpr float kHigh = 0.022F;
        constexpr float kJoint = 0.004F;
        const float course = std::floor(y / kHigh);
        const float along = x + 0.5F * kWide * (std::fmod(course, 2.0F) == 0.0F ? 0.0F : 1.0F);
        const float column = std::floor(along / kWide);
        const bool isJoint = y - course * kHigh < kJoint || along - column * kWide < kJoint;
        const float grain = 0.75F + 0.5F * octaves(x, y, 90.0F, 10);
        if (isJoint) {
            return tinted(kMortar, grain);
        }
        const auto id = static_cast<std::uint64_t>(course * 1000.0F + column + 500.0F);
        return tinted(kBricks, grain * (0.6F + 0.8F * mixedUnit(id, m_seed)));
    }

    [[nodiscard]] LinearColour fence(float x, float y) const {
        constexpr float kBoard = 0.060F;
        const float board = std::floor(x / kBoard);
        const float within = (x - board * kBoard) / kBoard;
        if (within > 0.82F) {
            return tinted(kGap, 0.5F + octaves(x, y, 60.0F, 20));
        }
        const auto id = static_cast<std::uint64_t>(board + 500.0F);
        const float streaks = noise(60.0F * x, 4.0F * y, 4.0F, 21);
        return tinted(kTimber, (0.65F + 0.5F * streaks) * (0.75F + 0.5F * mixedUnit(id, m_seed)));
    }

    [[nodiscard]] LinearColour foliage(float x, float y) const {
        const float leaves = octaves(x, y, 35.0F, 30);
        const float bushes = noise(x, y, 5.0F, 33);
        const float light = 0.15F + 1.9F * leaves * leaves + 0.3F * bushes;
        return tinted(kLeaves, light);
    }

    [[nodiscard]] LinearColour plainWall(float x, float y) const {
        return tinted(kWall,
                      0.85F + 0.1F * noise(x, y, 2.0F, 40) + 0.08F * noise(x, y, 120.0F, 41));
    }

    [[nodiscard]] LinearColour gradient(float x, float y) const {
        const float clouds = octaves(x, 2.0F * y, 3.0F, 50);
        return tinted(kSky, 1.15F - 0.75F * y + 0.25F * clouds);
    }

    [[nodiscard]] LinearColour ground(float x, float y) const {
        const float depth = 1.0F + 4.0F * (y - kGroundFrom);
        const float grass = octaves(x / depth, 3.0F * y / depth, 45.0F, 60);
        return tinted(kGrass, 0.6F + 0.8F * grass);
    }

    BackgroundKind m_kind;
    std::uint64_t m_seed;
    std::vector<Shape> m_shapes;
};

}  // namespace

LightPicture::LightPicture(int widthPx, int heightPx) : width{widthPx}, height{heightPx} {
    light.resize(3U * static_cast<std::size_t>(widthPx) * static_cast<std::size_t>(heightPx));
}

float* LightPicture::pixel(int x, int y) noexcept {
    return light.data() + 3 * (static_cast<std::ptrdiff_t>(y) * width + x);
}

const float* LightPicture::pixel(int x, int y) const noexcept {
    return light.data() + 3 * (static_cast<std::ptrdiff_t>(y) * width + x);
}

// NOLINTNEXTLINE(bugprone-easily-swappable-parameters)
LightPicture paintBackground(BackgroundKind kind, int widthPx, int heightPx, double lensBlurPx,
                             std::uint64_t seed) {
    LightPicture picture{widthPx, heightPx};
    const auto height = static_cast<float>(heightPx);
    const Painter painter{kind, static_cast<float>(widthPx) / height, mixed(seed, 0xBAC6)};
    for (int y = 0; y < heightPx; ++y) {
        for (int x = 0; x < widthPx; ++x) {
            const LinearColour colour = painter.at((static_cast<float>(x) + 0.5F) / height,
                                                   (static_cast<float>(y) + 0.5F) / height);
            float* pixel = picture.pixel(x, y);
            pixel[0] = std::clamp(colour.red, 0.0F, 1.0F);
            pixel[1] = std::clamp(colour.green, 0.0F, 1.0F);
            pixel[2] = std::clamp(colour.blue, 0.0F, 1.0F);
        }
    }
    // One sample a pixel leaves jagged edges: half a pixel of smoothing is added to the lens's.
    const double sigma = std::hypot(0.5, lensBlurPx);
    cv::Mat view{heightPx, widthPx, CV_32FC3, picture.light.data()};
    cv::GaussianBlur(view, view, {}, sigma, sigma, cv::BORDER_REPLICATE);
    return picture;
}

}  // namespace core::synthesis
