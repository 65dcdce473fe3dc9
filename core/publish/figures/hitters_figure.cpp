#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "core/publish/drawing/axis.h"
#include "core/publish/figures/figures.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

using findings::Findings;
using report::CellRow;

constexpr double kHitterRowPt = 13.0;
constexpr double kHitterNameRowPt = 16.0;

/// The cells of one implement, and which series each hitter is.
struct ImplementCells {
    std::string name;
    std::vector<const CellRow*> cells;
};

std::vector<ImplementCells> cellsInOrderOfRank(const Findings& findings) {
    std::vector<ImplementCells> groups;
    for (const auto& implement : findings.implements) {
        ImplementCells group{implement.name, {}};
        for (const std::size_t cell : implement.cells) {
            if (findings.cells[cell].row.mean) {
                group.cells.push_back(&findings.cells[cell].row);
            }
        }
        if (!group.cells.empty()) {
            groups.push_back(std::move(group));
        }
    }
    return groups;
}

std::map<project::HitterId, std::size_t> seriesOfHitters(
    const std::vector<ImplementCells>& groups) {
    std::map<project::HitterId, std::size_t> series;
    for (const auto& group : groups) {
        for (const auto* cell : group.cells) {
            series.try_emplace(cell->hitter, 0);
        }
    }
    std::size_t next = 0;
    for (auto& [hitter, index] : series) {
        index = next++;
    }
    return series;
}

bool hasSeveralSessions(const std::vector<ImplementCells>& groups) {
    const std::string* session = nullptr;
    for (const auto& group : groups) {
        for (const auto* cell : group.cells) {
            if (session != nullptr && *session != cell->sessionName) {
                return true;
            }
            session = &cell->sessionName;
        }
    }
    return false;
}

std::string cellWords(const CellRow& cell) {
    const auto& mean = *cell.mean;
    std::string words = "hitter " + cell.hitterName + ", " + cell.sessionName + ": ";
    const double sigma = mean.standardUncertaintyRpm.value_or(0.0);
    words += report::withDigitsOf(mean.meanRpm, sigma) + " rpm";
    if (mean.interval95) {
        words += ", 95 % " +
                 report::intervalText(mean.interval95->low.rpm, mean.interval95->high.rpm, sigma);
    }
    return words + fmt::format(", {} shots", cell.counts.kept);
}

struct HittersChart {
    Box box;
    Axis axis;
    double labelPt;
    bool showsSession;
    std::vector<Drawn> drawn{};
};

void drawHitterCell(HittersChart& chart, const CellRow& cell, std::size_t series, double y) {
    chart.drawn.emplace_back(GroupStart{cellWords(cell)});
    const std::string label =
        chart.showsSession ? cell.hitterName + ", " + cell.sessionName : cell.hitterName;
    chart.drawn.emplace_back(Text{{chart.box.left - 8.0, y + 3.5},
                                  cutToWidth(label, chart.labelPt - 4.0, 9.5),
                                  Anchor::End,
                                  9.5,
                                  Ink::Soft});
    const auto look = report::seriesLook(series);
    const Ink ink = inkOf(look.colour);
    if (cell.mean->interval95) {
        chart.drawn.emplace_back(Line{{chart.axis.at(cell.mean->interval95->low.rpm), y},
                                      {chart.axis.at(cell.mean->interval95->high.rpm), y},
                                      ink,
                                      1.8});
    }
    chart.drawn.emplace_back(Marker{{chart.axis.at(cell.mean->meanRpm), y}, look.shape, ink, 7.0});
    chart.drawn.emplace_back(GroupEnd{});
}

double heightOf(const std::vector<ImplementCells>& groups) {
    double height = 4.0;
    for (const auto& group : groups) {
        height += kHitterNameRowPt + kHitterRowPt * static_cast<double>(group.cells.size()) + 4.0;
    }
    return height;
}

Axis::Range cellRange(const std::vector<ImplementCells>& groups) {
    Axis::Range range = emptyRange();
    for (const auto& group : groups) {
        for (const auto* cell : group.cells) {
            take(range, cell->mean->meanRpm);
            if (cell->mean->interval95) {
                take(range, cell->mean->interval95->low.rpm);
                take(range, cell->mean->interval95->high.rpm);
            }
        }
    }
    return range;
}

}  // namespace

Figure hittersFigure(const Findings& findings, const FigureOrigin& origin) {
    Figure figure;
    const auto groups = cellsInOrderOfRank(findings);
    const auto series = seriesOfHitters(groups);
    if (series.size() < 2) {
        return figure;
    }
    figure.name = "hitters";
    figure.title = "Mean spin by implement and hitter with 95 % intervals";
    figure.caption = findings.hitters.sentence;
    const bool showsSession = hasSeveralSessions(groups);
    const double labelPt = showsSession ? 110.0 : 70.0;
    const Box box{12.0 + labelPt, 8.0, kFigureWidthPt - 12.0, 8.0 + heightOf(groups)};
    HittersChart chart{box, Axis{cellRange(groups), box.left, box.right}, labelPt, showsSession};
    drawHorizontalAxis(chart.drawn, box, chart.axis, "spin, rpm");
    double y = box.top + 4.0;
    for (const auto& group : groups) {
        chart.drawn.emplace_back(
            Text{{12.0, y + 11.0}, cutToWidth(group.name, kFigureWidthPt - 24.0, 11.0)});
        y += kHitterNameRowPt;
        for (const auto* cell : group.cells) {
            drawHitterCell(chart, *cell, series.at(cell->hitter), y + kHitterRowPt / 2.0);
            figure.description +=
                (figure.description.empty() ? "" : "; ") + group.name + ", " + cellWords(*cell);
            y += kHitterRowPt;
        }
        y += 4.0;
    }
    figure.drawn = std::move(chart.drawn);
    finishFigure(figure, box.bottom + 34.0, origin);
    return figure;
}

}  // namespace core::publish
