#include "core/base/whole_number.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace core {
namespace {

using nlohmann::json;

// RFC 8259, section 6: numbers that are whole and in [-(2^53)+1, (2^53)-1] are understood alike
// everywhere; a double beyond the range of an integer cannot be converted ([conv.fpint] of C++20).
TEST(WholeNumber, IsTheNumberThatIsWritten) {
    EXPECT_EQ(wholeFrom<int>(json::parse("12")), 12);
    EXPECT_EQ(wholeFrom<int>(json::parse("-12")), -12);
    EXPECT_EQ(wholeFrom<int>(json::parse("12.0")), 12);
    EXPECT_EQ(wholeFrom<int>(json::parse("1.2e1")), 12);
    EXPECT_EQ(wholeFrom<std::int64_t>(json::parse("-9223372036854775808")), INT64_MIN);
    EXPECT_EQ(wholeFrom<std::uint64_t>(json::parse("18446744073709551615")), UINT64_MAX);
}

TEST(WholeNumber, ThatCannotBeHeldIsRefused) {
    for (const char* text : {"1e300", "-1e300", "0.5", "9223372036854775808", "1e17"}) {
        EXPECT_THROW(wholeFrom<std::int64_t>(json::parse(text)), std::out_of_range) << text;
    }
    // 2^32 + 1, of which a conversion would make 1.
    EXPECT_THROW(wholeFrom<int>(json::parse("4294967297")), std::out_of_range);
    EXPECT_THROW(wholeFrom<int>(json::parse("-2147483649")), std::out_of_range);
    EXPECT_THROW(wholeFrom<std::size_t>(json::parse("-1")), std::out_of_range);
    EXPECT_THROW(wholeFrom<int>(json::parse("\"12\"")), json::type_error);
    EXPECT_THROW(wholeFrom<int>(json::parse("null")), json::type_error);
}

}  // namespace
}  // namespace core
