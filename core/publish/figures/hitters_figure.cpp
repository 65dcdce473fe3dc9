#include <algorithm>
#include <map>

#include "core/base/words.h"
#include "core/publish/drawing/axis.h"
#include "core/publish/figures/figures.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"

namespace core::publish {
namespace {

using findings::Findings;
using report::CellRow;

constexpr double kHitterRowPt = 14.0;
constexpr double kHitterNameRowPt = 16.0;
constexpr double kGroupGapPt = 4.0;
constexpr double kMostHittersNamePt = 140.0;
constexpr double kMostLabelPt = 90.0;

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
    const double sigma = mean.standardUncertaintyRpm.value_or(0.0);
    std::string line = said("hitter {}, {}: {} rpm", cell.hitterName, cell.sessionName,
                            report::withDigitsOf(mean.meanRpm, sigma));
    if (mean.interval95) {
        line += ", 95 % " +
                report::intervalText(mean.interval95->low.rpm, mean.interval95->high.rpm, sigma);
    }
    return line + ", " + counted(cell.counts.kept, "shot", "shots");
}

std::string cellLabel(const CellRow& cell, bool showsSession) {
    return showsSession ? cell.hitterName + ", " + cell.sessionName : cell.hitterName;
}

/// What all parts of the figure have in common.
struct HittersLook {
    std::map<project::HitterId, std::size_t> series;
    Axis::Range range;
    bool showsSession{};
    bool isNameAbove{};
    std::vector<std::string> names{};  ///< of the groups, as long as there is room
    double labelPt{};

    [[nodiscard]] double boxLeftPt() const {
        return 8.0 + labelPt + (isNameAbove ? 0.0 : widestPt(names, kLeastTextPt) + 6.0);
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
    const std::string label = cellLabel(cell, chart.look.showsSession);
    chart.drawn.emplace_back(Text{{chart.box.left - 8.0, y + 3.5},
                                  cutToWidth(label, chart.look.labelPt - 4.0, kLeastTextPt),
                                  Anchor::End,
                                  kLeastTextPt,
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
    figure.title = said("Mean spin by implement and hitter with 95 % intervals");
    const Box box{look.boxLeftPt(), 8.0, kFigureWidthPt - 8.0, 8.0 + height};
    HittersChart chart{look, box, Axis{look.range, box.left, box.right}};
    drawHorizontalAxis(chart.drawn, box, chart.axis, said("spin, rpm"));
    double y = box.top + kGroupGapPt;
    for (std::size_t i = rows.first; i < rows.behindLast; ++i) {
        const ImplementCells& group = groups[i];
        chart.drawn.emplace_back(Text{{8.0, y + 11.0}, look.names[i]});
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

HittersLook lookOfHitters(const std::vector<ImplementCells>& groups) {
    HittersLook look{seriesOfHitters(groups), cellRange(groups), hasSeveralSessions(groups),
                     groups.size() <= kMostNamesAbove};
    std::vector<std::string> names;
    std::vector<std::string> labels;
    for (const auto& group : groups) {
        names.push_back(group.name);
        for (const auto* cell : group.cells) {
            labels.push_back(cellLabel(*cell, look.showsSession));
        }
    }
    look.isNameAbove |= widestPt(names, kLeastTextPt) > kMostHittersNamePt;  // no name is cut
    look.names = namesToWidth(names, kFigureWidthPt - 16.0, kLeastTextPt);
    look.labelPt = std::min(widestPt(labels, kLeastTextPt) + 12.0, kMostLabelPt);
    return look;
}

}  // namespace

std::vector<Figure> hittersFigures(const Findings& findings, const FigureOrigin& origin) {
    std::vector<Figure> figures;
    const auto groups = cellsInOrderOfRank(findings);
    const HittersLook look = lookOfHitters(groups);
    if (look.series.size() < 2) {
        return figures;
    }
    std::vector<std::size_t> rowsOf;
    for (const auto& group : groups) {
        rowsOf.push_back(group.cells.size() + (look.isNameAbove ? 1 : 0));
    }
    const auto parts = figureRows(rowsOf);
    for (const FigureRows& rows : parts) {
        figures.push_back(hittersPart(groups, rows, look, origin));
        figures.back().caption = words::sentence(findings.hitters, words::Advice::Without);
        numberFigure(figures.back(), figures.size() - 1, parts.size());
    }
    return figures;
}

}  // namespace core::publish
