#include "core/synthesis/scene_renderer.h"

#include <algorithm>
#include <cmath>

#include "core/synthesis/ball_drawing.h"
#include "core/synthesis/figure_drawing.h"
#include "core/synthesis/random_numbers.h"

namespace core::synthesis {
namespace {

using Level = SensorModel::Level;

/// Background pixels kept beyond the border for a swaying camera, in standard deviations: three
/// waves of amplitude sqrt(2/3) reach 2.45.
constexpr double kSwayReach = 2.5;

/// Stored values of a picture before noise.
std::vector<Level> levelsOf(const SensorModel& sensor, const std::vector<float>& light) {
    std::vector<Level> levels(light.size());
    std::transform(light.begin(), light.end(), levels.begin(),
                   [&](float value) { return sensor.level(value); });
    return levels;
}

class Renderer final : public SceneRenderer {
public:
    explicit Renderer(Scene scene)
        : m_scene{std::move(scene)},
          m_schedule{scheduleOf(m_scene)},
          m_sensor{m_scene.sensor, m_scene.seed},
          m_places{m_scene.samplesPerPixel, m_scene.sensor.lensBlurPx, m_scene.seed},
          m_margin{static_cast<int>(std::ceil(kSwayReach * m_scene.shakePx))},
          m_background{paintBackground(m_scene.background, m_scene.camera.widthPx + 2 * m_margin,
                                       m_scene.camera.heightPx + 2 * m_margin,
                                       m_scene.sensor.lensBlurPx, m_scene.backgroundSeed)},
          m_picture{m_scene.camera.widthPx, m_scene.camera.heightPx} {
        for (std::size_t i = 0; i < m_scene.flights.size(); ++i) {
            m_paths.emplace_back(m_scene.flights[i], m_scene.air);
            m_surfaces.emplace_back(m_scene.flights[i], mixed(m_scene.seed, i));
        }
        placeBackground({});
    }

    [[nodiscard]] const CaptureSchedule& schedule() const noexcept override { return m_schedule; }

    [[nodiscard]] PixelBuffer render(timebase::FrameIndex frame) override {
        CORE_EXPECTS(frame.value >= 0 &&
                     frame.value < static_cast<std::int64_t>(m_schedule.frames.size()));
        const ScheduledFrame& what = m_schedule.frames[static_cast<std::size_t>(frame.value)];
        const PicturePoint sway = swayAt(m_scene, what.shownTime);
        if (m_margin > 0) {
            placeBackground(sway);
        }
        drawWhatMoves(what.shownTime, sway);
        PixelBuffer bytes = exposed(static_cast<std::uint64_t>(what.shownInstant));
        restore();
        return bytes;
    }

private:
    /// Fills picture and levels with the background, moved by a part of a pixel where needed.
    void placeBackground(const PicturePoint& sway) {
        const auto shiftX = static_cast<float>(m_margin - sway.x);
        const auto shiftY = static_cast<float>(m_margin - sway.y);
        const int left = static_cast<int>(std::floor(shiftX));
        const int top = static_cast<int>(std::floor(shiftY));
        const float shareX = shiftX - static_cast<float>(left);
        const float shareY = shiftY - static_cast<float>(top);
        const int lastX = m_background.width - 1;
        const int lastY = m_background.height - 1;
        for (int y = 0; y < m_picture.height; ++y) {
            for (int x = 0; x < m_picture.width; ++x) {
                const float* a = m_background.pixel(x + left, y + top);
                const float* b = m_background.pixel(std::min(x + left + 1, lastX), y + top);
                const float* c = m_background.pixel(x + left, std::min(y + top + 1, lastY));
                const float* d =
                    m_background.pixel(std::min(x + left + 1, lastX), std::min(y + top + 1, lastY));
                float* to = m_picture.pixel(x, y);
                for (int k = 0; k < 3; ++k) {
                    to[k] = std::lerp(std::lerp(a[k], b[k], shareX), std::lerp(c[k], d[k], shareX),
                                      shareY);
                }
            }
        }
        m_levels = levelsOf(m_sensor, m_picture.light);
        if (m_margin == 0) {
            m_backgroundLevels = m_levels;
        }
    }

    void drawWhatMoves(Seconds time, const PicturePoint& sway) {
        PinholeCamera camera = m_scene.camera;
        camera.shift = {camera.shift.x + sway.x, camera.shift.y + sway.y};
        if (m_scene.figure) {
            changed(drawFigure(m_picture, m_scene, sway, time));
        }
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < m_paths.size(); ++i) {
            if (m_paths[i].isUnderWay(time)) {
                order.push_back(i);
            }
        }
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return m_paths[a].at(time).positionM[2] > m_paths[b].at(time).positionM[2];
        });
        const Exposure exposure{time, m_scene.shutter};
        for (const std::size_t i : order) {
            changed(drawBall(m_picture, camera, exposure, m_scene.light, m_places,
                             m_scene.flights[i], m_paths[i], m_surfaces[i]));
        }
    }

    void changed(const PixelRect& rect) {
        if (rect.isEmpty()) {
            return;
        }
        m_changed.push_back(rect);
        for (int y = rect.top; y < rect.bottom; ++y) {
            const std::ptrdiff_t first = offset(rect.left, y);
            const std::ptrdiff_t end = offset(rect.right, y);
            std::transform(m_picture.light.begin() + first, m_picture.light.begin() + end,
                           m_levels.begin() + first,
                           [&](float value) { return m_sensor.level(value); });
        }
    }

    /// Takes what moved out of picture and levels again.
    void restore() {
        for (const PixelRect& rect : m_changed) {
            for (int y = rect.top; m_margin == 0 && y < rect.bottom; ++y) {
                const std::ptrdiff_t first = offset(rect.left, y);
                const std::ptrdiff_t end = offset(rect.right, y);
                std::copy(m_background.light.begin() + first, m_background.light.begin() + end,
                          m_picture.light.begin() + first);
                std::copy(m_backgroundLevels.begin() + first, m_backgroundLevels.begin() + end,
                          m_levels.begin() + first);
            }
        }
        m_changed.clear();
    }

    [[nodiscard]] PixelBuffer exposed(std::uint64_t picture) const {
        PixelBuffer bytes{m_picture.width, m_picture.height, PixelFormat::Rgb8};
        for (int y = 0; y < m_picture.height; ++y) {
            m_sensor.expose(m_levels.data() + offset(0, y), bytes.row(y),
                            3U * static_cast<std::size_t>(m_picture.width), picture, y);
        }
        return bytes;
    }

    [[nodiscard]] std::ptrdiff_t offset(int x, int y) const noexcept {
        return 3 * (static_cast<std::ptrdiff_t>(y) * m_picture.width + x);
    }

    Scene m_scene;
    CaptureSchedule m_schedule;
    SensorModel m_sensor;
    SamplePlaces m_places;
    int m_margin;
    LightPicture m_background;
    LightPicture m_picture;
    std::vector<Level> m_levels;
    std::vector<Level> m_backgroundLevels;
    std::vector<FlightPath> m_paths;
    std::vector<BallSurface> m_surfaces;
    std::vector<PixelRect> m_changed;
};

}  // namespace

Result<std::unique_ptr<SceneRenderer>> SceneRenderer::create(Scene scene) {
    BOOST_OUTCOME_TRY(checkScene(scene));
    return std::make_unique<Renderer>(std::move(scene));
}

}  // namespace core::synthesis
