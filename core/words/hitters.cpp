#include <algorithm>
#include <cmath>
#include <vector>

#include "core/base/words.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::words {
namespace {

using findings::InteractionCell;
using Together = std::span<const InteractionCell>;

/// "hitter B's 2150 rpm is the highest of their 9 implements (…)" and so on.
std::string standingOf(const InteractionCell& cell) {
    const std::string mean = rpm(cell.meanRpm, cell.meanSigmaRpm);
    const std::string others = rpm(cell.othersRpm, cell.meanSigmaRpm);
    const std::size_t count = cell.implements;
    if (cell.above == 0) {
        return saidOf(
            count,
            "hitter {}'s {} is the highest of their {} implement (the others are {} on average)",
            "hitter {}'s {} is the highest of their {} implements (the others are {} on average)",
            cell.hitterName, mean, count, others);
    }
    if (cell.above + 1 == count) {
        return saidOf(
            count,
            "hitter {}'s {} is the lowest of their {} implement (the others are {} on average)",
            "hitter {}'s {} is the lowest of their {} implements (the others are {} on average)",
            cell.hitterName, mean, count, others);
    }
    return saidOf(
        count, "hitter {}'s {} is number {} of their {} implement (the others are {} on average)",
        "hitter {}'s {} is number {} of their {} implements (the others are {} on average)",
        cell.hitterName, mean, cell.above + 1, count, others);
}

std::string sizeOf(const InteractionCell& cell) {
    return rpm(std::abs(cell.departureRpm), cell.standardErrorRpm);
}

std::string ofOneCell(const InteractionCell& cell, Advice advice) {
    const std::string p = pWords(cell.adjustedP);
    return (cell.departureRpm < 0.0
                ? said("With {}, hitter {} is {} below what their other results predict ({}).",
                       cell.implementName, cell.hitterName, sizeOf(cell), p)
                : said("With {}, hitter {} is {} above what their other results predict ({}).",
                       cell.implementName, cell.hitterName, sizeOf(cell), p)) +
           (advice == Advice::With ? said(" Film this cell again before you trust the average.")
                                   : std::string{});
}

std::string ofOneImplement(Together cells, Advice advice) {
    std::vector<std::string> hitters;
    std::vector<std::string> standings;
    for (const InteractionCell& cell : cells) {
        hitters.push_back(said("hitter {}", cell.hitterName));
        standings.push_back(standingOf(cell));
    }
    const InteractionCell& likeliest = cells.front();
    return said(
               "With {}, {} differ by {} more than their other results predict ({}); the readings "
               "do not show which cell is odd: {}.",
               likeliest.implementName, joined(hitters), sizeOf(likeliest),
               pWords(likeliest.adjustedP), joined(standings)) +
           (advice == Advice::With ? said(" Film both again before you trust the average.")
                                   : std::string{});
}

std::string ofSeveral(Together cells, Advice advice) {
    std::vector<std::string> names;
    for (const InteractionCell& cell : cells) {
        names.push_back(said("{} with hitter {}", cell.implementName, cell.hitterName));
    }
    const InteractionCell& likeliest = cells.front();
    return said(
               "One of these cells differs by {} from what the others predict, and the readings do "
               "not show which: {} ({}).",
               sizeOf(likeliest), joined(names), pWords(likeliest.adjustedP)) +
           (advice == Advice::With ? said(" Film them again before you trust the average.")
                                   : std::string{});
}

}  // namespace

std::string sentence(Together cells, Advice advice) {
    if (cells.size() < 2) {
        return cells.empty() ? std::string{} : ofOneCell(cells.front(), advice);
    }
    const bool isOneImplement = std::ranges::all_of(cells, [&](const InteractionCell& cell) {
        return cell.implement == cells.front().implement;
    });
    return isOneImplement ? ofOneImplement(cells, advice) : ofSeveral(cells, advice);
}

std::string sentence(const findings::HitterPair& pair, std::optional<Rpm> step, Advice advice) {
    if (!pair.difference) {
        return advice == Advice::Without ? std::string{} : whyNot(pair.difference.whyNot());
    }
    return said(
               "{}: hitter {} gets {} than hitter {}; {}.", pair.implementName, pair.firstName,
               difference(*pair.difference), pair.secondName,
               pair.difference->pValue < 0.05 ? said("they differ") : said("no difference shown")) +
           (step ? " " + verdict(pair.verdict, *step) : std::string{});
}

std::string sentence(const findings::HitterFindings& hitters, Advice advice) {
    using Kind = findings::WhyNot::Kind;
    const auto& anova = hitters.typeThree ? hitters.typeThree : hitters.typeTwo;
    if (!anova) {
        const auto& why = anova.whyNot();
        return advice == Advice::Without ? std::string{}
               : why.kind == Kind::NoHitter || why.kind == Kind::OneHitter
                   ? whyNot(why)
                   : said("Implement and hitter together cannot be analysed: {}", whyNot(why));
    }
    if (!anova->interaction) {
        return said(
            "Whether hitter and implement act together cannot be said: too many cells are "
            "missing.");
    }
    const auto& test = anova->interaction->test;
    const std::string numbers =
        said("(interaction: F = {:.2f} with {:.0f} and {:.0f} degrees of freedom, {})", test.f,
             test.dof.numerator.value, test.dof.denominator.value, pWords(test.pValue));
    if (test.pValue >= 0.05) {
        return said(
            "As far as these shots can tell, the implements differ alike for every hitter {}.",
            numbers);
    }
    return said("The hitters do not get the same differences from the implements {}.", numbers) +
           (advice == Advice::With
                ? said(" Look at each hitter alone before you trust the average.")
                : std::string{});
}

std::string missingSentence(const findings::HitterFindings& hitters) {
    const std::size_t count = hitters.missing.size();
    return count == 0
               ? std::string{}
               : saidOf(count,
                        "{} cell has too few kept shots, or readings that do not differ at all. "
                        "Whether hitter and implement act together there cannot be estimated, sums "
                        "of squares of type III are not defined, and marginal means are given only "
                        "for implements that every hitter has struck.",
                        "{} cells have too few kept shots, or readings that do not differ at all. "
                        "Whether hitter and implement act together there cannot be estimated, sums "
                        "of squares of type III are not defined, and marginal means are given only "
                        "for implements that every hitter has struck.",
                        count);
}

}  // namespace core::words
