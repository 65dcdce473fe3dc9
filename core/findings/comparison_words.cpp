#include <algorithm>
#include <cmath>

#include "core/base/words.h"
#include "core/findings/advice.h"
#include "core/findings/find_comparison.h"
#include "core/findings/words.h"
#include "core/report/number_format.h"

namespace core::findings {
namespace {

std::vector<std::string> notToldApart(const Comparison& comparison, std::size_t row) {
    std::vector<std::string> names;
    const auto& own = comparison.ranked[row];
    for (const RankedImplement& other : comparison.ranked) {
        if (other.implement == own.implement) {
            continue;
        }
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
        return words::joined(names);
    }
    const auto others = names.size() - (kMost - 1);
    return said("{}, {}, {}, and {} others", names[0], names[1], names[2], others);
}

void wordRow(RankedImplement& row, const std::vector<std::string>& alike, std::size_t rows) {
    const double sigma = row.mean.standardUncertainty;
    row.sentence =
        said("{}: {} from {} (95 %: {}).", row.name, words::rpm(row.mean.value, sigma),
             counted(row.shots, "shot", "shots"), words::between(row.mean.interval95, sigma));
    if (!row.rank) {
        row.sentence += said(" Its rank cannot be said. {}", row.rank.whyNot().message);
        return;
    }
    if (row.rank->lowest == row.rank->highest) {
        row.sentence += said(" Rank {} of {}.", row.rank->lowest, rows);
    } else {
        row.sentence += said(" Rank {}; the readings allow {} to {} of {}.", row.rank->rank,
                             row.rank->lowest, row.rank->highest, rows);
    }
    row.sentence +=
        said(" Chance to have the most spin: {}.", words::chance(row.rank->firstChance));
    if (!alike.empty()) {
        row.sentence += said(" It cannot be told apart from {}.", someOf(alike));
    }
}

std::string firstPlace(const Comparison& comparison, const std::vector<std::string>& alike) {
    const RankedImplement& first = comparison.ranked.front();
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

std::string testWords(const Comparison& comparison) {
    if (!comparison.welch) {
        return comparison.welch.whyNot().message;
    }
    const auto& test = *comparison.welch;
    const std::string numbers =
        said("{}: F = {:.2f} with {:.0f} and {:.1f} degrees of freedom, {}",
             comparison.model == ComparisonModel::CellMeans
                 ? "Welch"
                 : said("adjusted for hitter and filming day"),
             test.f, test.dof.numerator.value, test.dof.denominator.value, words::p(test.pValue));
    return test.pValue < 0.05 ? said("The implements differ ({}).", numbers)
                              : said("No difference shown between the implements ({}).", numbers);
}

std::string outlookWords(const Comparison& comparison) {
    const PairFinding* nearest = nullptr;
    for (std::size_t i = 0; i + 1 < comparison.ranked.size(); ++i) {
        const PairFinding* pair =
            comparison.pair(comparison.ranked[i].implement, comparison.ranked[i + 1].implement);
        if (pair != nullptr && !pair->differs && pair->moreShots &&
            (nearest == nullptr || *pair->moreShots < *nearest->moreShots)) {
            nearest = pair;
        }
    }
    if (nearest != nullptr) {
        return nearest->outlook;
    }
    const bool isSettled = !comparison.pairs.empty() &&
                           std::all_of(comparison.pairs.begin(), comparison.pairs.end(),
                                       [](const PairFinding& pair) { return pair.differs; });
    if (isSettled) {
        return said("Every pair of implements is told apart already.");
    }
    return comparison.pairs.empty() ? comparison.whyNoPairs
                                    : said(
                                          "No reasonable number of shots would separate the "
                                          "neighbours in the ranks that are not told apart yet.");
}

}  // namespace

void wordPair(PairFinding& pair, std::optional<Rpm> step) {
    const double sigma = pair.standardErrorRpm;
    if (pair.differs) {
        pair.sentence = said("{} gives {} more than {} (95 %: {}, {}).", pair.firstName,
                             words::rpm(pair.differenceRpm, sigma), pair.secondName,
                             words::between(pair.interval95, sigma), words::p(pair.adjustedP));
    } else {
        pair.sentence = said(
            "{} and {} cannot be told apart: a difference of {} was found, and the interval {} "
            "holds zero ({}).",
            pair.firstName, pair.secondName, words::rpm(pair.differenceRpm, sigma),
            words::between(pair.interval95, sigma), words::p(pair.adjustedP));
    }
    if (step) {
        pair.sentence += " " + words::verdict(pair.verdict, *step);
    }
    if (pair.differs) {
        pair.outlook = said("{} and {} are told apart already.", pair.firstName, pair.secondName);
    } else if (pair.moreShots) {
        pair.outlook = saidOf(*pair.moreShots,
                              "About {} more shot in each cell would separate {} and {}, if the "
                              "present difference and scatter are the true ones.",
                              "About {} more shots in each cell would separate {} and {}, if the "
                              "present difference and scatter are the true ones.",
                              *pair.moreShots, pair.firstName, pair.secondName);
    } else {
        pair.outlook = pair.moreShots.whyNot().message;
    }
}

void wordComparison(Comparison& comparison, const ComparedMeans& compared,
                    const ComparisonContext& context) {
    for (std::size_t i = 0; i < comparison.ranked.size(); ++i) {
        wordRow(comparison.ranked[i], notToldApart(comparison, i), comparison.ranked.size());
    }
    comparison.welchSentence = testWords(comparison);
    comparison.outlookSentence = outlookWords(comparison);
    if (comparison.ranked.empty()) {
        comparison.sentence = said(
            "Nothing can be compared yet: no implement has two kept shots by one hitter on "
            "one filming day.");
        return;
    }
    comparison.sentence = comparison.pairs.empty()
                              ? comparison.whyNoPairs
                              : firstPlace(comparison, notToldApart(comparison, 0));
    if (compared.model == ComparisonModel::Additive && compared.whyNotComparable.empty()) {
        comparison.sentence += said(
            " Cells are missing; they are filled in as if every hitter got the same difference "
            "from every implement.");
    }
    if (!context.step && !comparison.pairs.empty()) {
        comparison.sentence += saidText(advice::kSetStep);
    }
}

}  // namespace core::findings
