#include <algorithm>

#include "core/findings/find_hitters.h"

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

ConditionContrast contrastOf(const report::ImplementRow& a, const report::ImplementRow& b,
                             const PairFinding* pair) {
    ConditionContrast found{.first = a.implement,
                            .second = b.implement,
                            .name = a.implementName,
                            .firstCondition = a.condition,
                            .secondCondition = b.condition,
                            .difference = WhyNot::Kind::ConditionsNotLinked};
    if (pair != nullptr) {
        found.difference = conditionDifference(*pair, a.implement);
        found.verdict = pair->verdict;
        found.differs = pair->differs;
    }
    return found;
}

}  // namespace

std::vector<ConditionContrast> findConditions(const std::vector<ImplementFinding>& implements,
                                              const Comparison& together) {
    std::vector<ConditionContrast> contrasts;
    for (const auto& first : implements) {
        for (const auto& second : implements) {
            const auto& a = first.row;
            const auto& b = second.row;
            if (a.implementName == b.implementName && a.implement < b.implement) {
                contrasts.push_back(contrastOf(a, b, together.pair(a.implement, b.implement)));
            }
        }
    }
    return contrasts;
}

}  // namespace core::findings
