#include "core/base/number.h"
#include "core/base/words.h"

#include <gtest/gtest.h>

#include <string>

namespace core {
namespace {

struct Written {
    std::string text;
    double value;
};

// Groups of three by a thin space: SI Brochure (9th edition, 2019), 5.4.4; by a comma or a point,
// the other one being the decimal sign: as currencies are written in English and in German.
TEST(Number, IsReadInEveryUsualForm) {
    for (const auto& [text, value] : std::vector<Written>{{"240", 240.0},
                                                          {"119.88", 119.88},
                                                          {"119,88", 119.88},
                                                          {" 7 ", 7.0},
                                                          {"-35.5", -35.5},
                                                          {"+2", 2.0},
                                                          {"\u22125", -5.0},
                                                          {".5", 0.5},
                                                          {"5.", 5.0},
                                                          {"0,976", 0.976},
                                                          {"23.976", 23.976},
                                                          {"1000", 1000.0},
                                                          {"1 000", 1000.0},
                                                          {"1\u2009000,5", 1000.5},
                                                          {"1\u202F234\u202F567", 1234567.0},
                                                          {"1'000.25", 1000.25},
                                                          {"1\u2019000", 1000.0},
                                                          {"1,000.5", 1000.5},
                                                          {"1.000,5", 1000.5},
                                                          {"1,234,567", 1234567.0},
                                                          {"1.234.567", 1234567.0},
                                                          {"1,234,567.8", 1234567.8},
                                                          {"1,0000", 1.0},
                                                          {"1234,567", 1234.567},
                                                          {"2.5e-3", 0.0025},
                                                          {"1E3", 1000.0}}) {
        const auto read = numberFrom(text);
        ASSERT_TRUE(read) << text << ": " << read.error().message;
        EXPECT_EQ(read.value(), value) << text;
    }
}

TEST(Number, ACommaBeforeThreeDigitsIsAskedAbout) {
    const auto thousand = numberFrom("1,000");
    ASSERT_FALSE(thousand);
    EXPECT_EQ(thousand.error().code, ErrorCode::Contradiction);
    EXPECT_NE(thousand.error().message.find("1000 or 1.000"), std::string::npos)
        << thousand.error().message;
    EXPECT_NE(numberFrom("-23,976").error().message.find("-23976 or -23.976"), std::string::npos);
    EXPECT_EQ(numberFrom("119,880").error().code, ErrorCode::Contradiction);
}

TEST(Number, WhatACommaMeansCanBeSaid) {
    EXPECT_EQ(numberFrom("1,000", CommaMeaning::Decimal).value(), 1.0);
    EXPECT_EQ(numberFrom("1,000", CommaMeaning::Thousands).value(), 1000.0);
    EXPECT_EQ(numberFrom("-23,976", CommaMeaning::Decimal).value(), -23.976);
    EXPECT_EQ(numberFrom("119,88", CommaMeaning::Thousands).value(), 119.88) << "one meaning only";
    EXPECT_EQ(numberFrom("1,000,000", CommaMeaning::Decimal).value(), 1e6);
}

TEST(Number, WhatIsNoneIsRefused) {
    for (const char* text :
         {"",     " ",    "abc",   "12 rpm", "1,00,000",    "1 00",        "12,345.678.9",
          "1..5", "1,,5", "--5",   ".",      ",",           "-",           "1e",
          "nan",  "inf",  "1e999", "0x10",   "1,234.567,8", "1 234,567 8", "1 000.000 000",
          "1_000"}) {
        const auto read = numberFrom(text);
        ASSERT_FALSE(read) << text << " read as " << read.value();
        EXPECT_EQ(read.error().code, ErrorCode::InvalidInput) << text;
    }
}

TEST(Number, APositiveOneMayBeUnknown) {
    EXPECT_EQ(positiveNumberFrom("  ", 1e6).value(), std::nullopt);
    EXPECT_EQ(positiveNumberFrom("67,5", 1e6).value(), 67.5);
    EXPECT_EQ(positiveNumberFrom("0", 1e6).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(positiveNumberFrom("-1", 1e6).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(positiveNumberFrom("2e6", 1e6).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(positiveNumberFrom("1,000", 1e6).error().code, ErrorCode::Contradiction);
}

}  // namespace
}  // namespace core
