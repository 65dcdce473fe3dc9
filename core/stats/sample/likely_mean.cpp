#include "core/stats/sample/likely_mean.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/moments.h"
#include "core/stats/sample/sample_likelihood.h"

namespace core::stats {
namespace {

constexpr double kExactShare = 0.10;   // own spread over scatter, up to which readings are exact
constexpr double kCoarseShare = 0.15;  // and from which the likelihood counts alone
// The mean is the middle of where the log likelihood has fallen by this share of what the interval
// allows: a few counts like 5, 5, 5, 6 leave a ridge on which it hardly falls at all.
constexpr double kSummitShare = 0.02;
constexpr double kEndSettled = 1e-8;  // of an end of the interval, in standard errors
constexpr int kMostEndSteps = 100;

LikelyMean plainMean(std::span<const ReadingLikelihood> readings, double coverage) {
    std::vector<double> values;
    for (const ReadingLikelihood& reading : readings) {
        values.push_back(reading.value);
    }
    std::sort(values.begin(), values.end());
    const Moments moments = momentsOf(values);
    const auto n = static_cast<double>(values.size());
    const double deviation = std::sqrt(moments.variance());
    const auto mean = static_cast<double>(moments.mean);
    const double error = deviation / std::sqrt(n);
    return {.mean = mean,
            .shotsError = error,
            .coarsenessError = 0.0,
            .commonError = 0.0,
            .standardError = error,
            .dof = {n - 1.0},
            .interval = {mean - coverage * error, mean + coverage * error},
            .scatter = deviation,
            .isScatterHidden = false};
}

/// The mean by the profile of the likelihood.
class ProfiledMean {
public:
    ProfiledMean(std::span<const ReadingLikelihood> readings, double coverage,
                 double normalCoverage)
        : m_sample{readings},
          m_count{static_cast<double>(readings.size())},
          m_coverage{coverage},
          m_normalCoverage{normalCoverage},
          m_law{m_sample.likeliest()},
          m_deviation{m_law.deviation},
          m_most{m_sample.profileAt(m_law.mean, m_law.deviation).value},
          m_allowed{0.5 * m_count * std::log1p(coverage * coverage / (m_count - 1.0))} {}

    [[nodiscard]] LikelyMean mean() {
        const double low = end(-1.0, m_allowed);
        const double high = end(1.0, m_allowed);
        LikelyMean found;
        found.interval = {low, high};
        const double summit = kSummitShare * m_allowed;
        found.mean = 0.5 * (end(-1.0, summit) + end(1.0, summit));
        const double deviation = m_sample.profileAt(found.mean, m_law.deviation).deviation;
        found.scatter = deviation * std::sqrt(m_count / (m_count - 1.0));
        found.shotsError = found.scatter / std::sqrt(m_count);
        const double half = 0.5 * (high - low);
        const double fromShots = m_coverage * found.shotsError;
        found.coarsenessError =
            std::sqrt(std::max(0.0, half * half - fromShots * fromShots)) / m_normalCoverage;
        found.isScatterHidden = deviation <= 1.001 * m_sample.leastDeviation();
        return found;
    }

private:
    struct Place {
        double mean{};
        double excess{};  ///< of the log likelihood over the least one allowed; negative outside
        double slope{};
    };

    Place placeAt(double mean, double allowed) {
        const auto profile = m_sample.profileAt(mean, m_deviation);
        m_deviation = profile.deviation;
        return {mean, profile.value - m_most + allowed, profile.byMean};
    }

    /// Where the log likelihood has fallen by `allowed`. Newton's steps, kept between a place
    /// inside and one outside.
    double end(double side, double allowed) {
        m_deviation = m_law.deviation;
        double step = std::max(m_law.deviation, 1.5 * m_sample.leastDeviation()) *
                      std::sqrt(2.0 * allowed / m_count);
        const double precision = kEndSettled * step;
        double inside = m_law.mean;
        Place outside = placeAt(inside + side * step, allowed);
        for (int i = 0; outside.excess > 0.0 && i < kMostEndSteps; ++i) {
            inside = outside.mean;
            step *= 1.5;
            outside = placeAt(inside + side * step, allowed);
        }
        Place at = outside;
        double beyond = outside.mean;
        for (int i = 0; i < kMostEndSteps && std::abs(beyond - inside) > precision; ++i) {
            double next = at.mean - at.excess / at.slope;
            if (!(std::min(inside, beyond) < next && next < std::max(inside, beyond))) {
                next = 0.5 * (inside + beyond);
            }
            if (std::abs(next - at.mean) < precision) {
                return next;
            }
            at = placeAt(next, allowed);
            (at.excess > 0.0 ? inside : beyond) = next;
        }
        return 0.5 * (inside + beyond);
    }

