#include <algorithm>

#include "core/publish/drawing/axis.h"
#include "core/publish/figures/figures.h"
#include "core/publish/page/pair_words.h"

namespace core::publish {
namespace {

using findings::Comparison;

constexpr std::size_t kMaxImplements = 40;  ///< more would be too small to see
constexpr double kMatrixNamePt = 150.0;

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
            return {Shape::Square, Ink::Series1, true};
        case PairWord::Equivalent:
            return {Shape::Disc, Ink::Series3, true};
        case PairWord::NotSettled:
            return {Shape::Disc, Ink::Soft, false};
    }
    return {Shape::Disc, Ink::Soft, false};
}

void drawPairCell(std::vector<Drawn>& drawn, const Comparison& table, std::size_t row,
                  std::size_t column, PointPt centre, double cellPt) {
    const auto* pair = table.pair(table.ranked[row].implement, table.ranked[column].implement);
    if (pair == nullptr) {
        return;
    }
    const auto look = lookOf(pairWord(*pair));
    drawn.emplace_back(GroupStart{pair->sentence});
    drawn.emplace_back(
        Marker{centre, look.shape, look.ink, std::min(11.0, 0.55 * cellPt), look.isFilled});
    drawn.emplace_back(GroupEnd{});
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
            Text{{30.0, y + 12.0}, std::string{wordsOf(word)}, Anchor::Start, 10.0, Ink::Soft});
        y += 15.0;
    }
    return y;
}

}  // namespace

Figure pairsFigure(const findings::Findings& findings, const FigureOrigin& origin) {
    Figure figure;
    const Comparison& table = findings.together();
    const std::size_t count = table.ranked.size();
    if (table.pairs.empty() || count < 2 || count > kMaxImplements) {
        return figure;
    }
    figure.name = "pairs";
    figure.title = "Which implements can be told apart";
    figure.caption =
        "Each mark compares the implement of its row with the one whose number stands above; all "
        "pairs are judged together at the 95 % level.";
    figure.description = figure.caption;
    const double left = 12.0 + kMatrixNamePt;
    const double cellPt =
        std::min(26.0, (kFigureWidthPt - 12.0 - left) / static_cast<double>(count));
    const double textPt = std::clamp(0.6 * cellPt, 5.0, 10.5);
    const double top = 22.0;
    for (std::size_t row = 0; row < count; ++row) {
        const double y = top + cellPt * (static_cast<double>(row) + 0.5);
        const std::string number = std::to_string(row + 1);
        figure.drawn.emplace_back(
            Line{{12.0, y + cellPt / 2.0},
                 {left + cellPt * static_cast<double>(count), y + cellPt / 2.0},
                 Ink::Grid,
                 0.6});
        figure.drawn.emplace_back(
            Text{{12.0, y + 0.35 * textPt},
                 cutToWidth(number + "  " + table.ranked[row].name, kMatrixNamePt - 6.0, textPt),
                 Anchor::Start,
                 textPt});
        figure.drawn.emplace_back(
            Text{{left + cellPt * (static_cast<double>(row) + 0.5), top - 6.0},
                 number,
                 Anchor::Middle,
                 textPt,
                 Ink::Soft});
        for (std::size_t column = 0; column < count; ++column) {
            const double x = left + cellPt * (static_cast<double>(column) + 0.5);
            if (column == row) {
                figure.drawn.emplace_back(
                    Line{{x - cellPt / 4.0, y}, {x + cellPt / 4.0, y}, Ink::Grid, 1.2});
                continue;
            }
            drawPairCell(figure.drawn, table, row, column, {x, y}, cellPt);
        }
    }
    const double bottom = top + cellPt * static_cast<double>(count);
    finishFigure(figure, drawPairLegend(figure.drawn, table, bottom + 6.0), origin);
    return figure;
}

}  // namespace core::publish
