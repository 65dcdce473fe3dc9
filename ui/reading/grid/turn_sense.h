#pragma once

#include <QImage>
#include <optional>
#include <vector>

namespace ui::reading {

/// Which way the mark turns in the plane of the picture.
enum class TurnSense { CounterClockwise, Clockwise };

/// A picture of the ball and its phase at the present rate, in turns after the reference.
struct PhasedPicture {
    QImage picture;
    double turns{};
};

/// The clockwise angle in degrees that turns a picture back to the attitude of the reference.
[[nodiscard]] double turnBackDegrees(double turnsFromReference, TurnSense sense) noexcept;

/// The sense in which neighbouring pictures, turned back by their difference in phase, look more
/// alike (smaller sum of squared differences inside the ball). Absent with fewer than two pictures.
/// An aid for the eye, no part of a reading.
[[nodiscard]] std::optional<TurnSense> likelySense(const std::vector<PhasedPicture>& pictures);

}  // namespace ui::reading
