#include "core/synthesis/figure_drawing.h"

#include <algorithm>
#include <cmath>

namespace core::synthesis {
namespace {

/// A thick line with round ends, in pixels.
struct Limb {
    PicturePoint from;
    PicturePoint to;
    double radiusPx{};
    LinearColour colour;
};

constexpr double kSwingS = 0.16;  // from the top of the back swing to the strike
constexpr double kStepsPerSecond = 1.6;
const Colour kSkin{0.72F, 0.55F, 0.45F};
const Colour kTrousers{0.22F, 0.22F, 0.24F};
const Colour kShaft{0.70F, 0.25F, 0.28F};

/// Angle of the arm from straight down, positive forwards: hanging, then through the strike.
double armAngle(const Scene& scene, double timeS) {
    double angle = 0.25 * std::sin(2.0 * kPi * kStepsPerSecond * timeS);
    for (const Flight& flight : scene.flights) {
        const double phase = (timeS - flight.strike.seconds) / kSwingS;
        if (!flight.isDecoy && std::abs(phase) < 1.0) {
            angle = 0.5 * kPi + 1.1 * std::sin(0.5 * kPi * phase);
        }
    }
    return angle;
}

PicturePoint along(const PicturePoint& from, double angleFromDown, double lengthPx) {
    return {from.x + lengthPx * std::sin(angleFromDown),
            from.y + lengthPx * std::cos(angleFromDown)};
}

std::vector<Limb> limbsAt(const Scene& scene, const PicturePoint& sway, double timeS) {
    const MovingFigure& figure = *scene.figure;
    const double width = scene.camera.widthPx;
    const double tall = figure.height * scene.camera.heightPx;
    const PicturePoint feet{width * (figure.startX + figure.walkPerSecond * timeS) + sway.x,
                            scene.camera.heightPx * (1.0 - figure.feetAboveBottom) + sway.y};
    const PicturePoint hip{feet.x, feet.y - 0.48 * tall};
    const PicturePoint neck{feet.x, feet.y - 0.83 * tall};
    const double step = 0.35 * std::sin(2.0 * kPi * kStepsPerSecond * timeS);
    const double arm = armAngle(scene, timeS);
    const PicturePoint hand = along(neck, arm, 0.30 * tall);
    const LinearColour trousers = toLight(kTrousers);
    const LinearColour shirt = toLight(figure.shirt);
    const LinearColour skin = toLight(kSkin);
    return {
        {hip, along(hip, step, 0.48 * tall), 0.055 * tall, trousers},
        {hip, along(hip, -step, 0.48 * tall), 0.055 * tall, trousers},
        {neck, along(neck, -0.5 * arm, 0.32 * tall), 0.030 * tall, shirt},
        {hip, neck, 0.10 * tall, shirt},
        {{neck.x, neck.y - 0.09 * tall}, {neck.x, neck.y - 0.10 * tall}, 0.065 * tall, skin},
        {hand, along(hand, arm, 0.30 * tall), 0.012 * tall, toLight(kShaft)},
        {along(hand, arm, 0.30 * tall), along(hand, arm, 0.36 * tall), 0.05 * tall,
         toLight(kShaft)},
        {neck, hand, 0.032 * tall, skin},
    };
}

double distanceTo(const Limb& limb, double x, double y) {
    const double dx = limb.to.x - limb.from.x;
    const double dy = limb.to.y - limb.from.y;
    const double length2 = dx * dx + dy * dy;
    const double share =
        std::clamp(((x - limb.from.x) * dx + (y - limb.from.y) * dy) / length2, 0.0, 1.0);
    const double besideX = x - limb.from.x - share * dx;
    const double besideY = y - limb.from.y - share * dy;
    return std::sqrt(besideX * besideX + besideY * besideY);
}

PixelRect drawLimb(LightPicture& picture, const Limb& limb) {
    const double reach = limb.radiusPx + 1.0;
    const auto low = [&](double a, double b, int most) {
        return std::clamp(static_cast<int>(std::floor(std::min(a, b) - reach)), 0, most);
    };
    const auto high = [&](double a, double b, int most) {
        return std::clamp(static_cast<int>(std::ceil(std::max(a, b) + reach)), 0, most);
    };
    const PixelRect rect{
        low(limb.from.x, limb.to.x, picture.width), low(limb.from.y, limb.to.y, picture.height),
        high(limb.from.x, limb.to.x, picture.width), high(limb.from.y, limb.to.y, picture.height)};
    for (int y = rect.top; y < rect.bottom; ++y) {
        for (int x = rect.left; x < rect.right; ++x) {
            const double outside = distanceTo(limb, x + 0.5, y + 0.5) - limb.radiusPx;
            const auto cover = static_cast<float>(std::clamp(0.5 - outside, 0.0, 1.0));
            float* pixel = picture.pixel(x, y);
            pixel[0] = std::lerp(pixel[0], limb.colour.red, cover);
            pixel[1] = std::lerp(pixel[1], limb.colour.green, cover);
            pixel[2] = std::lerp(pixel[2], limb.colour.blue, cover);
        }
    }
    return rect;
}

}  // namespace

PixelRect drawFigure(LightPicture& picture, const Scene& scene, const PicturePoint& sway,
                     Seconds captureTime) {
    PixelRect all{picture.width, picture.height, 0, 0};
    for (const Limb& limb : limbsAt(scene, sway, captureTime.seconds)) {
        const PixelRect rect = drawLimb(picture, limb);
        if (!rect.isEmpty()) {
            all = {std::min(all.left, rect.left), std::min(all.top, rect.top),
                   std::max(all.right, rect.right), std::max(all.bottom, rect.bottom)};
        }
    }
    return all;
}

}  // namespace core::synthesis
