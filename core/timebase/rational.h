#pragma once

#include <compare>
#include <cstdint>
#include <string>

#include "core/base/result.h"

namespace core::timebase {

/// An exact fraction in lowest terms with a positive denominator. Immutable.
///
/// Arithmetic is exact; a result whose reduced form leaves 64 bits stops the program
/// (CORE_EXPECTS): time stamps and rates of real files stay far from it.
class Rational {
public:
    constexpr Rational() = default;
    constexpr Rational(std::int64_t whole) noexcept : m_num{whole} {}  // NOLINT(*-explicit-*): a
    // whole number is a fraction
    /// den must not be zero.
    Rational(std::int64_t num, std::int64_t den);

    /// The closest fraction to a decimal number whose denominator is at most maxDenominator, by
    /// continued fractions. Errors: NotFinite; OutOfRange beyond 1e12 in magnitude.
    static Result<Rational> fromDecimal(double value, std::int64_t maxDenominator = 1'000'000);

    [[nodiscard]] constexpr std::int64_t num() const noexcept { return m_num; }
    [[nodiscard]] constexpr std::int64_t den() const noexcept { return m_den; }
    [[nodiscard]] double toDouble() const noexcept;
    /// "num/den", also for whole numbers ("240/1").
    [[nodiscard]] std::string toString() const;

    friend Rational operator+(const Rational& a, const Rational& b);
    friend Rational operator-(const Rational& a, const Rational& b);
    friend Rational operator*(const Rational& a, const Rational& b);
    /// b must not be zero.
    friend Rational operator/(const Rational& a, const Rational& b);
    friend bool operator==(const Rational& a, const Rational& b) = default;
    friend std::strong_ordering operator<=>(const Rational& a, const Rational& b) noexcept;

private:
    std::int64_t m_num{0};
    std::int64_t m_den{1};
};

}  // namespace core::timebase
