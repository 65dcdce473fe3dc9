#include <fmt/format.h>

#include <algorithm>

#include "core/base/words.h"
#include "core/publish/drawing/axis.h"
#include "core/publish/figures/figures.h"
#include "core/publish/page/pair_words.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"

namespace core::publish {
namespace {

using findings::Comparison;

constexpr std::size_t kMostInMatrix = 28;  ///< more would be too small to read
constexpr std::size_t kNextRanks = 20;
constexpr double kMostPairNamePt = 160.0;
constexpr double kLeastCellPt = 30.0;  ///< holds a number of four digits
constexpr double kMostCellPt = 36.0;
constexpr double kPairRowPt = 24.0;  ///< holds the number and its mark, or two lines of a name

/// How a verdict looks; shape and word double the colour.
struct PairLook {
    Shape shape;
    Ink ink;
    bool isFilled;
};

PairLook lookOf(PairWord word) {
    switch (word) {
        case PairWord::AtLeastStep:
            return {Shape::Square, Ink::Series2, true};
        case PairWord::LessThanStep:
            return {Shape::Diamond, Ink::Series5, true};
        case PairWord::Differs:
            return {Shape::TriangleUp, Ink::Series1, true};
        case PairWord::Equivalent:
            return {Shape::Disc, Ink::Series3, true};
        case PairWord::NotSettled:
            return {Shape::Disc, Ink::Soft, false};
    }
    return {Shape::Disc, Ink::Soft, false};
}

/// An implement as the rows call it: its place, and its name in one line or two.
struct PairName {
    std::string place;  ///< "3  "
    std::vector<std::string> lines;

    [[nodiscard]] double placePt() const { return roughWidthPt(place, kLeastTextPt); }
    [[nodiscard]] double widthPt() const { return placePt() + widestPt(lines, kLeastTextPt); }
};

double widestNamePt(const std::vector<PairName>& names) {
    double widest = 0.0;
    for (const PairName& name : names) {
        widest = std::max(widest, name.widthPt());
    }
    return widest;
}

/// Rows are implements from the highest mean down. Columns are the implements from the second on,
/// or, of many, those so many ranks below.
struct PairGrid {
    const Comparison& table;
    std::optional<Rpm> step;
    FigureRows rows;
    std::size_t columns{};
    bool isBand{};
    const std::vector<PairName>& names;
    double cellPt{};
    double topPt{22.0};

