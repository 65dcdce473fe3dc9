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
constexpr double kGroupGapPt = 4.0;
constexpr double kNameBesidePt = 120.0;

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

/// What all parts of the figure have in common.
struct HittersLook {
    std::map<project::HitterId, std::size_t> series;
    Axis::Range range;
    double labelPt{};
    bool showsSession{};
    bool isNameAbove{};

    [[nodiscard]] double boxLeftPt() const {
        return 12.0 + labelPt + (isNameAbove ? 0.0 : kNameBesidePt);
    }
    [[nodiscard]] double heightPtOf(const ImplementCells& group) const {
        return (isNameAbove ? kHitterNameRowPt : 0.0) +
               kHitterRowPt * static_cast<double>(group.cells.size()) + kGroupGapPt;
    }
};

struct HittersChart {
    const HittersLook& look;
    Box box;
    Axis axis;
    std::vector<Drawn> drawn{};
};

void drawHitterCell(HittersChart& chart, const CellRow& cell, double y) {
    chart.drawn.emplace_back(GroupStart{cellWords(cell)});
    const std::string label =
        chart.look.showsSession ? cell.hitterName + ", " + cell.sessionName : cell.hitterName;
    chart.drawn.emplace_back(Text{{chart.box.left - 8.0, y + 3.5},
                                  cutToWidth(label, chart.look.labelPt - 4.0, 9.5),
                                  Anchor::End,
                                  9.5,
                                  Ink::Soft});
    const auto look = report::seriesLook(chart.look.series.at(cell.hitter));
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

Figure hittersPart(const std::vector<ImplementCells>& groups, const FigureRows& rows,
                   const HittersLook& look, const FigureOrigin& origin) {
    double height = kGroupGapPt;
    for (std::size_t i = rows.first; i < rows.behindLast; ++i) {
        height += look.heightPtOf(groups[i]);
    }
    Figure figure;
    figure.name = "hitters";
    figure.title = "Mean spin by implement and hitter with 95 % intervals";
    const Box box{look.boxLeftPt(), 8.0, kFigureWidthPt - 12.0, 8.0 + height};
    HittersChart chart{look, box, Axis{look.range, box.left, box.right}};
    drawHorizontalAxis(chart.drawn, box, chart.axis, "spin, rpm");
    double y = box.top + kGroupGapPt;
    for (std::size_t i = rows.first; i < rows.behindLast; ++i) {
        const ImplementCells& group = groups[i];
        const double namePt = look.isNameAbove ? 11.0 : 9.5;
        const double nameRoom = look.isNameAbove ? kFigureWidthPt - 24.0 : kNameBesidePt - 4.0;
        chart.drawn.emplace_back(Text{{12.0, y + (look.isNameAbove ? 11.0 : 10.0)},
                                      cutToWidth(group.name, nameRoom, namePt),
                                      Anchor::Start,
                                      namePt});
        double rowY = y + (look.isNameAbove ? kHitterNameRowPt : 0.0) + kHitterRowPt / 2.0;
        for (const auto* cell : group.cells) {
            drawHitterCell(chart, *cell, rowY);
            figure.description +=
                (figure.description.empty() ? "" : "; ") + group.name + ", " + cellWords(*cell);
            rowY += kHitterRowPt;
        }
        y += look.heightPtOf(group);
    }
    figure.drawn = std::move(chart.drawn);
    finishFigure(figure, box.bottom + 34.0, origin);
    return figure;
}

}  // namespace

std::vector<Figure> hittersFigures(const Findings& findings, const FigureOrigin& origin) {
    std::vector<Figure> figures;
    const auto groups = cellsInOrderOfRank(findings);
    const HittersLook look{seriesOfHitters(groups), cellRange(groups),
                           hasSeveralSessions(groups) ? 110.0 : 70.0, hasSeveralSessions(groups),
                           groups.size() <= kMostNamesAbove};
    if (look.series.size() < 2) {
        return figures;
    }
    std::vector<std::size_t> rowsOf;
    for (const auto& group : groups) {
        rowsOf.push_back(group.cells.size());
    }
    const auto parts = figureRows(rowsOf);
    for (const FigureRows& rows : parts) {
        figures.push_back(hittersPart(groups, rows, look, origin));
        figures.back().caption = findings.hitters.sentence;
        numberFigure(figures.back(), figures.size() - 1, parts.size());
    }
    return figures;
}

}  // namespace core::publish
