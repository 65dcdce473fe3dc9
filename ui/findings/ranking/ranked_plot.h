#pragma once

#include <QFont>
#include <QPalette>
#include <QRectF>
#include <optional>
#include <vector>

#include "core/findings/bands.h"
#include "core/publish/drawing/axis.h"
#include "ui/models/ranked_table_model.h"

class QPainter;

/// How the ranking is drawn: one axis for all rows, which its head shows, and in every row a lane
/// for the mean of all and one for each hitter.
namespace ui::findings {

/// Where the marks of a row lie, from its upper edge. Value.
class RankedLanes {
public:
    static constexpr std::size_t kMostWithBars = 5;  ///< hitters; of more only points are drawn

    RankedLanes(std::size_t hitters, bool isCompact, int lineHeight);

    [[nodiscard]] int rowHeight() const noexcept { return m_rowHeight; }
    [[nodiscard]] double own() const noexcept;
    [[nodiscard]] double hitter(std::size_t series) const noexcept;
    /// Whether the hitters' intervals are drawn.
    [[nodiscard]] bool haveBars() const noexcept { return m_haveBars; }
    [[nodiscard]] double ownRadius() const noexcept;
    [[nodiscard]] double hitterRadius() const noexcept { return m_haveBars ? 4.0 : 3.0; }

private:
    [[nodiscard]] double lane(std::size_t at) const noexcept;

    std::size_t m_lanes;  ///< of hitters with bars, and the row's own
    bool m_haveBars;
    int m_rowHeight;
};

/// What head and rows share. Value.
struct RankedPlot {
    core::publish::Axis::Range range{0.0, 1.0};
    std::vector<core::findings::Band> bands;
    double stepRpm{};                  ///< 0 for none
    std::optional<double> rulerLow{};  ///< lower end of the ruler; absent: it is not drawn
    bool areHittersApart{};
    RankedLanes lanes{0, false, 0};

    [[nodiscard]] core::publish::Axis axisOver(double left, double right) const {
        return {range, left, right};
    }
};

/// The means of all rows with their intervals, but for parts of intervals that are far longer than
/// others: those run out of the axis. Wide enough for the step where that is not far wider.
[[nodiscard]] core::publish::Axis::Range rangeOf(const models::RankedTableModel& rows,
                                                 bool areHittersApart, double stepRpm);

/// Bands, lines of the axis and the ends of the ruler, for a row or the head.
void drawPlotGround(QPainter& painter, const RankedPlot& plot, const QRectF& cell,
                    const QPalette& palette);
void drawMarks(QPainter& painter, const RankedPlot& plot, const QRectF& cell,
               const models::RankedMarks& marks, const QPalette& palette);
/// The ruler with its words, below it the bands' names, and the numbers of the axis.
void drawPlotHead(QPainter& painter, const RankedPlot& plot, const QRectF& cell,
                  const QPalette& palette, const QFont& font);
[[nodiscard]] int headHeight(const RankedPlot& plot, int lineHeight);
/// Where the ruler lies in the head; empty when it is not drawn.
[[nodiscard]] QRectF rulerIn(const RankedPlot& plot, const QRectF& cell, double lineHeight);

/// The ring of a row's own mean.
void drawOwnMark(QPainter& painter, QPointF centre, double radius, const QPalette& palette);

}  // namespace ui::findings
