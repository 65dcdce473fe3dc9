#include "core/timebase/rational.h"

#include <cmath>
#include <limits>
#include <numeric>

#include "core/base/expects.h"
#include "core/base/words.h"

namespace core::timebase {
namespace {

__extension__ using Wide = __int128;

Wide gcdOf(Wide a, Wide b) {
    while (b != 0) {
        const Wide rest = a % b;
        a = b;
        b = rest;
    }
    return a < 0 ? -a : a;
}

Rational reduced(Wide num, Wide den) {
    CORE_EXPECTS(den != 0);
    if (den < 0) {
        num = -num;
        den = -den;
    }
    const Wide divisor = gcdOf(num, den);
    if (divisor > 1) {
        num /= divisor;
        den /= divisor;
    }
    constexpr Wide kMax = std::numeric_limits<std::int64_t>::max();
    CORE_EXPECTS(num <= kMax && num >= -kMax && den <= kMax);
    return {static_cast<std::int64_t>(num), static_cast<std::int64_t>(den)};
}

}  // namespace

Rational::Rational(std::int64_t num, std::int64_t den) {
    CORE_EXPECTS(den != 0);
    const std::int64_t divisor = std::gcd(num, den);
    const std::int64_t sign = den < 0 ? -1 : 1;
    m_num = divisor == 0 ? 0 : sign * (num / divisor);
    m_den = divisor == 0 ? 1 : sign * (den / divisor);
}

Result<Rational> Rational::fromDecimal(double value, std::int64_t maxDenominator) {
    CORE_EXPECTS(maxDenominator >= 1);
    if (!std::isfinite(value)) {
        return fail(ErrorCode::NotFinite, said("The number is not finite."));
    }
    if (std::abs(value) > 1e12) {
        return fail(ErrorCode::OutOfRange,
                    said("The number is beyond 1e12 and cannot be a rate or a time."));
    }
    // Convergents h/k of the continued fraction, until the next denominator would be too large.
    const double sign = value < 0 ? -1.0 : 1.0;
    const double target = std::abs(value);
    double rest = target;
    std::int64_t hBefore = 1;
    std::int64_t kBefore = 0;
    auto h = static_cast<std::int64_t>(std::floor(rest));
    std::int64_t k = 1;
    while (static_cast<double>(h) / static_cast<double>(k) != target) {
        const double fraction = rest - std::floor(rest);
        if (fraction < 1e-12) {
            break;
        }
        rest = 1.0 / fraction;
        if (rest > 1e12) {
            break;
        }
        const auto term = static_cast<std::int64_t>(std::floor(rest));
        const Wide kNext = Wide{term} * k + kBefore;
        const Wide hNext = Wide{term} * h + hBefore;
        if (kNext > maxDenominator || hNext > std::numeric_limits<std::int64_t>::max()) {
            break;
        }
        hBefore = h;
        kBefore = k;
        h = static_cast<std::int64_t>(hNext);
        k = static_cast<std::int64_t>(kNext);
    }
    return Rational{sign < 0 ? -h : h, k};
}

double Rational::toDouble() const noexcept {
    return static_cast<double>(static_cast<long double>(m_num) / static_cast<long double>(m_den));
}

std::string Rational::toString() const {
    return std::to_string(m_num) + "/" + std::to_string(m_den);
}

Rational operator+(const Rational& a, const Rational& b) {
    return reduced(Wide{a.m_num} * b.m_den + Wide{b.m_num} * a.m_den, Wide{a.m_den} * b.m_den);
}
Rational operator-(const Rational& a, const Rational& b) {
    return reduced(Wide{a.m_num} * b.m_den - Wide{b.m_num} * a.m_den, Wide{a.m_den} * b.m_den);
}
Rational operator*(const Rational& a, const Rational& b) {
    return reduced(Wide{a.m_num} * b.m_num, Wide{a.m_den} * b.m_den);
}
Rational operator/(const Rational& a, const Rational& b) {
    CORE_EXPECTS(b.m_num != 0);
    return reduced(Wide{a.m_num} * b.m_den, Wide{a.m_den} * b.m_num);
}
std::strong_ordering operator<=>(const Rational& a, const Rational& b) noexcept {
    const Wide left = Wide{a.m_num} * b.m_den;
    const Wide right = Wide{b.m_num} * a.m_den;
    return left < right   ? std::strong_ordering::less
           : left > right ? std::strong_ordering::greater
                          : std::strong_ordering::equal;
}

}  // namespace core::timebase
