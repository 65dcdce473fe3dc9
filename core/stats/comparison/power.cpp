#include "core/stats/comparison/power.h"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <exception>
#include <functional>
#include <string>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

constexpr double kMaxShots = 1e7;

/// With what power two implements are to be told apart, at what error probability.
struct Separation {
    double alpha{};
    double power{};
};

Result<void> checkAlpha(double alpha) {
    if (alpha > 0.0 && alpha < 1.0) {
        return ok();
    }
    return fail(
        ErrorCode::OutOfRange,
        said("Power: the error probability is {}. It must be between 0 and 1, for example 0.05.",
             alpha));
}

Result<void> checkShots(double shots) {
    BOOST_OUTCOME_TRY(checkPositive(shots, toSay("Power: the number of shots per cell")));
    if (shots < 2.0) {
        return fail(ErrorCode::OutOfRange,
                    said("Power: at least two shots per cell are needed to know their scatter."));
    }
    return ok();
}

Result<void> checkDesign(const StepDesign& design) {
    BOOST_OUTCOME_TRY(checkPositive(design.step, toSay("Power: the step")));
    BOOST_OUTCOME_TRY(
        checkPositive(design.standardDeviation, toSay("Power: the standard deviation")));
    return checkAlpha(design.alpha);
}

// Chance that |T| or T of a noncentral t passes its critical value.
double rejection(DegreesOfFreedom dof, Noncentrality delta, const StepDesign& design) {
    const double tail = design.isOneSided ? design.alpha : 0.5 * design.alpha;
    const double critical = -StudentT{dof}.quantile({tail});
    const NoncentralT t{dof, delta};
    return t.upperTail(critical) + (design.isOneSided ? 0.0 : t.cdf(-critical));
}

double stepPower(const StepDesign& design, double shots) {
    const double delta = std::sqrt(0.5 * shots) * design.step / design.standardDeviation;
    return rejection({2.0 * (shots - 1.0)}, {delta}, design);
}

// Runs a computation with noncentral distributions, whose series may fail to converge.
template <class Compute>
auto guarded(const Compute& compute) -> Result<typename decltype(compute())::value_type> {
    try {
        return compute();
    } catch (const std::exception&) {
        return fail(ErrorCode::Untrustworthy,
                    said("Power: the noncentral distribution does not converge for these numbers. "
                         "Use a smaller step or fewer shots."));
    }
}

Result<void> checkPower(Probability power, double alpha) {
    if (power.value > alpha && power.value < 1.0) {
        return ok();
    }
    return fail(ErrorCode::OutOfRange, said("Power: {} cannot be planned for. Choose a power above "
                                            "the error probability and below 1, for example 0.8.",
                                            power.value));
}

// Where a power that grows with the shots reaches the wanted one.
Result<double> shotsWithPower(const std::function<double(double)>& powerOf, Probability power,
                              double alpha) {
    BOOST_OUTCOME_TRY(checkPower(power, alpha));
    const auto excess = [&](double shots) { return powerOf(shots) - power.value; };
    if (excess(2.0) >= 0.0) {
        return 2.0;
    }
    double high = 4.0;
    while (excess(high) < 0.0) {
        high *= 2.0;
        if (high > kMaxShots) {
            return fail(ErrorCode::OutOfRange,
                        said("Power: more than ten million shots would be needed. The step is too "
                             "small for this scatter."));
        }
    }
    const boost::math::tools::eps_tolerance<double> tolerance{44};  // bits: 6e-14
    std::uintmax_t steps = 200;
    const auto [below, above] =
        boost::math::tools::toms748_solve(excess, 0.5 * high, high, tolerance, steps);
    return 0.5 * (below + above);
}

// Where a power that grows with the step, here in standard deviations, reaches the wanted one.
Result<double> stepWithPower(StepDesign design, double shots, Probability power) {
    BOOST_OUTCOME_TRY(checkPower(power, design.alpha));
    const double deviation = design.standardDeviation;
    const auto excess = [&](double deviations) {
        design.step = deviations * deviation;
        return stepPower(design, shots) - power.value;
    };
    double high = 1.0;
    while (excess(high) < 0.0) {
        high *= 2.0;
    }
    const boost::math::tools::eps_tolerance<double> tolerance{44};  // bits: 6e-14
    std::uintmax_t steps = 200;
    const auto [below, above] =
        boost::math::tools::toms748_solve(excess, 0.0, high, tolerance, steps);
    return 0.5 * (below + above) * deviation;
}