    SampleLikelihood m_sample;
    double m_count;
    double m_coverage;
    double m_normalCoverage;
    NormalLaw m_law;
    double m_deviation;
    double m_most;
    double m_allowed;
};

void combineErrors(LikelyMean& mean, double count) {
    const double shots = mean.shotsError * mean.shotsError;
    const double total = shots + mean.coarsenessError * mean.coarsenessError;
    mean.standardError = std::sqrt(total);
    // Welch and Satterthwaite; nothing estimates the coarseness, which has infinitely many.
    mean.dof = {(count - 1.0) * std::pow(total / shots, 2.0)};
}

LikelyMean blended(const LikelyMean& plain, const LikelyMean& coarse, double share) {
    const auto blend = [share](double from, double to) { return from + share * (to - from); };
    return {.mean = blend(plain.mean, coarse.mean),
            .shotsError = blend(plain.shotsError, coarse.shotsError),
            .coarsenessError = blend(0.0, coarse.coarsenessError),
            .commonError = 0.0,
            .standardError = 0.0,
            .dof = {},
            .interval = {blend(plain.interval.low, coarse.interval.low),
                         blend(plain.interval.high, coarse.interval.high)},
            .scatter = blend(plain.scatter, coarse.scatter),
            .isScatterHidden = false};
}

/// Of normal readings the uncertainty that all have at least cannot be told from the scatter and
/// need not be: it is left in it.
std::vector<ReadingLikelihood> withoutCommonSigma(std::span<const ReadingLikelihood> readings) {
    std::vector<ReadingLikelihood> rest{readings.begin(), readings.end()};
    double least = std::numeric_limits<double>::infinity();
    for (const ReadingLikelihood& reading : rest) {
        least = std::min(least, reading.bounds ? 0.0 : reading.sigma);
    }
    for (ReadingLikelihood& reading : rest) {
        if (least > 0.0) {
            reading.sigma =
                std::sqrt(std::max(0.0, (reading.sigma - least) * (reading.sigma + least)));
        }
    }
    return rest;
}

Result<void> checkReadings(std::span<const ReadingLikelihood> readings) {
    std::vector<double> values;
    for (const ReadingLikelihood& reading : readings) {
        values.push_back(reading.value + reading.sigma);
        if (reading.sigma < 0.0) {
            return fail(ErrorCode::OutOfRange,
                        said("Mean of readings: an uncertainty is {}. It must be zero or more.",
                             reading.sigma));
        }
    }
    return checkValues(values, toSay("Mean of readings"), 2);
}

}  // namespace

Result<LikelyMean> likelyMean(std::span<const ReadingLikelihood> given, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    BOOST_OUTCOME_TRY(checkReadings(given));
    const auto readings = withoutCommonSigma(given);
    const auto n = static_cast<double>(readings.size());
    const double coverage = StudentT{{n - 1.0}}.coverageFactor(confidence);
    const LikelyMean plain = plainMean(readings, coverage);
    double widest = 0.0;
    double tops = 0.0;
    for (const ReadingLikelihood& reading : readings) {
        widest = std::max(widest, reading.spread());
        tops += reading.bounds ? reading.top : 0.0;
    }
    if (widest <= kExactShare * plain.scatter) {
        return plain;
    }
    const double normalCoverage = NormalDistribution{}.quantile({0.5 * (1.0 + confidence.level)});
    LikelyMean coarse = ProfiledMean{readings, coverage, normalCoverage}.mean();
    const double share = (widest / plain.scatter - kExactShare) / (kCoarseShare - kExactShare);
    LikelyMean mean = share < 1.0 ? blended(plain, coarse, share) : coarse;
    mean.commonError = mean.coarsenessError * tops / n;
    combineErrors(mean, n);
    return mean;
}

SharedWidening widen(const LikelyMean& mean, double shared, Confidence confidence) {
    const double total = std::hypot(mean.standardError, shared);
    if (!(mean.standardError > 0.0)) {
        const double reach =
            StudentT{{std::numeric_limits<double>::infinity()}}.coverageFactor(confidence) * total;
        return {total,
                {std::numeric_limits<double>::infinity()},
                {mean.mean - reach, mean.mean + reach}};
    }
    const double ratio = total / mean.standardError;
    const DegreesOfFreedom dof{mean.dof.value * std::pow(ratio, 4.0)};
    const double widening = ratio * StudentT{dof}.coverageFactor(confidence) /
                            StudentT{mean.dof}.coverageFactor(confidence);
    return {total,
            dof,
            {mean.mean - widening * (mean.mean - mean.interval.low),
             mean.mean + widening * (mean.interval.high - mean.mean)}};
}

}  // namespace core::stats
