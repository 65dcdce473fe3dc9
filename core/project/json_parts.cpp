#include "core/project/json_parts.h"

#include "core/base/words.h"

namespace core::project {

Json toJson(const timebase::Rational& fraction) {
    return {{"num", fraction.num()}, {"den", fraction.den()}};
}

timebase::Rational rationalFrom(const Json& json) {
    constexpr std::int64_t kLargest = std::int64_t{1} << 62;  // reducing a fraction stays in range
    const auto num = wholeFrom<std::int64_t>(json.at("num"));
    const auto den = wholeFrom<std::int64_t>(json.at("den"));
    if (den <= 0 || den > kLargest || num > kLargest || num < -kLargest) {
        throw BadJson(said("a fraction has no valid denominator"));
    }
    return {num, den};
}

}  // namespace core::project
