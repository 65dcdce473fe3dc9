#pragma once

#include <vector>

#include "core/synthesis/background.h"
#include "core/synthesis/ball_surface.h"
#include "core/synthesis/flight_path.h"

namespace core::synthesis {

/// Half-open rectangle of pixels.
struct PixelRect {
    int left{};
    int top{};
    int right{};
    int bottom{};
    [[nodiscard]] bool isEmpty() const noexcept { return left >= right || top >= bottom; }
};

/// Places of the samples of one pixel: a few sets, chosen by pixel, each spread evenly over the
/// pixel and blurred as by the lens. Immutable.
class SamplePlaces {
public:
    static constexpr int kSets = 61;
    SamplePlaces(int samples, double lensBlurPx, std::uint64_t seed);
    [[nodiscard]] int samples() const noexcept { return m_samples; }
    /// Sample s of set k, from the pixel's centre, in pixels: {x, y}.
    [[nodiscard]] const float* place(int set, int sample) const noexcept {
        return m_places.data() + 2 * (static_cast<std::ptrdiff_t>(set) * m_samples + sample);
    }

private:
    int m_samples;
    std::vector<float> m_places;
};

/// One picture's exposure.
struct Exposure {
    Seconds row0Middle;  ///< capture time of row 0, middle of its exposure
    Shutter shutter;
};

/// Capture time at which the row that holds the ball's projected centre is exposed: solves
/// t = row0Middle + (y(t)/H) readout.
[[nodiscard]] Seconds exposureTimeOfBall(const FlightPath& path, const PinholeCamera& camera,
                                         const Exposure& exposure);

/// Draws the ball over a picture by casting rays: every sample of a pixel has its own instant of
/// the exposure (of that pixel's row) and its own place in the pixel; light is averaged linearly.
/// Shading: Lambert's law under one light, two-sided ambient light, a highlight (Blinn 1977), and
/// the mirror image of sky and ground in a coat of varnish.
/// Returns the pixels that may have changed.
PixelRect drawBall(LightPicture& picture, const PinholeCamera& camera, const Exposure& exposure,
                   const Light& light, const SamplePlaces& places, const Flight& flight,
                   const FlightPath& path, const BallSurface& surface);

}  // namespace core::synthesis
