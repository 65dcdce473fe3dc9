#include <algorithm>
#include <vector>

#include "core/base/words.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::words {
namespace {

using findings::Comparison;
using findings::ComparisonModel;
using findings::PairFinding;
using findings::RankedImplement;

std::vector<std::string> notToldApart(const Comparison& comparison, const RankedImplement& own) {
    std::vector<std::string> names;
    for (const RankedImplement& other : comparison.ranked) {
        const PairFinding* pair = comparison.pair(own.implement, other.implement);
        if (pair != nullptr && !pair->differs) {
            names.push_back(other.name);
        }
    }
    return names;
}

std::string someOf(const std::vector<std::string>& names) {
    constexpr std::size_t kMost = 4;  // of more, all but one are named and the rest counted
    if (names.size() <= kMost) {
        return joined(names);
    }
    const auto others = names.size() - (kMost - 1);
    return said("{}, {}, {}, and {} others", names[0], names[1], names[2], others);
}

std::string firstPlace(const Comparison& comparison) {
    const RankedImplement& first = comparison.ranked.front();
    const auto alike = notToldApart(comparison, first);
    const std::size_t others = comparison.ranked.size() - 1;
    if (alike.empty()) {
        return others == 1
                   ? said("{} gives more spin than {}.", first.name, comparison.ranked.back().name)
                   : said(
                         "{} gives more spin than each of the {} others that were "
                         "compared.",
                         first.name, others);
    }
    return said(
        "Which implement gives the most spin is not settled: {} has the highest mean and cannot be "
        "told apart from {}.",
        first.name, someOf(alike));
}

/// The pair of neighbours in the ranks that the fewest shots would tell apart.
const PairFinding* nearestPair(const Comparison& comparison) {
    const PairFinding* nearest = nullptr;
    for (std::size_t i = 0; i + 1 < comparison.ranked.size(); ++i) {
        const PairFinding* pair =
            comparison.pair(comparison.ranked[i].implement, comparison.ranked[i + 1].implement);
        if (pair != nullptr && !pair->differs && pair->moreShots &&
            (nearest == nullptr || *pair->moreShots < *nearest->moreShots)) {
            nearest = pair;
        }
    }
    return nearest;
}

std::string meanSentence(const RankedImplement& row) {
    const double sigma = row.mean.standardUncertainty;
    return said("{}: {} from {} (95 %: {}).", row.name, rpm(row.mean.value, sigma),
                counted(row.shots, "shot", "shots"), between(row.mean.interval95, sigma));
}

}  // namespace

std::string sentence(const RankedImplement& row, const Comparison& comparison, Advice advice) {
    std::string text = meanSentence(row);
    if (!row.rank) {
        return text + said(" Its rank cannot be said. {}", whyNot(row.rank.whyNot(), advice));
    }
    const std::size_t rows = comparison.ranked.size();
    text += row.rank->lowest == row.rank->highest
                ? said(" Rank {} of {}.", row.rank->lowest, rows)
                : said(" Rank {}; the readings allow {} to {} of {}.", row.rank->rank,
                       row.rank->lowest, row.rank->highest, rows);
    text += said(" Chance to have the most spin: {}.", chance(row.rank->firstChance));
    const auto alike = notToldApart(comparison, row);
    return alike.empty() ? text : text + said(" It cannot be told apart from {}.", someOf(alike));
}

std::string sentence(const PairFinding& pair, std::optional<Rpm> step) {
    const double sigma = pair.standardErrorRpm;
    const std::string size = rpm(pair.differenceRpm, sigma);
    const std::string interval = between(pair.interval95, sigma);
    const std::string p = pWords(pair.adjustedP);
    return (pair.differs
                ? said("{} gives {} more than {} (95 %: {}, {}).", pair.firstName, size,
                       pair.secondName, interval, p)
                : said("{} and {} cannot be told apart: a difference of {} was found, and the "
                       "interval {} holds zero ({}).",
                       pair.firstName, pair.secondName, size, interval, p)) +
           (step ? " " + verdict(pair.verdict, *step) : std::string{});
}

std::string outlook(const PairFinding& pair) {
    if (pair.differs) {
        return said("{} and {} are told apart already.", pair.firstName, pair.secondName);
    }
    return pair.moreShots
               ? saidOf(*pair.moreShots,
                        "About {} more shot in each cell would separate {} and {}, if the "
                        "present difference and scatter are the true ones.",
                        "About {} more shots in each cell would separate {} and {}, if the "
                        "present difference and scatter are the true ones.",
                        *pair.moreShots, pair.firstName, pair.secondName)
               : whyNot(pair.moreShots.whyNot());
}

std::string outlook(const Comparison& comparison) {
    if (const PairFinding* nearest = nearestPair(comparison)) {
        return outlook(*nearest);
    }
    if (comparison.pairs.empty()) {
        return whyNoPairs(comparison);
    }
    return std::ranges::all_of(comparison.pairs, &PairFinding::differs)
               ? said("Every pair of implements is told apart already.")
               : said(
                     "No reasonable number of shots would separate the neighbours in the ranks "
                     "that are not told apart yet.");
}

std::string whyNoPairs(const Comparison& comparison, Advice advice) {
    return comparison.whyNoPairs ? whyNot(*comparison.whyNoPairs, advice) : std::string{};
}

std::string testSentence(const Comparison& comparison, Advice advice) {
    if (!comparison.welch) {
        return whyNot(comparison.welch.whyNot(), advice);
    }
    const auto& test = *comparison.welch;
    const std::string numbers =
        said("{}: F = {:.2f} with {:.0f} and {:.1f} degrees of freedom, {}",
             comparison.model == ComparisonModel::CellMeans
                 ? "Welch"
                 : said("adjusted for hitter and filming day"),
             test.f, test.dof.numerator.value, test.dof.denominator.value, pWords(test.pValue));
    return test.pValue < 0.05 ? said("The implements differ ({}).", numbers)
                              : said("No difference shown between the implements ({}).", numbers);
}

std::string sentence(const Comparison& comparison, std::optional<Rpm> step, Advice advice) {
    if (comparison.ranked.empty()) {
        return said(
            "Nothing can be compared yet: no implement has two kept shots by one hitter on "
            "one filming day.");
    }
    if (comparison.ranked.size() == 1) {  // its mean is the answer, not what it takes for pairs
        const RankedImplement& only = comparison.ranked.front();
        return meanSentence(only) +
               (only.rank ? std::string{} : " " + whyNot(only.rank.whyNot(), advice));
    }
    if (comparison.pairs.empty()) {
        return whyNoPairs(comparison, advice);
    }
    std::string text = firstPlace(comparison);
    if (comparison.model == ComparisonModel::Additive) {
        text += said(
            " Cells are missing; they are filled in as if every hitter got the same difference "
            "from every implement.");
    }
    if (!step && advice == Advice::With) {
        text += said(" Set the noticeable step to see which differences a player could notice.");
    }
    return text;
}

std::string looksSentence(int looks, Advice advice) {
    if (looks < 1) {
        return said("The findings were not looked at with other readings or settings before.");
    }
    return saidOf(looks,
                  "The findings were looked at once with other readings or settings before. "
                  "Whoever looks often and stops at a result that pleases finds differences that "
                  "are not there.",
                  "The findings were looked at {} times with other readings or settings before. "
                  "Whoever looks often and stops at a result that pleases finds differences that "
                  "are not there.",
                  looks) +
           (advice == Advice::With ? said(" Decide the number of shots before filming.")
                                   : std::string{});
}

}  // namespace core::words
