#pragma once

#include <QColor>
#include <QPalette>

#include "core/report/series_look.h"
#include "ui/style/data_palette.h"

/// Colour and shape of a data series on the screen.
namespace ui::chart {

[[nodiscard]] QColor colourOf(core::report::SeriesLook look, const QPalette& palette);
[[nodiscard]] style::Shape shapeOf(core::report::SeriesLook look);

}  // namespace ui::chart
