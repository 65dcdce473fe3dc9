#include <fmt/format.h>

#include <algorithm>

#include "core/base/words.h"
#include "core/findings/find_hitters.h"
#include "core/findings/words.h"

namespace core::findings {
namespace {

/// The pair as it stands among all pairs, so that a question has one answer: first less second.
Said<stats::JudgedEstimate> conditionDifference(const PairFinding& pair,
                                                project::ImplementId first) {
    const double sign = pair.first == first ? 1.0 : -1.0;
    const double low = sign * pair.interval95.low;
    const double high = sign * pair.interval95.high;
    const double estimate = sign * pair.differenceRpm;
    return stats::JudgedEstimate{.estimate = estimate,
                                 .standardError = pair.standardErrorRpm,
                                 .dof = {pair.dof},
                                 .interval = {std::min(low, high), std::max(low, high)},
                                 .t = estimate / pair.standardErrorRpm,
                                 .pValue = pair.adjustedP};
}

std::string conditionWord(const std::string& condition) {
    return condition.empty() ? said("without a condition") : condition;
}

std::string sentenceOf(const ConditionContrast& found, bool differs, std::optional<Rpm> step) {
    const std::string which =
        said("{}, {} against {}", found.name, conditionWord(found.firstCondition),
             conditionWord(found.secondCondition));
    if (!found.difference) {
        return said("{}: cannot be said, {}", which, found.difference.whyNot());
    }
    return fmt::format("{}: {}; {}.{}", which, words::difference(*found.difference),
                       differs ? said("they differ") : said("they cannot be told apart"),
                       step ? " " + words::verdict(found.verdict, *step) : "");
}

ConditionContrast contrastOf(const report::ImplementRow& a, const report::ImplementRow& b,
                             const PairFinding* pair, std::optional<Rpm> step) {
    ConditionContrast found{.first = a.implement,
                            .second = b.implement,
                            .name = a.implementName,
                            .firstCondition = a.condition,
                            .secondCondition = b.condition,
                            .difference = Said<stats::JudgedEstimate>::because(
                                said("no hitter has two kept shots with each of the two, and no "
                                     "other implement links them."))};
    if (pair != nullptr) {
        found.difference = conditionDifference(*pair, a.implement);
        found.verdict = pair->verdict;
    }
    found.sentence = sentenceOf(found, pair != nullptr && pair->differs, step);
    return found;
}

}  // namespace

std::vector<ConditionContrast> findConditions(const std::vector<ImplementFinding>& implements,
                                              const Comparison& together, std::optional<Rpm> step) {
    std::vector<ConditionContrast> contrasts;
    for (const auto& first : implements) {
        for (const auto& second : implements) {
            const auto& a = first.row;
            const auto& b = second.row;
            if (a.implementName == b.implementName && a.implement < b.implement) {
                contrasts.push_back(
                    contrastOf(a, b, together.pair(a.implement, b.implement), step));
            }
        }
    }
    return contrasts;
}

}  // namespace core::findings
