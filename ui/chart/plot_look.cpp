#include "ui/chart/plot_look.h"

#include <array>

#include "ui/chart/series_drawing.h"
#include "ui/style/data_palette.h"
#include "ui/style/tokens.h"

namespace ui::chart {

void dressPlot(QCustomPlot& plot, const QPalette& palette, const QFont& font) {
    const QColor ink = palette.text().color();
    const QColor quiet = style::colour(style::Token::Quiet, palette);
    const QColor grid = style::colour(style::Token::Line, palette);
    plot.setBackground(palette.base());
    for (QCPAxis* axis : {plot.xAxis, plot.yAxis}) {
        axis->setBasePen(QPen{quiet});
        axis->setTickPen(QPen{quiet});
        axis->setSubTickPen(QPen{quiet});
        axis->setTickLabelColor(ink);
        axis->setLabelColor(ink);
        axis->setTickLabelFont(font);
        axis->setLabelFont(font);
        axis->grid()->setPen(QPen{grid, 0.0, Qt::DotLine});
        axis->grid()->setZeroLinePen(Qt::NoPen);
    }
}

QCPScatterStyle scatterOf(core::report::SeriesLook look, const QPalette& palette, double sizePx) {
    constexpr std::array kShapes{QCPScatterStyle::ssDisc,
                                 QCPScatterStyle::ssSquare,
                                 QCPScatterStyle::ssTriangle,
                                 QCPScatterStyle::ssDiamond,
                                 QCPScatterStyle::ssTriangleInverted,
                                 QCPScatterStyle::ssPlus};
    const QColor colour = colourOf(look, palette);
    return {kShapes.at(static_cast<std::size_t>(look.shape)), QPen{colour, 1.6}, QBrush{colour},
            sizePx};
}

QCPItemText* makePlotTip(QCustomPlot& plot, const QPalette& palette, const QFont& font) {
    auto* tip = new QCPItemText{&plot};
    tip->setVisible(false);
    tip->setPadding(QMargins{6, 3, 6, 3});
    tip->setBrush(palette.toolTipBase());
    tip->setColor(palette.toolTipText().color());
    tip->setPen(QPen{style::colour(style::Token::Quiet, palette)});
    tip->setFont(font);
    return tip;
}

}  // namespace ui::chart
