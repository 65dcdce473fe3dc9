#include "core/publish/tables/workbook.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/core/publish/published_folder.h"

namespace core::publish {
namespace {

using nlohmann::json;

class PublishedWorkbook : public tests::PublishedFolder {};

TEST_F(PublishedWorkbook, IsAWellFormedArchiveWithoutFormulas) {
    auto names = tests::hostileNames();
    publishInto("out", tests::inventedMaterial(names));
    const auto read = tests::runProgram(
        {"python3", tests::scriptFile("check_workbook.py"), folder.file("out/findings.xlsx")});
    ASSERT_EQ(read.status, 0) << read.errors;
    const json book = json::parse(read.output);
    EXPECT_EQ(book["sheets"],
              json({"columns", "about", "ranking", "pairs", "comparisons", "ranking_by_hitter",
                    "pairs_by_hitter", "drift", "summary", "cell_parts", "implements", "hitters",
                    "days", "shots", "readings", "shared_parts", "history"}));
    // A header and 8 implements x 2 hitters x 7 shots.
    EXPECT_EQ(book["rows"]["xl/worksheets/sheet14.xml"], 113);
    const auto texts = book["texts"].get<std::vector<std::string>>();
    for (const auto* text :
         {"=cmd(\"x\")", "../../x", "\xF0\x9F\x8E\xBE racket \xF0\x9F\x94\xA5"}) {
        EXPECT_NE(std::find(texts.begin(), texts.end(), text), texts.end()) << text;
    }
}

// LibreOffice's filter for CSV: comma, quote, UTF-8, values rather than what is shown, every sheet.
TEST_F(PublishedWorkbook, SpreadsheetProgramReadsTheSameTables) {
    if (!tests::hasProgram("soffice")) {
        GTEST_SKIP() << "no spreadsheet program (soffice) is installed";
    }
    publishInto("out", tests::inventedMaterial({}));
    const auto opened = tests::runProgram(
        {"soffice", "-env:UserInstallation=file://" + folder.file("profile"), "--headless",
         "--convert-to",
         "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1",
         "--outdir", folder.file("csv"), folder.file("out/findings.xlsx")});
    ASSERT_EQ(opened.status, 0) << opened.errors;
    EXPECT_NE(tests::bytesOf(folder.path() / "csv" / "findings-columns.csv").find("invented bench"),
              std::string::npos);
    const auto compared = tests::runProgram({"python3", tests::scriptFile("check_converted.py"),
                                             folder.file("out"), folder.file("csv")});
    ASSERT_EQ(compared.status, 0) << compared.errors;
    // 3 implements x 2 hitters x 7 shots.
    EXPECT_EQ(json::parse(compared.output)["shots"], 42);
}

// ECMA-376: a sheet ends at row 1,048,576.
TEST(Workbook, TableThatNoSheetHoldsIsRefused) {
    tests::TemporaryFolder folder;
    report::Table table{
        "long", "Long", "Too long.", {{"n", report::FieldType::Whole, "", "n"}}, {}};
    table.rows.resize(1'048'576, {report::Cell{}});
    const auto done = writeWorkbook(folder.path() / "x.xlsx", {table}, {});
    ASSERT_FALSE(done.has_value());
    EXPECT_EQ(done.error().code, ErrorCode::Unsupported);
}

}  // namespace
}  // namespace core::publish
