#pragma once

namespace core::stats {

/// Level of an interval or of a family of intervals, strictly between 0 and 1.
struct Confidence {
    double level{0.95};

    /// Error probability left outside, 1 - level.
    [[nodiscard]] constexpr double alpha() const noexcept { return 1.0 - level; }
};

/// A probability, strictly between 0 and 1 where a quantile is asked.
struct Probability {
    double value{};
};

/// Degrees of freedom, positive, not necessarily whole; infinity where a distribution says so.
struct DegreesOfFreedom {
    double value{};
};

/// Numerator and denominator degrees of freedom of a variance ratio.
struct RatioDof {
    DegreesOfFreedom numerator{};
    DegreesOfFreedom denominator{};
};

/// Distance from the null hypothesis of a noncentral distribution.
struct Noncentrality {
    double value{};
};

/// Standard normal distribution. Immutable.
class NormalDistribution {
public:
    [[nodiscard]] double cdf(double z) const;
    [[nodiscard]] double upperTail(double z) const;
    [[nodiscard]] double quantile(Probability p) const;
};

/// Student's t. Immutable. Infinite degrees of freedom give the normal distribution.
class StudentT {
public:
    /// dof must be positive.
    explicit StudentT(DegreesOfFreedom dof);

    [[nodiscard]] double cdf(double t) const;
    [[nodiscard]] double upperTail(double t) const;
    /// P(|T| > |t|).
    [[nodiscard]] double twoSided(double t) const;
    [[nodiscard]] double quantile(Probability p) const;
    /// Factor k with P(|T| <= k) = level (JCGM 100:2008, table G.2).
    [[nodiscard]] double coverageFactor(Confidence confidence) const;

private:
    double m_dof;
};

/// Chi-square distribution. Immutable.
class ChiSquare {
public:
    /// dof must be positive and finite.
    explicit ChiSquare(DegreesOfFreedom dof);

    [[nodiscard]] double cdf(double x) const;
    [[nodiscard]] double upperTail(double x) const;
    [[nodiscard]] double quantile(Probability p) const;

private:
    double m_dof;
};

/// Fisher's F, the ratio of two mean squares. Immutable.
class FDistribution {
public:
    /// Both degrees of freedom must be positive and finite.
    explicit FDistribution(RatioDof dof);

    [[nodiscard]] double cdf(double f) const;
    [[nodiscard]] double upperTail(double f) const;
    [[nodiscard]] double quantile(Probability p) const;
    /// The value exceeded with probability p; keeps its digits where 1 - p would lose them.
    [[nodiscard]] double upperQuantile(Probability p) const;

private:
    RatioDof m_dof;
};

/// Noncentral t: (Z + delta) / sqrt(chi2/dof). Immutable.
class NoncentralT {
public:
    /// dof must be positive and finite, delta finite.
    NoncentralT(DegreesOfFreedom dof, Noncentrality delta);

    [[nodiscard]] double cdf(double t) const;
    [[nodiscard]] double upperTail(double t) const;

private:
    double m_dof;
    double m_delta;
};

}  // namespace core::stats
