#include <algorithm>
#include <cmath>
#include <iterator>

#include "core/base/words.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::words {
namespace {

bool isBiased(const stats::AgreementLimits& limits) {
    return limits.meanInterval.low > 0.0 || limits.meanInterval.high < 0.0;
}

/// Only with advice: what is not known is nothing to publish.
std::string whyNoAgreement(const findings::WhyNot& why, Advice advice) {
    return advice == Advice::With ? whyNot(why) : std::string{};
}

}  // namespace

std::string sentence(const findings::MethodAgreement& agreement, Advice advice) {
    if (!agreement.limits) {
        return whyNoAgreement(agreement.limits.whyNot(), advice);
    }
    const auto& limits = *agreement.limits;
    const double sigma = limits.limitError;
    return said(
        "On {} read both ways, marks less pictures is {} on average (95 %: {}; {}); for 95 % of "
        "shots the two differ by {} (limits of agreement, each ± {}).",
        counted(limits.count, "shot", "shots"), rpm(limits.meanDifference, sigma),
        between(limits.meanInterval, sigma),
        isBiased(limits) ? said("one of them is biased") : said("no bias shown"),
        between({limits.lower.value, limits.upper.value}, sigma),
        rpm((limits.upper.interval.high - limits.upper.interval.low) / 2.0, sigma));
}

std::string sentence(const findings::RepeatFinding& repeat, Advice advice) {
    if (!repeat.repeatability) {
        return whyNoAgreement(repeat.repeatability.whyNot(), advice);
    }
    const double sigma = repeat.repeatability->withinDeviation;
    return said(
        "{} read again by {}: two readings of one shot differ by less than {} in 95 % of "
        "cases (repeatability; standard deviation of one reading {}).",
        counted(repeat.shots.size(), "shot", "shots"), reader(repeat.reader),
        rpm(repeat.repeatability->limit, sigma), rpm(sigma, sigma));
}

std::string sentence(const findings::ReaderStudy& study, Advice advice) {
    if (!study.intraclass) {
        return whyNoAgreement(study.intraclass.whyNot(), advice);
    }
    const auto& icc = study.intraclass->randomSingle;
    std::vector<std::string> readers;
    std::transform(study.readers.begin(), study.readers.end(), std::back_inserter(readers), reader);
    const std::string agreement = said(
        "{} read by each of {}: intraclass correlation ICC(2,1) {:.3f} (95 %: {:.3f} to {:.3f}).",
        counted(study.shots.size(), "shot", "shots"), joined(readers), icc.value, icc.interval.low,
        icc.interval.high);
    if (!study.gauge) {
        return agreement + " " + whyNot(study.gauge.whyNot());
    }
    const auto& parts =
        study.gauge->isPooledAdvised ? study.gauge->pooled : study.gauge->withInteraction;
    const double sigma = std::sqrt(parts.gauge());
    return agreement +
           said(" The same reader again: {}; another reader: {} more (standard deviations).",
                rpm(std::sqrt(parts.repeatability), sigma),
                rpm(std::sqrt(parts.reproducibility), sigma));
}

std::string sentence(const findings::ReaderPair& pair, Advice advice) {
    if (!pair.limits) {
        return whyNoAgreement(pair.limits.whyNot(), advice);
    }
    const auto& limits = *pair.limits;
    const double sigma = limits.limitError;
    const std::string size = rpm(std::abs(limits.meanDifference), sigma);
    const std::string first = reader(pair.first);
    const std::string second = reader(pair.second);
    return said(
               "On {} read by both, {} on average (95 %: {}); for 95 % of shots the two differ by "
               "{} (limits of agreement).",
               counted(limits.count, "shot", "shots"),
               limits.meanDifference < 0.0 ? said("{} reads {} less than {}", first, size, second)
                                           : said("{} reads {} more than {}", first, size, second),
               between(limits.meanInterval, sigma),
               between({limits.lower.value, limits.upper.value}, sigma)) +
           (isBiased(limits) ? said(" One of them is biased.") : std::string{});
}

}  // namespace core::words
