#pragma once

#include <string>
#include <vector>

#include "core/findings/findings.h"
#include "core/publish/figures/figure.h"

/// The figures of a publication. Each is 420 points wide, so that its words can be read on a phone,
/// and as high as it needs to be.
namespace core::publish {

inline constexpr double kFigureWidthPt = 420.0;

/// What stands small at the foot of every figure: project, revision, program.
struct FigureOrigin {
    std::string text;
};

/// Implements from the highest mean down with their 95 % intervals and letters; the hitters' own
/// means as markers; bands shaded; the noticeable step as a ruler.
[[nodiscard]] Figure rankedFigure(const findings::Findings& findings, const FigureOrigin& origin);
/// For each implement the hitters' means with intervals, one under the other. Only where there are
/// two hitters or more.
[[nodiscard]] Figure hittersFigure(const findings::Findings& findings, const FigureOrigin& origin);
/// Shots in the order of the film, spin less the level of the cell, one panel a hitter and session.
[[nodiscard]] Figure driftFigure(const findings::Findings& findings, const FigureOrigin& origin);
/// Difference of two determinations of one shot against their mean, with the limits of agreement
/// (Bland and Altman 1986).
[[nodiscard]] Figure agreementFigure(const findings::Findings& findings,
                                     const FigureOrigin& origin);
/// Every implement against every other: what can be said of the difference.
[[nodiscard]] Figure pairsFigure(const findings::Findings& findings, const FigureOrigin& origin);

/// All of them that have something to show, in the order above.
[[nodiscard]] std::vector<Figure> figuresOf(const findings::Findings& findings,
                                            const FigureOrigin& origin);

/// The foot line; makes the figure as high as it then is.
void finishFigure(Figure& figure, double bottomPt, const FigureOrigin& origin);

}  // namespace core::publish
