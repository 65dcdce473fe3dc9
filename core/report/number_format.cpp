#include "core/report/number_format.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/words.h"

namespace core::report {

std::optional<int> decimalsFor(double sigma) {
    if (!std::isfinite(sigma) || sigma <= 0.0) {
        return std::nullopt;
    }
    auto exponent = static_cast<int>(std::floor(std::log10(sigma)));
    // Rounding to two digits may carry: 9.96 becomes 10.
    const double scaled = std::round(sigma / std::pow(10.0, exponent - 1));
    if (scaled >= 100.0) {
        ++exponent;
    }
    return std::max(0, 1 - exponent);
}

std::string fixed(double value, int decimals) {
    if (!std::isfinite(value)) {
        return "–";
    }
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) {
        text.erase(0, 1);
    }
    return words::decimal(std::move(text));
}

std::string withDigitsOf(double value, double sigma) {
    return fixed(value, decimalsFor(sigma).value_or(1));
}

std::string plusMinus(double value, double sigma) {
    return withDigitsOf(value, sigma) + " ± " + withDigitsOf(sigma, sigma);
}

std::string intervalText(double low, double high, double sigma) {
    return said("{} to {}", withDigitsOf(low, sigma), withDigitsOf(high, sigma));
}

std::string shortest(double value) {
    return std::isfinite(value) ? words::decimal(fmt::format("{}", value)) : "–";
}

std::string roundTrip(double value) {
    return std::isfinite(value) ? fmt::format("{}", value) : std::string{};
}

}  // namespace core::report
