#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/timebase/slope_density.h"

namespace core::spin {

inline constexpr double kSecondsPerMinute = 60.0;

/// Sum of independent effects of expectation zero on a rate, relative to it: clock, line of sight,
/// rolling shutter. Its density is found by numerical convolution. Confined.
class RelativeEffects {
public:
    struct Node {
        double effect{};
        double probability{};
    };

    /// Both arguments are relative and not negative; zero adds nothing.
    void addNormal(double sigma);
    void addRectangular(double halfWidth);

    [[nodiscard]] double sigma() const noexcept;
    /// The density as probabilities of cells of equal width around `effect`, ascending, sum 1;
    /// normal parts are cut at six sigma. One node of effect 0 when nothing was added. The cells
    /// are so narrow (1/500 of the half range) that they add less than 2e-5 to the variance.
    [[nodiscard]] std::vector<Node> nodes() const;

private:
    double m_normalVariance{};
    std::vector<double> m_halfWidths;
};

/// The probability distribution of a spin rate as far as the marks alone decide it. Immutable.
class RateDistribution {
public:
    /// Rate f = 60/T for a period T in seconds. On a piece of the density of T that is α + β·T
    /// between a and b:   E[f]  += 60·(α·ln(b/a) + β·(b-a))
    ///            E[f²] += 3600·(α·(1/a - 1/b) + β·ln(b/a))
    /// For a rectangular T these are 60·ln(b/a)/(b-a) and 3600/(a·b).
    /// Errors: Untrustworthy when the period may be zero.
    static Result<RateDistribution> fromPeriod(timebase::SlopeDensity periodSeconds);
    /// Location and scale of a Student t; infinite degrees of freedom: normal. scale > 0.
    static RateDistribution fromStudent(Measured<Rpm> rate, double degreesOfFreedom);

    [[nodiscard]] Rpm mean() const noexcept { return m_mean; }
    /// Standard deviation for a period; the scale for a Student t (JCGM 100:2008, H.3: u is the
    /// scale, its degrees of freedom go with it).
    [[nodiscard]] Rpm sigma() const noexcept { return m_sigma; }
    [[nodiscard]] double degreesOfFreedom() const noexcept { return m_dof; }
    [[nodiscard]] const std::optional<timebase::SlopeDensity>& period() const noexcept {
        return m_period;
    }
    /// Probability that the rate is at most this.
    [[nodiscard]] double cdf(Rpm rate) const;
    /// Inverse of cdf(); probability in (0, 1).
    [[nodiscard]] Rpm quantile(double probability) const;

private:
    RateDistribution() = default;
    std::optional<timebase::SlopeDensity> m_period;
    Rpm m_mean;
    Rpm m_sigma;
    double m_dof{};
};

/// Probabilistically symmetric coverage interval of rate·(1 + effects), probability in (0, 1).
/// Closed form without effects; otherwise the distribution function of the product
///   P(y) = sum over nodes of probability · cdf(y/(1 + effect))
/// is inverted numerically (algorithm 748 of the ACM, in Boost.Math) to 1e-8 of the range of the
/// rate. Effects of -1 or below are a bug of the caller.
[[nodiscard]] Interval<Rpm> coverageInterval(const RateDistribution& rate,
                                             const RelativeEffects& effects, double probability);

}  // namespace core::spin
