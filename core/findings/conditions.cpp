#include <fmt/format.h>

#include "core/findings/find_hitters.h"
#include "core/findings/words.h"

namespace core::findings {
namespace {

Said<stats::JudgedEstimate> conditionDifference(const Crossed& crossed, std::size_t first,
                                                std::size_t second) {
    std::vector<stats::IndependentMean> means;
    std::vector<double> weights;
    for (std::size_t h = 0; h < crossed.hitters.size(); ++h) {
        const CrossedCell* a = crossed.usable(first, h);
        const CrossedCell* b = crossed.usable(second, h);
        if (a == nullptr || b == nullptr) {
            continue;
        }
        means.push_back(stats::independentMean(a->moments));
        weights.push_back(1.0);
        means.push_back(stats::independentMean(b->moments));
        weights.push_back(-1.0);
    }
    if (means.empty()) {
        return Said<stats::JudgedEstimate>::because(
            "no hitter has two kept shots with each of the two.");
    }
    for (double& weight : weights) {
        weight /= static_cast<double>(means.size() / 2);
    }
    return Said<stats::JudgedEstimate>{stats::contrast(means, weights)};
}

std::string conditionWord(const std::string& condition) {
    return condition.empty() ? "without a condition" : condition;
}

}  // namespace

std::vector<ConditionContrast> findConditions(const std::vector<ImplementFinding>& implements,
                                              const Crossed& crossed, std::optional<Rpm> step) {
    std::vector<ConditionContrast> contrasts;
    for (std::size_t i = 0; i < implements.size(); ++i) {
        for (std::size_t j = 0; j < implements.size(); ++j) {
            const auto& a = implements[i].row;
            const auto& b = implements[j].row;
            if (a.implementName != b.implementName || !(a.implement < b.implement)) {
                continue;
            }
            ConditionContrast found{.first = a.implement,
                                    .second = b.implement,
                                    .name = a.implementName,
                                    .firstCondition = a.condition,
                                    .secondCondition = b.condition,
                                    .difference = conditionDifference(crossed, i, j)};
            const std::string which =
                fmt::format("{}, {} against {}", found.name, conditionWord(a.condition),
                            conditionWord(b.condition));
            if (!found.difference) {
                found.sentence =
                    fmt::format("{}: cannot be said, {}", which, found.difference.whyNot());
            } else {
                found.verdict = verdictOn(*found.difference, step);
                found.sentence =
                    fmt::format("{}: {}; {}.{}", which, words::difference(*found.difference),
                                found.difference->pValue < 0.05 ? "they differ"
                                                                : "that they differ is not shown",
                                step ? " " + words::verdict(found.verdict, *step) : "");
            }
            contrasts.push_back(std::move(found));
        }
    }
    return contrasts;
}

}  // namespace core::findings