    [[nodiscard]] double leftPt() const { return 14.0 + widestNamePt(names); }
    [[nodiscard]] PointPt centreOf(std::size_t row, std::size_t column) const {
        return {leftPt() + cellPt * (static_cast<double>(column) + 0.5),
                topPt + kPairRowPt * (static_cast<double>(row - rows.first) + 0.5)};
    }
    [[nodiscard]] double bottomPt() const {
        return topPt + kPairRowPt * static_cast<double>(rows.behindLast - rows.first);
    }
    /// Position of the implement of a column.
    [[nodiscard]] std::size_t otherOf(std::size_t row, std::size_t column) const {
        return isBand ? row + 1 + column : column + 1;
    }
};

void drawPair(std::vector<Drawn>& drawn, const findings::PairFinding& pair, std::optional<Rpm> step,
              PointPt centre) {
    const auto look = lookOf(pairWord(pair));
    drawn.emplace_back(GroupStart{words::sentence(pair, step)});
    drawn.emplace_back(Text{{centre.x, centre.y - 1.0},
                            report::fixed(pair.differenceRpm, 0),
                            Anchor::Middle,
                            kLeastTextPt,
                            look.isFilled ? Ink::Text : Ink::Soft});
    drawn.emplace_back(
        Marker{{centre.x, centre.y + 6.0}, look.shape, look.ink, 8.0, look.isFilled});
    drawn.emplace_back(GroupEnd{});
}

void drawPairHeadings(std::vector<Drawn>& drawn, const PairGrid& grid) {
    constexpr double kLinePt = 11.5;
    for (std::size_t column = 0; column < grid.columns; ++column) {
        const PointPt centre = grid.centreOf(grid.rows.first, column);
        drawn.emplace_back(
            Text{{centre.x, grid.topPt - 6.0},
                 grid.isBand ? fmt::format("+{}", column + 1) : std::to_string(column + 2),
                 Anchor::Middle,
                 kLeastTextPt,
                 Ink::Soft});
    }
    for (std::size_t row = grid.rows.first; row < grid.rows.behindLast; ++row) {
        const PointPt centre = grid.centreOf(row, 0);
        const double bottom = centre.y + kPairRowPt / 2.0;
        const double right = grid.leftPt() + grid.cellPt * static_cast<double>(grid.columns);
        drawn.emplace_back(Line{{8.0, bottom}, {right, bottom}, Ink::Grid, 0.6});
        const PairName& name = grid.names[row];
        const double upPt = 0.5 * kLinePt * static_cast<double>(name.lines.size() - 1);
        double base = centre.y + 0.35 * kLeastTextPt - upPt;
        drawn.emplace_back(Text{{8.0, base}, name.place});
        for (const std::string& line : name.lines) {
            drawn.emplace_back(Text{{8.0 + name.placePt(), base}, line});
            base += kLinePt;
        }
    }
}

double drawPairLegend(std::vector<Drawn>& drawn, const Comparison& table, double top) {
    double y = top;
    for (const PairWord word : {PairWord::AtLeastStep, PairWord::Differs, PairWord::LessThanStep,
                                PairWord::Equivalent, PairWord::NotSettled}) {
        const bool isUsed = std::any_of(
            table.pairs.begin(), table.pairs.end(),
            [word](const findings::PairFinding& pair) { return pairWord(pair) == word; });
        if (!isUsed) {
            continue;
        }
        const auto look = lookOf(word);
        drawn.emplace_back(Marker{{18.0, y + 8.0}, look.shape, look.ink, 8.0, look.isFilled});
        drawn.emplace_back(
            Text{{30.0, y + 12.0}, wordsOf(word), Anchor::Start, kLeastTextPt, Ink::Soft});
        y += 15.0;
    }
    return y;
}

std::vector<PairName> numberedNames(const Comparison& table) {
    std::vector<PairName> names;
    for (const auto& row : table.ranked) {
        PairName name{fmt::format("{}  ", names.size() + 1),
                      wrapToWidth(row.name, kMostPairNamePt, kLeastTextPt)};
        if (name.lines.size() > 2) {
            std::string rest;
            for (std::size_t line = 1; line < name.lines.size(); ++line) {
                rest += (line == 1 ? "" : " ") + name.lines[line];
            }
            name.lines.resize(1);
            name.lines.push_back(cutToWidth(rest, kMostPairNamePt, kLeastTextPt));
        }
        names.push_back(std::move(name));
    }
    return names;
}

Figure pairsPart(const PairGrid& grid, const FigureOrigin& origin) {
    Figure figure;
    figure.name = "pairs";
    figure.title = said("Which implements can be told apart");
    figure.caption = grid.isBand ? said(
                                       "By how many rpm the implement of the row has more spin "
                                       "than the one so many ranks below; the table \"pairs\" has "
                                       "the pairs that are more than {} ranks apart.",
                                       grid.columns)
                                 : said(
                                       "By how many rpm the implement of the row has more spin "
                                       "than the one whose number stands above.");
    figure.caption += " " + said("All pairs are judged together at the 95 % level.");
    figure.description = figure.caption;
    figure.widthPt = std::max(
        kFigureWidthPt, grid.leftPt() + grid.cellPt * static_cast<double>(grid.columns) + 12.0);
    drawPairHeadings(figure.drawn, grid);
    const auto& ranked = grid.table.ranked;
    for (std::size_t row = grid.rows.first; row < grid.rows.behindLast; ++row) {
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const std::size_t other = grid.otherOf(row, column);
            const auto* pair = other > row && other < ranked.size()
                                   ? grid.table.pair(ranked[row].implement, ranked[other].implement)
                                   : nullptr;
            if (pair != nullptr) {
                drawPair(figure.drawn, *pair, grid.step, grid.centreOf(row, column));
            }
        }
    }
    finishFigure(figure, drawPairLegend(figure.drawn, grid.table, grid.bottomPt() + 6.0), origin);
    return figure;
}

}  // namespace

std::vector<Figure> pairsFigures(const findings::Findings& findings, const FigureOrigin& origin) {
    const Comparison& table = findings.together();
    const std::size_t count = table.ranked.size();
    std::vector<Figure> figures;
    if (table.pairs.empty() || count < 2) {
        return figures;
    }
    const bool isBand = count > kMostInMatrix;
    const std::size_t columns = isBand ? kNextRanks : count - 1;
    const auto names = numberedNames(table);
    const double room = kFigureWidthPt - 22.0 - widestNamePt(names);
    const double cellPt =
        std::clamp(room / static_cast<double>(columns), kLeastCellPt, kMostCellPt);
    const auto parts = figureRows(std::vector<std::size_t>(count, 1));
    for (const FigureRows& rows : parts) {
        figures.push_back(pairsPart(
            {table, findings.noticeableStep, rows, columns, isBand, names, cellPt}, origin));
        numberFigure(figures.back(), figures.size() - 1, parts.size());
    }
    return figures;
}

}  // namespace core::publish
