#include "core/report/csv.h"

#include <gtest/gtest.h>

namespace core::report {
namespace {

std::string oneField(std::string_view value) {
    CsvWriter csv{{"a"}};
    csv.text(value).endRow();
    return csv.content().substr(3);  // after the header row "a\r\n"
}

// RFC 4180, section 2: rule 1 (CRLF), rules 6 and 7 (quotes around fields with commas, quotes and
// line breaks; a quote is doubled).
TEST(Csv, FieldsAreQuotedAsRfc4180Says) {
    EXPECT_EQ(oneField("plain"), "plain\r\n");
    EXPECT_EQ(oneField("gut, 25 kg"), "\"gut, 25 kg\"\r\n");
    EXPECT_EQ(oneField("the \"new\" one"), "\"the \"\"new\"\" one\"\r\n");
    EXPECT_EQ(oneField("two\nlines"), "\"two\nlines\"\r\n");
}

TEST(Csv, TextThatASpreadsheetWouldRunIsNeutralised) {
    for (const char* formula : {"=1+1", "+1", "-1+2", "@sum", "\tx"}) {
        EXPECT_EQ(oneField(formula), std::string{"'"} + formula + "\r\n");
    }
}

TEST(Csv, NegativeNumbersStayNumbers) {
    CsvWriter csv{{"a", "b"}};
    csv.number(-1.5).whole(-3).endRow();
    EXPECT_EQ(csv.content(), "a,b\r\n-1.5,-3\r\n");
}

TEST(CsvDeathTest, RowOfTheWrongLengthIsABug) {
    CsvWriter csv{{"a", "b"}};
    csv.text("only one");
    EXPECT_DEATH(csv.endRow(), "precondition");
}

}  // namespace
}  // namespace core::report
