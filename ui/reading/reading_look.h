#pragma once

#include <QColor>
#include <QPainter>
#include <QPalette>
#include <QPixmap>
#include <QString>

#include "core/project/model.h"
#include "ui/style/data_palette.h"
#include "ui/style/sign.h"
#include "ui/style/tokens.h"

/// How marks and decisions look on this screen: a colour and a shape for each.
namespace ui::reading {

struct MarkLook {
    style::DataColour colour;
    style::Shape shape;
};

inline constexpr MarkLook kStartLook{style::DataColour::Orange, style::Shape::Ring};
inline constexpr MarkLook kReturnLook{style::DataColour::SkyBlue, style::Shape::DoubleRing};
inline constexpr MarkLook kAngleLook{style::DataColour::ReddishPurple, style::Shape::Bar};
inline constexpr MarkLook kStrikeLook{style::DataColour::Vermilion, style::Shape::TriangleDown};
inline constexpr MarkLook kWarningLook{style::DataColour::Vermilion, style::Shape::TriangleUp};

/// What is known of a shot, for its icon.
enum class ShotState { Unread, Marked, Kept, Doubtful, SetAside };
[[nodiscard]] ShotState stateOf(const core::project::Shot& shot);
struct SignLook {
    style::Sign sign;
    style::Token token;
};
[[nodiscard]] SignLook signOf(ShotState state);
/// One or two words.
[[nodiscard]] QString nameOf(ShotState state);

/// How a view of pictures begins to paint: smooth, on a ground that lets pictures stand out.
void paintGround(QPainter& painter, const QWidget& view);

/// A number of the project as every screen writes it.
[[nodiscard]] QString fixedText(double value, int decimals);
/// "1491" with as many decimals as the standard uncertainty deserves.
[[nodiscard]] QString valueText(double value, double sigma);
/// "+37.5 ms" after the strike.
[[nodiscard]] QString afterStrikeText(double milliseconds);

}  // namespace ui::reading
