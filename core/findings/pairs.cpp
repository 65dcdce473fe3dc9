#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>

#include "core/findings/critical_range.h"
#include "core/findings/find_comparison.h"
#include "core/stats/comparison/power.h"

namespace core::findings {
namespace {

constexpr double kPower = 0.8;
constexpr double kFamilyAlpha = 0.05;
constexpr std::size_t kManyPairs = 200;  // beyond, an outlook for each takes too long
constexpr std::size_t kNearRanks = 2;

/// What does not shrink with the count (coarse readings, shared parts between sessions) takes its
/// share of the difference beforehand.
Said<int> moreShots(const ComparedMean& a, const ComparedMean& b, const PairFinding& pair,
                    const DifferenceError& error, std::size_t family) {
    if (pair.differs) {
        return 0;
    }
    const double alpha = kFamilyAlpha / static_cast<double>(family);
    const stats::NormalDistribution normal;
    const double needed = normal.quantile({1.0 - 0.5 * alpha}) + normal.quantile({kPower});
    const double rest = std::max(0.0, error.variance - error.shotsVariance) * needed * needed;
    const double left = pair.differenceRpm * pair.differenceRpm - rest;
    const auto extra = left > 0.0
                           ? stats::extraShotsToSeparate(
                                 {std::sqrt(left), a.shotsVariance * a.shotsPerCell,
                                  b.shotsVariance * b.shotsPerCell, a.shotsPerCell, b.shotsPerCell},
                                 alpha, {kPower})
                           : Result<int>{Error{ErrorCode::OutOfRange, {}}};
    if (!extra) {
        return WhyNot::Kind::MeansTooClose;
    }
    return std::max(1, extra.value());
}

using EarlierPairs =
    std::map<std::pair<project::ImplementId, project::ImplementId>, const PairFinding*>;

EarlierPairs earlierPairs(const ComparisonContext& context, std::size_t means) {
    EarlierPairs known;
    // With another number of implements every pair is judged by another critical value.
    if (context.earlier != nullptr && context.earlier->ranked.size() == means) {
        for (const PairFinding& pair : context.earlier->pairs) {
            known[{pair.first, pair.second}] = &pair;
        }
    }
    return known;
}

bool isSamePair(const PairFinding& a, const PairFinding& b) {
    return a.differenceRpm == b.differenceRpm && a.standardErrorRpm == b.standardErrorRpm &&
           a.dof == b.dof && a.firstName == b.firstName && a.secondName == b.secondName;
}

/// The pairs before they are judged: difference and its error.
std::vector<PairFinding> unjudgedPairs(const ComparedMeans& compared,
                                       const std::vector<ImplementFinding>& implements) {
    std::vector<PairFinding> pairs;
    const std::size_t count = compared.means.size();
    pairs.reserve(count * (count - 1) / 2);
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = i + 1; j < count; ++j) {
            PairFinding pair;
            const ComparedMean& a = compared.means[i];
            const ComparedMean& b = compared.means[j];
            pair.first = implements[a.implement].row.implement;
            pair.second = implements[b.implement].row.implement;
            pair.firstName = a.name;
            pair.secondName = b.name;
            pair.differenceRpm = a.meanRpm - b.meanRpm;
            const DifferenceError error = differenceError(compared, i, j);
            pair.standardErrorRpm = std::sqrt(error.variance);
            pair.dof = error.dof;
            pairs.push_back(std::move(pair));
        }
    }
    return pairs;
}

/// Critical values for all pairs of a family.
class PairJudge {
public:
    PairJudge(const std::vector<PairFinding>& pairs, std::size_t means)
        : m_range{static_cast<int>(means)}, m_least{least(pairs)}, m_greatest{greatest(pairs)} {}

    void judge(PairFinding& pair) const {
        const double half = pair.standardErrorRpm / std::numbers::sqrt2;
        const double reach95 = m_critical95.at({pair.dof}) * half;
        const double reach90 = m_critical90.at({pair.dof}) * half;
        pair.interval95 = {pair.differenceRpm - reach95, pair.differenceRpm + reach95};
        pair.interval90 = {pair.differenceRpm - reach90, pair.differenceRpm + reach90};
        pair.adjustedP = m_range.upperTail(pair.differenceRpm / half, {pair.dof});
        pair.differs = pair.interval95.low > 0.0;
    }

private:
    static double least(const std::vector<PairFinding>& pairs) {
        double dof = std::numeric_limits<double>::infinity();
        for (const PairFinding& pair : pairs) {
            dof = std::min(dof, pair.dof);
        }
        return dof;
    }
    static double greatest(const std::vector<PairFinding>& pairs) {
        double dof = 0.0;
        for (const PairFinding& pair : pairs) {
            dof = std::max(dof, pair.dof);
        }
        return dof;
    }

    stats::StudentizedRange m_range;
    double m_least;
    double m_greatest;
    CriticalRange m_critical95{m_range, {kFamilyAlpha}, {m_least}, {m_greatest}};
    CriticalRange m_critical90{m_range, {2.0 * kFamilyAlpha}, {m_least}, {m_greatest}};
};

}  // namespace

std::vector<PairFinding> comparePairs(const ComparedMeans& compared,
                                      const std::vector<ImplementFinding>& implements,
                                      const ComparisonContext& context) {
    std::vector<PairFinding> pairs = unjudgedPairs(compared, implements);
    if (pairs.empty()) {
        return pairs;
    }
    const EarlierPairs known = earlierPairs(context, compared.means.size());
    const PairJudge judge{pairs, compared.means.size()};
    const std::size_t count = compared.means.size();
    std::size_t at = 0;
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = i + 1; j < count; ++j, ++at) {
            PairFinding& pair = pairs[at];
            const auto before = known.find({pair.first, pair.second});
            if (before != known.end() && isSamePair(*before->second, pair)) {
                pair = *before->second;
                continue;
            }
            judge.judge(pair);
            if (context.step) {
                const auto verdict =
                    stats::judgeStep({pair.interval95, pair.interval90}, {context.step->rpm});
                if (verdict) {
                    pair.verdict = verdict.value();
                }
            }
            pair.moreShots = pairs.size() <= kManyPairs || j - i <= kNearRanks
                                 ? moreShots(compared.means[i], compared.means[j], pair,
                                             differenceError(compared, i, j), pairs.size())
                                 : WhyNot::Kind::FarInTheRanks;
        }
    }
    return pairs;
}

}  // namespace core::findings
