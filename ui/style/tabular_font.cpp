#include "ui/style/tabular_font.h"

#include <QFontDatabase>
#include <QFontMetricsF>

namespace ui::style {

QFont tabularFont(const QFont& font) {
    const QFontMetricsF metrics{font};
    constexpr double kTolerancePx = 0.01;  // rounding of advances at fractional sizes
    const double zero = metrics.horizontalAdvance(QLatin1Char('0'));
    bool isTabular = true;
    for (char digit = '1'; digit <= '9'; ++digit) {
        isTabular = isTabular &&
                    std::abs(metrics.horizontalAdvance(QLatin1Char(digit)) - zero) < kTolerancePx;
    }
    if (isTabular) {
        return font;
    }
    QFont fixed = QFontDatabase::systemFont(QFontDatabase::FixedFont);
    font.pixelSize() > 0 ? fixed.setPixelSize(font.pixelSize())
                         : fixed.setPointSizeF(font.pointSizeF());
    fixed.setWeight(font.weight());
    return fixed;
}

}  // namespace ui::style
