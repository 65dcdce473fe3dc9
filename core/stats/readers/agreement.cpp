#include "core/stats/readers/agreement.h"

#include <cmath>
#include <numbers>
#include <vector>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/co_moments.h"
#include "core/stats/sample/moments.h"

namespace core::stats {
namespace {

AgreementLimit around(double value, double reach) {
    return {value, {value - reach, value + reach}};
}

std::optional<JudgedEstimate> trendOf(const PairedValues& pairs,
                                      const std::vector<double>& differences,
                                      Confidence confidence) {
    std::vector<double> means;
    means.reserve(differences.size());
    for (std::size_t i = 0; i < differences.size(); ++i) {
        means.push_back(0.5 * (pairs.x[i] + pairs.y[i]));
    }
    const auto line = fitStraightLine({means, differences}, confidence);
    return line ? std::optional{line.value().slope} : std::nullopt;
}

}  // namespace

Result<AgreementLimits> limitsOfAgreement(const PairedValues& pairs,
                                          const AgreementOptions& options) {
    BOOST_OUTCOME_TRY(checkConfidence(options.confidence));
    BOOST_OUTCOME_TRY(checkPositive(options.reach, toSay("Agreement: the reach of the limits")));
    BOOST_OUTCOME_TRY(checkPairs(pairs, toSay("Agreement"), 3));
    std::vector<double> differences;
    differences.reserve(pairs.x.size());
    for (std::size_t i = 0; i < pairs.x.size(); ++i) {
        differences.push_back(pairs.x[i] - pairs.y[i]);
    }
    const Moments moments = momentsOf(differences);
    const auto n = static_cast<double>(moments.count);
    const auto mean = static_cast<double>(moments.mean);
    const double deviation = std::sqrt(moments.variance());
    const double factor = StudentT{{n - 1.0}}.coverageFactor(options.confidence);
    const double limitError =
        deviation * std::sqrt(1.0 / n + options.reach * options.reach / (2.0 * (n - 1.0)));
    const double meanReach = factor * deviation / std::sqrt(n);
    return AgreementLimits{.count = moments.count,
                           .meanDifference = mean,
                           .differenceDeviation = deviation,
                           .meanInterval = {mean - meanReach, mean + meanReach},
                           .lower = around(mean - options.reach * deviation, factor * limitError),
                           .upper = around(mean + options.reach * deviation, factor * limitError),
                           .limitError = limitError,
                           .trend = trendOf(pairs, differences, options.confidence)};
}

Result<Repeatability> repeatabilityOfPairs(const PairedValues& readings) {
    constexpr double kReach = 1.96 * std::numbers::sqrt2;
    BOOST_OUTCOME_TRY(checkPairs(readings, toSay("Repeatability"), 1));
    double squares = 0.0;
    for (std::size_t i = 0; i < readings.x.size(); ++i) {
        const double difference = readings.x[i] - readings.y[i];
        squares += difference * difference;
    }
    const double deviation = std::sqrt(0.5 * squares / static_cast<double>(readings.x.size()));
    return Repeatability{.withinDeviation = deviation, .limit = kReach * deviation};
}

}  // namespace core::stats
