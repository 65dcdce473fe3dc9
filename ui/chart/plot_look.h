#pragma once

#include <qcustomplot.h>

#include "core/report/series_look.h"

/// How the charts look in this palette. For the sources of this folder only.
namespace ui::chart {

void dressPlot(QCustomPlot& plot, const QPalette& palette, const QFont& font);
[[nodiscard]] QCPScatterStyle scatterOf(core::report::SeriesLook look, const QPalette& palette,
                                        double sizePx);
/// A hidden label for what is pointed at, above everything else.
[[nodiscard]] QCPItemText* makePlotTip(QCustomPlot& plot, const QPalette& palette,
                                       const QFont& font);

}  // namespace ui::chart
