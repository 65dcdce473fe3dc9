#include "core/base/text_table.h"

#include <gtest/gtest.h>

namespace core {
namespace {

using Fields = std::vector<std::string>;

TextTable tableOf(std::string_view text) {
    auto table = readTextTable(text);
    EXPECT_TRUE(table) << table.error().message;
    return table ? std::move(table).value() : TextTable{};
}

std::string troubleWith(std::string_view text) {
    const auto table = readTextTable(text);
    EXPECT_FALSE(table);
    if (table) {
        return {};
    }
    EXPECT_EQ(table.error().code, ErrorCode::InvalidInput);
    return table.error().message;
}

bool says(const std::string& message, std::string_view part) {
    return message.find(part) != std::string::npos;
}

// RFC 4180, section 2: rule 5 (quotes), rule 6 (line breaks, quotes and commas in quotes) and rule
// 7 (a doubled quote); the examples there are aaa,bbb,ccc.
TEST(TextTableTest, FieldsAreReadAsRfc4180Says) {
    const auto table =
        tableOf("\"aaa\",bbb,ccc\r\n\"b \r\nbb\",\"a,\"\"b\"\"\",ccc\r\nzzz,yyy,xxx");
    EXPECT_EQ(table.columns, (Fields{"aaa", "bbb", "ccc"}));
    ASSERT_EQ(table.rows.size(), 2U);
    EXPECT_EQ(table.rows[0].fields, (Fields{"b \r\nbb", "a,\"b\"", "ccc"}));
    EXPECT_EQ(table.rows[1].fields, (Fields{"zzz", "yyy", "xxx"}));
    EXPECT_EQ(table.rows[1].number, 3U) << "a quoted line break does not begin a row";
}

TEST(TextTableTest, SeparatorIsTheOneThatTheHeaderHasMostOf) {
    EXPECT_EQ(tableOf("a;b, c;d\n1;2;3\n").columns, (Fields{"a", "b, c", "d"}));
    EXPECT_EQ(tableOf("a\tb\n1,5\t2\n").rows[0].fields, (Fields{"1,5", "2"}));
    EXPECT_EQ(tableOf("\"x;y;z\",b\n1,2\n").columns, (Fields{"x;y;z", "b"}));
    EXPECT_EQ(tableOf("name\ngut\n").rows[0].fields, Fields{"gut"});
}

TEST(TextTableTest, ByteOrderMarkAndEveryLineEndAreTaken) {
    for (const char* text : {"\xEF\xBB\xBF"
                             "a,b\n1,2",
                             "a,b\r1,2\r", "a,b\r\n1,2\r\n"}) {
        const auto table = tableOf(text);
        EXPECT_EQ(table.columns, (Fields{"a", "b"}));
        ASSERT_EQ(table.rows.size(), 1U);
        EXPECT_EQ(table.rows[0].fields, (Fields{"1", "2"}));
    }
}

TEST(TextTableTest, EmptyRowsAreLeftOutAndShortOnesFilled) {
    const auto table = tableOf("\na,b,\n,,\n1\n\n 2 ,3,,\n");
    EXPECT_EQ(table.columns, (Fields{"a", "b"}));
    ASSERT_EQ(table.rows.size(), 2U);
    EXPECT_EQ(table.rows[0].fields, (Fields{"1", ""}));
    EXPECT_EQ(table.rows[0].number, 4U);
    EXPECT_EQ(table.rows[1].fields, (Fields{"2", "3"}));
    EXPECT_EQ(table.rows[1].number, 6U);
}

TEST(TextTableTest, ErrorsNameRowAndColumn) {
    EXPECT_TRUE(says(troubleWith("a,b\n1,2,3\n"), "Row 2, column C"));
    EXPECT_TRUE(says(troubleWith("a,b\n1,2\n3,\"x\n"), "Row 3, column B"));
    EXPECT_TRUE(says(troubleWith("a,b\n\"x\"y,2\n"), "Row 2, column A"));
    EXPECT_TRUE(says(troubleWith("a,,b\n"), "Row 1, column B"));
    EXPECT_TRUE(says(troubleWith("mass,Mass\n"), "Row 1, column B"));
    EXPECT_TRUE(says(troubleWith(""), "empty"));
}

// RFC 3629, section 3 and 4: overlong forms, surrogates, what lies beyond U+10FFFF, cut characters.
TEST(TextTableTest, TextThatIsNoUtf8IsRefused) {
    EXPECT_TRUE(isUtf8Text("Schläger, 網球, \xF4\x8F\xBF\xBF"));
    for (const std::string_view bad :
         {std::string_view{"\xC0\x80"}, std::string_view{"\xE0\x80\xAF"},
          std::string_view{"\xED\xA0\x80"}, std::string_view{"\xF4\x90\x80\x80"},
          std::string_view{"Schl\xE4ger"}, std::string_view{"ab\xC3"}, std::string_view{"\0", 1}}) {
        EXPECT_FALSE(isUtf8Text(bad));
    }
    EXPECT_TRUE(says(troubleWith("Schl\xE4ger\n"), "UTF-8"));
}

// The names that every spreadsheet gives: 26 letters, then pairs; common practice, no source.
TEST(TextTableTest, ColumnsAreLetteredAsInASpreadsheet) {
    EXPECT_EQ(columnLetters(0), "A");
    EXPECT_EQ(columnLetters(25), "Z");
    EXPECT_EQ(columnLetters(26), "AA");
    EXPECT_EQ(columnLetters(701), "ZZ");
    EXPECT_EQ(columnLetters(702), "AAA");
}

TEST(TextTableTest, ColumnsAreFoundInEitherCase) {
    const auto table = tableOf("Name,Mass\ngut,1\n");
    EXPECT_EQ(table.column("mass"), std::optional<std::size_t>{1});
    EXPECT_EQ(table.column("price"), std::nullopt);
}

}  // namespace
}  // namespace core
