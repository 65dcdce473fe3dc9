#pragma once

#include <QKeyEvent>
#include <QSizeF>
#include <optional>

#include "ui/reading/shot/shot_view.h"

namespace ui::reading {

/// Showing where the ball is by keys: a ring that the arrow keys move over the picture, by ten
/// pixels of it or, with Shift, by one; + and - change its radius. Plain value in picture pixels.
class SceneAim {
public:
    /// Begins at the ball if it is known, else in the middle.
    SceneAim(std::optional<BallRing> ball, double usualRadiusPx, QSizeF picturePx);

    /// False for a key that does neither.
    bool move(const QKeyEvent& key);
    [[nodiscard]] const BallRing& ring() const noexcept { return m_ring; }

    /// Whether a key belongs to pointing at the ball.
    [[nodiscard]] static bool isMove(const QKeyEvent& key);

private:
    BallRing m_ring;
    QSizeF m_picturePx;
};

}  // namespace ui::reading
