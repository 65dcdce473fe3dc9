#include "ui/reading/shot/scene_aim.h"

#include <algorithm>

namespace ui::reading {
namespace {

constexpr double kStepPx = 10.0;
constexpr double kFineStepPx = 1.0;
constexpr double kRadiusStepPx = 0.5;
constexpr double kLeastRadiusPx = 2.0;

struct Step {
    QPointF by;
    double radius{};
};

std::optional<Step> stepOf(const QKeyEvent& key) {
    const double step = (key.modifiers() & Qt::ShiftModifier) != 0 ? kFineStepPx : kStepPx;
    switch (key.key()) {
        case Qt::Key_Left:
            return Step{{-step, 0.0}};
        case Qt::Key_Right:
            return Step{{step, 0.0}};
        case Qt::Key_Up:
            return Step{{0.0, -step}};
        case Qt::Key_Down:
            return Step{{0.0, step}};
        case Qt::Key_Plus:
            return Step{{}, kRadiusStepPx};
        case Qt::Key_Minus:
            return Step{{}, -kRadiusStepPx};
        default:
            return std::nullopt;
    }
}

}  // namespace

SceneAim::SceneAim(std::optional<BallRing> ball, double usualRadiusPx, QSizeF picturePx)
    : m_ring{ball ? *ball
                  : BallRing{{picturePx.width() / 2.0, picturePx.height() / 2.0}, usualRadiusPx}},
      m_picturePx{picturePx} {}

bool SceneAim::isMove(const QKeyEvent& key) {
    return (key.modifiers() & (Qt::ControlModifier | Qt::AltModifier)) == 0 &&
           stepOf(key).has_value();
}

bool SceneAim::move(const QKeyEvent& key) {
    if (!isMove(key)) {
        return false;
    }
    const Step step = *stepOf(key);
    m_ring.centrePx += step.by;
    m_ring.centrePx.setX(std::clamp(m_ring.centrePx.x(), 0.0, m_picturePx.width()));
    m_ring.centrePx.setY(std::clamp(m_ring.centrePx.y(), 0.0, m_picturePx.height()));
    m_ring.radiusPx = std::max(kLeastRadiusPx, m_ring.radiusPx + step.radius);
    return true;
}

}  // namespace ui::reading
