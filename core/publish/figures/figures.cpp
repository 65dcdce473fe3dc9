#include "core/publish/figures/figures.h"

#include <fmt/format.h>

#include <numeric>
#include <utility>

#include "core/base/words.h"

namespace core::publish {

void finishFigure(Figure& figure, double bottomPt, const FigureOrigin& origin) {
    constexpr double kLinePt = 13.0;
    figure.widthPt = figure.widthPt > 0.0 ? figure.widthPt : kFigureWidthPt;
    double y = bottomPt + 2.0;
    for (const auto& line : wrapToWidth(origin.text, kFigureWidthPt - 16.0, kLeastTextPt)) {
        y += kLinePt;
        figure.drawn.emplace_back(
            Text{{figure.widthPt - 8.0, y}, line, Anchor::End, kLeastTextPt, Ink::Soft});
    }
    figure.heightPt = y + 6.0;
}

std::vector<FigureRows> figureRows(const std::vector<std::size_t>& rowsOf) {
    const std::size_t rows = std::accumulate(rowsOf.begin(), rowsOf.end(), std::size_t{0});
    const std::size_t pages = (rows + kMostFigureRows - 1) / kMostFigureRows;
    std::vector<FigureRows> figures;
    std::size_t onThis = 0;
    for (std::size_t group = 0; group < rowsOf.size(); ++group) {
        const bool isFull =
            onThis > 0 && (onThis + rowsOf[group] > kMostFigureRows || onThis * pages >= rows);
        if (figures.empty() || isFull) {
            figures.push_back({group, group});
            onThis = 0;
        }
        figures.back().behindLast = group + 1;
        onThis += rowsOf[group];
    }
    return figures;
}

void numberFigure(Figure& figure, std::size_t k, std::size_t of) {
    if (of > 1) {
        figure.title += " " + said("({} of {})", k + 1, of);
    }
    if (k > 0) {
        figure.name += fmt::format("-{}", k + 1);
    }
}

std::vector<Figure> figuresOf(const findings::Findings& findings, const FigureOrigin& origin) {
    std::vector<Figure> figures = rankedFigures(findings, origin);
    const auto add = [&figures](std::vector<Figure> more) {
        for (auto& figure : more) {
            if (!figure.drawn.empty()) {
                figures.push_back(std::move(figure));
            }
        }
    };
    add(hittersFigures(findings, origin));
    add({driftFigure(findings, origin)});
    add({agreementFigure(findings, origin)});
    add(pairsFigures(findings, origin));
    return figures;
}

}  // namespace core::publish