// Whether so many extra shots give the power: the chance that |T| passes its critical value. The
// far tail, which is no more than half the error probability, is worked out only where it decides.
bool separates(const PresentPair& pair, const Separation& wanted, double extra) {
    const double first = pair.firstVariance / (pair.firstCount + extra);
    const double second = pair.secondVariance / (pair.secondCount + extra);
    const double variance = first + second;
    const DegreesOfFreedom dof{variance * variance /
                               (first * first / (pair.firstCount + extra - 1.0) +
                                second * second / (pair.secondCount + extra - 1.0))};
    const double critical = -StudentT{dof}.quantile({0.5 * wanted.alpha});
    const NoncentralT t{dof, {std::abs(pair.difference) / std::sqrt(variance)}};
    const double near = t.upperTail(critical);
    if (near >= wanted.power || near + 0.5 * wanted.alpha < wanted.power) {
        return near >= wanted.power;
    }
    return near + t.cdf(-critical) >= wanted.power;
}

// The extra shots if T were normal: where the variance of the difference is small enough.
double normalExtra(const PresentPair& pair, const Separation& wanted) {
    const NormalDistribution normal;
    const double reach = normal.quantile({wanted.power}) - normal.quantile({0.5 * wanted.alpha});
    const double variance = std::pow(pair.difference / reach, 2.0);
    const double sum = pair.firstVariance + pair.secondVariance;
    const double half = 0.5 * (pair.firstCount + pair.secondCount - sum / variance);
    const double product =
        pair.firstCount * pair.secondCount -
        (pair.firstVariance * pair.secondCount + pair.secondVariance * pair.firstCount) / variance;
    return -half + std::sqrt(std::max(0.0, half * half - product));
}

Result<void> checkPair(const PresentPair& pair) {
    BOOST_OUTCOME_TRY(checkPositive(std::abs(pair.difference), toSay("Outlook: the difference")));
    BOOST_OUTCOME_TRY(checkShots(pair.firstCount));
    BOOST_OUTCOME_TRY(checkShots(pair.secondCount));
    if (pair.firstVariance < 0.0 || pair.secondVariance < 0.0) {
        return fail(ErrorCode::OutOfRange, said("Outlook: a variance is below zero."));
    }
    return checkPositive(pair.firstVariance + pair.secondVariance, toSay("Outlook: the variance"));
}

// The smallest whole number of shots that gives the power, looked for in growing steps from where
// it would be for a normal T, then by halving.
Result<int> extraShots(const PresentPair& pair, const Separation& wanted) {
    constexpr int kMost = 100'000;
    BOOST_OUTCOME_TRY(checkPower({wanted.power}, wanted.alpha));
    const auto isEnough = [&](int extra) { return separates(pair, wanted, extra); };
    int high = static_cast<int>(std::clamp(std::ceil(normalExtra(pair, wanted)), 0.0, 1.0 * kMost));
    int low = high;
    for (int step = 1; isEnough(low); step *= 2) {
        if (low == 0) {
            return 0;
        }
        high = low;
        low = std::max(0, low - step);
    }
    for (int step = 1; low == high; step *= 2) {
        if (low == kMost) {
            return fail(ErrorCode::OutOfRange,
                        said("Outlook: more than 100000 shots would be needed. The difference is "
                             "too small for this scatter."));
        }
        high = std::min(kMost, low + step);
        if (!isEnough(high)) {
            low = high;
        }
    }
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        (isEnough(middle) ? high : low) = middle;
    }
    return high;
}

}  // namespace

Result<double> powerForStep(const StepDesign& design, double shotsPerCell) {
    BOOST_OUTCOME_TRY(checkDesign(design));
    BOOST_OUTCOME_TRY(checkShots(shotsPerCell));
    return guarded([&]() -> Result<double> { return stepPower(design, shotsPerCell); });
}

Result<double> shotsForStep(const StepDesign& design, Probability power) {
    BOOST_OUTCOME_TRY(checkDesign(design));
    return guarded([&] {
        return shotsWithPower([&](double n) { return stepPower(design, n); }, power, design.alpha);
    });
}

Result<double> smallestStep(StepDesign design, double shotsPerCell, Probability power) {
    design.step = design.standardDeviation;  // any step: it is what is looked for
    BOOST_OUTCOME_TRY(checkDesign(design));
    BOOST_OUTCOME_TRY(checkShots(shotsPerCell));
    return guarded([&] { return stepWithPower(design, shotsPerCell, power); });
}

Result<int> extraShotsToSeparate(const PresentPair& pair, double alpha, Probability power) {
    BOOST_OUTCOME_TRY(checkPair(pair));
    BOOST_OUTCOME_TRY(checkAlpha(alpha));
    return guarded([&] { return extraShots(pair, {alpha, power.value}); });
}

}  // namespace core::stats
