#pragma once

#include <QColor>
#include <QFont>
#include <QPalette>

#include "ui/models/ranked_table_model.h"

class QPainter;

/// Inks and fonts of the ranking.
namespace ui::findings {

inline constexpr int kCellSidePx = 6;  ///< left and right of what stands in a cell
inline constexpr int kSignPx = 22;     ///< room for the sign of a remark

/// Second words.
[[nodiscard]] const QFont& smallFont(const QFont& font);
[[nodiscard]] const QFont& boldFont(const QFont& font);
[[nodiscard]] const QFont& smallBoldFont(const QFont& font);
/// The sign of a remark; each kind has its own shape.
void drawRemarkSign(QPainter& painter, models::RemarkKind kind, QPointF centre,
                    const QPalette& palette);
}  // namespace ui::findings
