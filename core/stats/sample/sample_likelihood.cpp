#include "core/stats/sample/sample_likelihood.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>

#include "core/base/expects.h"

namespace core::stats {
namespace {

// The scatter at which n - 1 and one more count next to it are no longer told apart.
constexpr double kLeastShareOfBounds = 0.03;
constexpr double kLeastShareOfRange = 1e-9;  // readings without bounds: only not zero
constexpr double kMostTimesRange = 4.0;
// Of the log deviation and of the mean in parts of the range: what the likelihood is worse by is
// the square of it.
constexpr double kSettled = 1e-6;
constexpr int kMostSteps = 60;
constexpr double kTiny = 1e-290;  // below, a tail is followed by its asymptote

double normalDensity(double z) {
    return std::exp(-0.5 * z * z) / std::sqrt(2.0 * kPi);
}

double upperTail(double z) {
    return 0.5 * std::erfc(z / std::numbers::sqrt2);
}

std::vector<LikelihoodNode> mirrored(const std::vector<LikelihoodNode>& nodes) {
    std::vector<LikelihoodNode> mirror;
    for (auto node = nodes.rbegin(); node != nodes.rend(); ++node) {
        mirror.push_back({-node->at, -node->jump, node->bend});
    }
    return mirror;
}

/// Zero of a function that changes its sign once, from plus to minus, between two places; `known`
/// are its values there. Illinois' rule (Dowell and Jarratt 1971, BIT 11:168-174).
template <class Function>
double signChange(Function&& function, Interval<double> between, Interval<double> known,
                  double tolerance) {
    double a = between.low;
    double b = between.high;
    double fa = known.low;
    double fb = known.high;
    for (int step = 0; step < kMostSteps && std::abs(b - a) > tolerance; ++step) {
        double x = b - fb * (b - a) / (fb - fa);
        if (!(x > std::min(a, b) && x < std::max(a, b))) {
            x = 0.5 * (a + b);
        }
        const double fx = function(x);
        if (fx == 0.0) {
            return x;
        }
        if ((fx > 0.0) != (fb > 0.0)) {
            a = b;
            fa = fb;
        } else {
            fa *= 0.5;
        }
        if (std::abs(x - b) < 0.25 * tolerance) {
            return x;
        }
        b = x;
        fb = fx;
    }
    return b;
}

}  // namespace

ReadingAgainstLaw::ReadingAgainstLaw(const ReadingLikelihood& reading) : m_reading{reading} {
    if (reading.bounds) {
        m_fromLeft = nodesOf(reading);
        m_fromRight = mirrored(m_fromLeft);
    }
}

LogLikelihood ReadingAgainstLaw::under(const NormalLaw& law) const {
    if (m_reading.bounds) {
        return boundedUnder(law);
    }
    const double variance = law.deviation * law.deviation + m_reading.sigma * m_reading.sigma;
    const double distance = m_reading.value - law.mean;
    const double square = distance * distance / variance;
    return {-0.5 * (square + std::log(variance)), distance / variance,
            (square - 1.0) * law.deviation / variance};
}

LogLikelihood ReadingAgainstLaw::boundedUnder(const NormalLaw& law) const {
    // Seen from the side on which the mean lies, so that a far tail is a difference of small
    // numbers.
    const bool isLeft = law.mean <= m_reading.value;
    const auto& nodes = isLeft ? m_fromLeft : m_fromRight;
    const double mean = isLeft ? law.mean : -law.mean;
    const double spread = std::hypot(law.deviation, m_reading.sigma);
    double sum = 0.0;
    double byMean = 0.0;
    double bySpread = 0.0;
    for (const LikelihoodNode& node : nodes) {
        const double z = (node.at - mean) / spread;
        const double density = normalDensity(z);
        const double tail = upperTail(z);
        sum += node.jump * tail + node.bend * spread * (density - z * tail);
        byMean += node.jump * density / spread + node.bend * tail;
        bySpread += node.jump * density * z / spread + node.bend * density;
    }
    if (sum > kTiny) {
        const double chain = law.deviation / spread;
        return {std::log(sum), (isLeft ? byMean : -byMean) / sum, chain * bySpread / sum};
    }
    const double distance = nodes.front().at - mean;
    const double z = distance / spread;
    const double least = std::log(kTiny);
    return {std::min(least, -0.5 * z * z), (isLeft ? 1.0 : -1.0) * z / spread,
            z * z / spread * law.deviation / spread};
}

SampleLikelihood::SampleLikelihood(std::span<const ReadingLikelihood> readings,
                                   std::optional<std::size_t> free) {
    CORE_EXPECTS(!readings.empty());
    std::map<ReadingLikelihood, double> counts;
    m_range = {std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
    double narrowest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const ReadingLikelihood& reading = readings[i];
        if (free == i) {
            m_groups.push_back({ReadingAgainstLaw{reading}, 1.0, reading.value});
        } else {
            counts[reading] += 1.0;
        }
        const double low = reading.bounds ? reading.bounds->low : reading.value;
        const double high = reading.bounds ? reading.bounds->high : reading.value;
        m_range = {std::min(m_range.low, low - reading.sigma),
                   std::max(m_range.high, high + reading.sigma)};
        if (reading.bounds) {
            narrowest = std::min(narrowest, high - low);
        }
    }
    const double width = std::max(m_range.high - m_range.low, 1e-12 * std::abs(m_range.high));
    m_greatest = kMostTimesRange * width;
    m_least = std::isfinite(narrowest) ? kLeastShareOfBounds * narrowest
                                       : kLeastShareOfRange * m_greatest;
    for (const auto& [reading, count] : counts) {
        m_groups.push_back({ReadingAgainstLaw{reading}, count, std::nullopt});
    }
}

LogLikelihood SampleLikelihood::under(const NormalLaw& law) const {
    LogLikelihood sum;
    for (const Group& group : m_groups) {
        const LogLikelihood one =
            group.reading.under({group.ownMean.value_or(law.mean), law.deviation});
        sum.value += group.count * one.value;
        sum.byMean += group.ownMean ? 0.0 : group.count * one.byMean;
        sum.byDeviation += group.count * one.byDeviation;
    }
    return sum;
}

SampleLikelihood::Profile SampleLikelihood::profileAt(double mean, double guess) const {
    const Profile found = climb(mean, guess);
    constexpr double kRounding = 1.0 + 1e-9;
    const bool isAtLeast = found.deviation <= kRounding * m_least;
    const Profile other = isAtLeast ? climb(mean, m_greatest / kMostTimesRange)
                                    : Profile{under({mean, m_least}).value, 0.0, m_least};
    if (!(other.value > found.value)) {
        return found;
    }
    return isAtLeast ? other : climb(mean, m_least);
}

SampleLikelihood::Profile SampleLikelihood::climb(double mean, double from) const {
    constexpr double kFirstStep = 1.2;
    LogLikelihood last;
    const auto slope = [&](double logDeviation) {
        last = under({mean, std::exp(logDeviation)});
        return last.byDeviation * std::exp(logDeviation);
    };
    const double least = std::log(m_least);
    const double greatest = std::log(m_greatest);
    double step = std::log(kFirstStep);
    double at = std::clamp(std::log(std::max(from, m_least)), least, greatest);
    double here = slope(at);
    const double direction = here > 0.0 ? 1.0 : -1.0;
    // Towards a summit the slope changes its sign once.
    while (here * direction > 0.0) {
        const double next = std::clamp(at + direction * step, least, greatest);
        if (next == at) {
            return {last.value, last.byMean, std::exp(at)};
        }
        const double there = slope(next);
        if (there * direction <= 0.0) {
            at = direction > 0.0 ? signChange(slope, {at, next}, {here, there}, kSettled)
                                 : signChange(slope, {next, at}, {there, here}, kSettled);
            break;
        }
        at = next;
        here = there;
        step *= 2.0;
    }
    slope(at);
    return {last.value, last.byMean, std::exp(at)};
}

NormalLaw SampleLikelihood::likeliest() const {
    double deviation = std::max(m_least, 0.25 * (m_range.high - m_range.low));
    const auto slope = [&](double mean) {
        const Profile profile = profileAt(mean, deviation);
        deviation = profile.deviation;
        return profile.byMean;
    };
    const double low = slope(m_range.low);
    const double high = slope(m_range.high);
    if (!(low > 0.0 && high < 0.0)) {
        const double middle = 0.5 * (m_range.low + m_range.high);
        return {middle, profileAt(middle, deviation).deviation};
    }
    const double width = m_range.high - m_range.low;
    const double mean = signChange(slope, m_range, {low, high}, kSettled * width);
    return {mean, profileAt(mean, deviation).deviation};
}

}  // namespace core::stats
