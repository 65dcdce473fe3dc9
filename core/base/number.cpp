#include "core/base/number.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>

#include "core/base/text_table.h"
#include "core/base/words.h"

namespace core {
namespace {

constexpr std::string_view kDigits = "0123456789";
constexpr std::size_t kGroup = 3;
/// Signs that group thousands and nothing else: blank, apostrophe, and in UTF-8 no-break blank,
/// thin blank, narrow no-break blank and the typographic apostrophe.
constexpr std::array<std::string_view, 6> kGroupers{" ",      "'",      "\u00A0",
                                                    "\u2009", "\u202F", "\u2019"};

auto noNumber(std::string_view text) {
    return fail(ErrorCode::InvalidInput,
                said("\"{}\" is not a number. Write it like 240 or 119.88.", text));
}

std::size_t grouperAt(std::string_view text) {
    for (const std::string_view sign : kGroupers) {
        if (text.starts_with(sign)) {
            return sign.size();
        }
    }
    return 0;
}

/// The whole part with an apostrophe for every sign that groups and nothing else.
std::string withPlainGroups(std::string_view text) {
    std::string plain;
    while (!text.empty()) {
        const std::size_t size = grouperAt(text);
        plain += size > 0 ? '\'' : text.front();
        text.remove_prefix(std::max<std::size_t>(size, 1));
    }
    return plain;
}

/// Digits that may stand in groups of three, the first of one to three; absent when they do not.
std::optional<std::string> ungrouped(const std::string& whole, char grouper) {
    std::string digits;
    for (std::size_t begin = 0; begin <= whole.size();) {
        const std::size_t end = std::min(whole.find(grouper, begin), whole.size());
        const std::size_t size = end - begin;
        const bool isOnlyGroup = begin == 0 && end == whole.size();
        const bool fits =
            isOnlyGroup || (begin == 0 ? size >= 1 && size <= kGroup : size == kGroup);
        if (!fits) {
            return std::nullopt;
        }
        digits.append(whole, begin, size);
        begin = end + 1;
    }
    return digits.find_first_not_of(kDigits) == std::string::npos ? std::optional{digits}
                                                                  : std::nullopt;
}

/// An unsigned number without exponent, as digits with a decimal point; absent when it is none.
std::optional<std::string> plainDecimal(const std::string& text) {
    const auto points = std::count(text.begin(), text.end(), '.');
    const auto commas = std::count(text.begin(), text.end(), ',');
    // The last sign is the decimal one, unless it stands more than once.
    const std::size_t last = text.find_last_of(".,");
    const bool groups = last != std::string::npos && (text[last] == '.' ? points : commas) > 1;
    const std::size_t decimal = groups ? std::string::npos : last;
    const std::string whole = text.substr(0, decimal);
    const std::string fraction =
        decimal == std::string::npos ? std::string{} : text.substr(decimal + 1);
    const std::size_t grouper = whole.find_first_of(".,'");
    const auto digits = ungrouped(whole, grouper == std::string::npos ? '\'' : whole[grouper]);
    if (!digits || fraction.find_first_not_of(kDigits) != std::string::npos ||
        digits->size() + fraction.size() == 0) {
        return std::nullopt;
    }
    return *digits + "." + fraction;
}

/// One comma with one to three digits before it, the first no zero, and three behind it.
bool isAmbiguous(std::string_view text) {
    const std::size_t comma = text.find(',');
    return comma >= 1 && comma <= kGroup && text.size() == comma + 1 + kGroup &&
           text.front() != '0' && text.find_first_not_of("0123456789,") == std::string_view::npos &&
           text.find(',', comma + 1) == std::string_view::npos;
}

auto twoReadings(std::string_view given) {
    std::string point{given};
    std::replace(point.begin(), point.end(), ',', '.');
    std::string whole{given};
    std::erase(whole, ',');
    return fail(ErrorCode::Contradiction,
                said("\"{}\" can mean {} or {}. Write the one that is meant without a comma.",
                     given, whole, point));
}

}  // namespace

Result<double> numberFrom(std::string_view text, CommaMeaning comma) {
    const std::string_view given = withoutOuterSpace(text);
    std::string_view rest = given;
    const bool isNegative = rest.starts_with('-') || rest.starts_with("\u2212");
    if (isNegative || rest.starts_with('+')) {
        rest.remove_prefix(rest.starts_with("\u2212") ? 3 : 1);
    }
    const std::size_t exponentAt = std::min(rest.find_first_of("eE"), rest.size());
    const std::string_view mantissa = rest.substr(0, exponentAt);
    std::string plain = withPlainGroups(mantissa);
    if (isAmbiguous(mantissa) && exponentAt == rest.size()) {
        if (comma == CommaMeaning::Ask) {
            return twoReadings(given);
        }
        std::replace(plain.begin(), plain.end(), ',', comma == CommaMeaning::Decimal ? '.' : '\'');
    }
    const auto decimal = plainDecimal(plain);
    if (!decimal) {
        return noNumber(given);
    }
    const std::string number = *decimal + std::string{rest.substr(exponentAt)};
    double value = 0.0;
    const auto [end, problem] =
        std::from_chars(number.data(), number.data() + number.size(), value);
    if (problem != std::errc{} || end != number.data() + number.size() || !std::isfinite(value)) {
        return noNumber(given);
    }
    return isNegative ? -value : value;
}

Result<std::optional<double>> positiveNumberFrom(std::string_view text, double most) {
    if (withoutOuterSpace(text).empty()) {
        return std::optional<double>{};
    }
    BOOST_OUTCOME_TRY(value, numberFrom(text));
    if (!(value > 0.0) || value > most) {
        return fail(ErrorCode::OutOfRange,
                    value > most
                        ? said("\"{}\" is not a number that can be right. Leave the field empty if "
                               "you do not know.",
                               withoutOuterSpace(text))
                        : said("\"{}\" is not a positive number. Leave the field empty if you do "
                               "not know.",
                               withoutOuterSpace(text)));
    }
    return std::optional{value};
}

}  // namespace core
