#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/findings/findings.h"
#include "core/publish/figures/figure.h"

/// The figures of a publication. Each is as wide as a phone's page, 390 pixels less the margins,
/// with words of 11 points at least, so that they can be read there; but for the pairs of many
/// implements; and as high as it needs to be. A figure of many rows goes
/// on in further ones, each with the same axis: "ranked", "ranked-2" and so on.
namespace core::publish {

inline constexpr double kFigureWidthPt = 356.0;
inline constexpr std::size_t kMostFigureRows = 40;
/// Up to so many implements their names stand above their rows; names of more stand beside them,
/// where there is room for each.
inline constexpr std::size_t kMostNamesAbove = 12;

/// What stands small at the foot of every figure: project, revision, program.
struct FigureOrigin {
    std::string text;
};

/// Implements from the highest mean down with their 95 % intervals and letters; the hitters' own
/// means as markers; bands shaded; the noticeable step as a ruler.
[[nodiscard]] std::vector<Figure> rankedFigures(const findings::Findings& findings,
                                                const FigureOrigin& origin);
/// For each implement the hitters' means with intervals, one under the other. Only where there are
/// two hitters or more.
[[nodiscard]] std::vector<Figure> hittersFigures(const findings::Findings& findings,
                                                 const FigureOrigin& origin);
/// Shots in the order of the film, spin less the level of the cell, one panel a hitter and session.
[[nodiscard]] Figure driftFigure(const findings::Findings& findings, const FigureOrigin& origin);
/// Difference of two determinations of one shot against their mean, with the limits of agreement
/// (Bland and Altman 1986).
[[nodiscard]] Figure agreementFigure(const findings::Findings& findings,
                                     const FigureOrigin& origin);
/// Every implement against those with less spin: the difference, and what can be said of it by
/// colour and shape. Of more than 28 implements each against the next 20 in the ranks.
[[nodiscard]] std::vector<Figure> pairsFigures(const findings::Findings& findings,
                                               const FigureOrigin& origin);

/// All of them that have something to show, in the order above.
[[nodiscard]] std::vector<Figure> figuresOf(const findings::Findings& findings,
                                            const FigureOrigin& origin);

/// The foot line, over several lines where it is long; makes the figure as high as it then is, and
/// kFigureWidthPt wide where it says nothing of its width.
void finishFigure(Figure& figure, double bottomPt, const FigureOrigin& origin);

/// Rows of one figure of several.
struct FigureRows {
    std::size_t first{};
    std::size_t behindLast{};
};
/// Groups of rows shared out evenly among figures of at most kMostFigureRows rows; a group is not
/// split. `rowsOf`: rows of each group, above zero. The result counts groups.
[[nodiscard]] std::vector<FigureRows> figureRows(const std::vector<std::size_t>& rowsOf);
/// Name and title of the k-th of several figures: "ranked-2", "… (2 of 3)".
void numberFigure(Figure& figure, std::size_t k, std::size_t of);

}  // namespace core::publish
