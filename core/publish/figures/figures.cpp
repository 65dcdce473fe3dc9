#include "core/publish/figures/figures.h"

#include <array>
#include <utility>

namespace core::publish {

void finishFigure(Figure& figure, double bottomPt, const FigureOrigin& origin) {
    constexpr double kSizePt = 7.5;
    figure.widthPt = kFigureWidthPt;
    figure.heightPt = bottomPt + 16.0;
    figure.drawn.emplace_back(Text{{kFigureWidthPt - 8.0, bottomPt + 10.0},
                                   cutToWidth(origin.text, kFigureWidthPt - 16.0, kSizePt),
                                   Anchor::End,
                                   kSizePt,
                                   Ink::Soft});
}

std::vector<Figure> figuresOf(const findings::Findings& findings, const FigureOrigin& origin) {
    std::vector<Figure> figures;
    constexpr std::array kMakers{&rankedFigure, &hittersFigure, &driftFigure, &agreementFigure,
                                 &pairsFigure};
    for (const auto make : kMakers) {
        Figure figure = make(findings, origin);
        if (!figure.drawn.empty()) {
            figures.push_back(std::move(figure));
        }
    }
    return figures;
}

}  // namespace core::publish
