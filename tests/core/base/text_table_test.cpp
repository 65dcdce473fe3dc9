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

TEST(TextTableTest, SeparatorIsTheOneThatMostLinesHaveAsOften) {
    EXPECT_EQ(tableOf("a;b, c;d\n1;2;3\n").columns, (Fields{"a", "b, c", "d"}));
    EXPECT_EQ(tableOf("a\tb\n1,5\t2\n").rows[0].fields, (Fields{"1,5", "2"}));
    EXPECT_EQ(tableOf("\"x;y;z\",b\n1,2\n").columns, (Fields{"x;y;z", "b"}));
    EXPECT_EQ(tableOf("name\ngut\n").rows[0].fields, Fields{"gut"});
    EXPECT_EQ(tableOf("a;b\n1,5;2,5\n3,5;4,5\n").rows[1].fields, (Fields{"3,5", "4,5"}));
    EXPECT_EQ(tableOf("a;b;c\ngut, old, very;A;5\n").columns, (Fields{"a", "b", "c"}));
    EXPECT_EQ(tableOf("name,size\nlong 27\" one,1\nshort 26\",2\n").rows[0].fields,
              (Fields{"long 27\" one", "1"}));
}

TEST(TextTableTest, AGridKeepsEveryRowWithContent) {
    const auto grid = readTextGrid("Counts of May;;\n\n;A;;\ngut;5;6\n").value();
    EXPECT_EQ(grid.separator, ';');
    EXPECT_EQ(separatorName(grid.separator), "semicolon");
    EXPECT_EQ(grid.columns, 3U);
    ASSERT_EQ(grid.rows.size(), 3U);
    EXPECT_EQ(grid.rows[1].number, 3U);
    EXPECT_EQ(grid.rows[1].fields, (Fields{"", "A", ""}));
    EXPECT_TRUE(readTextGrid("").value().rows.empty());
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
