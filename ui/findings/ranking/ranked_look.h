#pragma once

#include <QColor>
#include <QFont>
#include <QPalette>
#include <QString>
#include <QStringList>

#include "ui/models/ranked_table_model.h"

class QPainter;
class QFontMetrics;

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
/// A name in one line, or in two where it is too long, broken between words. What still does not
/// fit loses its beginning.
[[nodiscard]] QStringList nameLines(const QString& name, const QFontMetrics& one,
                                    const QFontMetrics& two, int width);

}  // namespace ui::findings
