#include "ui/chart/plot_look.h"

namespace ui::chart {

void dressPlot(QCustomPlot& plot, const QPalette& palette, const QFont& font) {
    const QColor ink = palette.text().color();
    const QColor quiet = style::mutedText(palette);
    QColor grid = quiet;
    grid.setAlphaF(0.25F);
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

QCPScatterStyle scatterOf(const style::SeriesLook& look, const QPalette& palette, double sizePx) {
    const QColor colour = style::dataColour(look.colour, palette);
    QCPScatterStyle::ScatterShape shape = QCPScatterStyle::ssDisc;
    switch (look.shape) {
        case style::Shape::Square:
            shape = QCPScatterStyle::ssSquare;
            break;
        case style::Shape::Diamond:
            shape = QCPScatterStyle::ssDiamond;
            break;
        case style::Shape::TriangleUp:
            shape = QCPScatterStyle::ssTriangle;
            break;
        case style::Shape::TriangleDown:
            shape = QCPScatterStyle::ssTriangleInverted;
            break;
        case style::Shape::Cross:
            shape = QCPScatterStyle::ssCross;
            break;
        case style::Shape::Ring:
        case style::Shape::DoubleRing:
            shape = QCPScatterStyle::ssCircle;
            break;
        default:
            break;
    }
    return {shape, QPen{colour, 1.6}, QBrush{colour}, sizePx};
}

QCPItemText* makePlotTip(QCustomPlot& plot, const QPalette& palette, const QFont& font) {
    auto* tip = new QCPItemText{&plot};
    tip->setVisible(false);
    tip->setPadding(QMargins{6, 3, 6, 3});
    tip->setBrush(palette.toolTipBase());
    tip->setColor(palette.toolTipText().color());
    tip->setPen(QPen{style::mutedText(palette)});
    tip->setFont(font);
    return tip;
}

}  // namespace ui::chart
