#include "core/stats/model/distributions.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>

#include "core/base/expects.h"

namespace core::stats {
namespace {

// Arguments are checked before they reach Boost; what is left is a value too large for a double.
using Policy = boost::math::policies::policy<
    boost::math::policies::overflow_error<boost::math::policies::ignore_error>>;
using BoostNormal = boost::math::normal_distribution<double, Policy>;
using BoostT = boost::math::students_t_distribution<double, Policy>;
using BoostChiSquare = boost::math::chi_squared_distribution<double, Policy>;
using BoostF = boost::math::fisher_f_distribution<double, Policy>;
using BoostNoncentralT = boost::math::non_central_t_distribution<double, Policy>;

bool isInside(Probability p) {
    return p.value > 0.0 && p.value < 1.0;
}

bool isFinitePositive(DegreesOfFreedom dof) {
    return std::isfinite(dof.value) && dof.value > 0.0;
}

BoostF boostF(RatioDof dof) {
    return BoostF{dof.numerator.value, dof.denominator.value};
}

}  // namespace

double NormalDistribution::cdf(double z) const {
    CORE_EXPECTS(!std::isnan(z));
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

double NormalDistribution::upperTail(double z) const {
    CORE_EXPECTS(!std::isnan(z));
    return 0.5 * std::erfc(z / std::numbers::sqrt2);
}

double NormalDistribution::quantile(Probability p) const {
    CORE_EXPECTS(isInside(p));
    return boost::math::quantile(BoostNormal{}, p.value);
}

StudentT::StudentT(DegreesOfFreedom dof) : m_dof{dof.value} {
    CORE_EXPECTS(dof.value > 0.0);
}

double StudentT::cdf(double t) const {
    CORE_EXPECTS(!std::isnan(t));
    return boost::math::cdf(BoostT{m_dof}, t);
}

double StudentT::upperTail(double t) const {
    CORE_EXPECTS(!std::isnan(t));
    return boost::math::cdf(boost::math::complement(BoostT{m_dof}, t));
}

double StudentT::twoSided(double t) const {
    return 2.0 * upperTail(std::abs(t));
}

double StudentT::quantile(Probability p) const {
    CORE_EXPECTS(isInside(p));
    return boost::math::quantile(BoostT{m_dof}, p.value);
}

double StudentT::coverageFactor(Confidence confidence) const {
    CORE_EXPECTS(isInside({confidence.level}));
    return boost::math::quantile(boost::math::complement(BoostT{m_dof}, 0.5 * confidence.alpha()));
}

ChiSquare::ChiSquare(DegreesOfFreedom dof) : m_dof{dof.value} {
    CORE_EXPECTS(isFinitePositive(dof));
}

double ChiSquare::cdf(double x) const {
    CORE_EXPECTS(x >= 0.0);
    return boost::math::cdf(BoostChiSquare{m_dof}, x);
}

double ChiSquare::upperTail(double x) const {
    CORE_EXPECTS(x >= 0.0);
    return boost::math::cdf(boost::math::complement(BoostChiSquare{m_dof}, x));
}

double ChiSquare::quantile(Probability p) const {
    CORE_EXPECTS(isInside(p));
    return boost::math::quantile(BoostChiSquare{m_dof}, p.value);
}

FDistribution::FDistribution(RatioDof dof) : m_dof{dof} {
    CORE_EXPECTS(isFinitePositive(dof.numerator) && isFinitePositive(dof.denominator));
}

double FDistribution::cdf(double f) const {
    CORE_EXPECTS(f >= 0.0);
    return std::isinf(f) ? 1.0 : boost::math::cdf(boostF(m_dof), f);
}

double FDistribution::upperTail(double f) const {
    CORE_EXPECTS(f >= 0.0);
    return std::isinf(f) ? 0.0 : boost::math::cdf(boost::math::complement(boostF(m_dof), f));
}

double FDistribution::quantile(Probability p) const {
    CORE_EXPECTS(isInside(p));
    return boost::math::quantile(boostF(m_dof), p.value);
}

double FDistribution::upperQuantile(Probability p) const {
    CORE_EXPECTS(isInside(p));
    return boost::math::quantile(boost::math::complement(boostF(m_dof), p.value));
}

NoncentralT::NoncentralT(DegreesOfFreedom dof, Noncentrality delta)
    : m_dof{dof.value}, m_delta{delta.value} {
    CORE_EXPECTS(isFinitePositive(dof) && std::isfinite(delta.value));
}

double NoncentralT::cdf(double t) const {
    CORE_EXPECTS(std::isfinite(t));
    return boost::math::cdf(BoostNoncentralT{m_dof, m_delta}, t);
}

double NoncentralT::upperTail(double t) const {
    CORE_EXPECTS(std::isfinite(t));
    return boost::math::cdf(boost::math::complement(BoostNoncentralT{m_dof, m_delta}, t));
}

}  // namespace core::stats
