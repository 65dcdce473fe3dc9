#include "core/publish/page/page.h"

#include <gtest/gtest.h>

#include "core/base/version.h"
#include "tests/core/publish/published_folder.h"

namespace core::publish {
namespace {

class PublishedPage : public tests::PublishedFolder {};

std::string textOfPage(const std::string& file) {
    const auto read = tests::runProgram({"python3", tests::scriptFile("check_page.py"), file});
    EXPECT_EQ(read.status, 0) << read.errors;
    return read.output;
}

TEST_F(PublishedPage, IsWellFormedAndLoadsNothing) {
    publishInto("out", tests::inventedMaterial({}));
    const std::string text = textOfPage(folder.file("out/index.html"));
    for (const char* words : {"implement three", "invented bench", "revision 57", "2026-05-18",
                              "governing body", "eye protection", "mishit"}) {
        EXPECT_NE(text.find(words), std::string::npos) << words;
    }
    EXPECT_NE(text.find(programName()), std::string::npos);
}

TEST_F(PublishedPage, HostileNamesAreHarmlessAndLegible) {
    publishInto("out", tests::inventedMaterial(tests::hostileNames()));
    const std::string text = textOfPage(folder.file("out/index.html"));
    for (const char* words :
         {"=cmd(\"x\")", "<script>alert(1)</script>", "../../x", "\xF0\x9F\x8E\xBE racket",
          "\xD7\x9E\xD7\x97\xD7\x91\xD7\x98", "]]>--><b>&amp;", "onerror=alert(1)"}) {
        EXPECT_NE(text.find(words), std::string::npos) << words;
    }
    const std::string source = tests::bytesOf(folder.path() / "out" / "index.html");
    EXPECT_EQ(source.find("<script"), std::string::npos);
    EXPECT_EQ(source.find("<img src=http"), std::string::npos);
    // NOLINTNEXTLINE(misc-misleading-bidirectional): it must not be there
    EXPECT_EQ(source.find("\xE2\x80\xAE"), std::string::npos) << "a code that turns directions";
}

TEST_F(PublishedPage, DateStandsInOneLineOnly) {
    publishInto("out", tests::inventedMaterial({}));
    std::size_t lines = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator{folder.path()}) {
        if (entry.is_regular_file()) {
            const std::string bytes = tests::bytesOf(entry.path());
            for (auto at = bytes.find("2026-05-18"); at != std::string::npos;
                 at = bytes.find("2026-05-18", at + 1)) {
                ++lines;
            }
        }
    }
    EXPECT_EQ(lines, 1U);
}

TEST_F(PublishedPage, PdfHasPagesWithTheSameWords) {
    if (!tests::hasProgram("pdftotext")) {
        GTEST_SKIP() << "pdftotext is not installed";
    }
    publishInto("out", tests::inventedMaterial(tests::hostileNames()));
    const auto info = tests::runProgram({"pdfinfo", folder.file("out/findings.pdf")});
    ASSERT_EQ(info.status, 0) << info.errors;
    EXPECT_NE(info.output.find("A4"), std::string::npos) << info.output;
    EXPECT_NE(info.output.find(programName()), std::string::npos) << info.output;
    const auto text = tests::runProgram({"pdftotext", folder.file("out/findings.pdf"), "-"});
    ASSERT_EQ(text.status, 0) << text.errors;
    for (const char* words : {"../../x", "=cmd(", "governing body", "How it was measured"}) {
        EXPECT_NE(text.output.find(words), std::string::npos) << words;
    }
}

std::size_t countOf(const std::string& text, const std::string& what) {
    std::size_t count = 0;
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++count;
    }
    return count;
}

TEST_F(PublishedPage, TableChartAndAtMostTenLinesComeFirstAndTheRestIsFolded) {
    publishInto("out", tests::inventedMaterial(tests::manyImplements(27)));
    const std::string page = tests::bytesOf(folder.path() / "out" / "index.html");
    const std::string first =
        page.substr(page.find("<section"), page.find("</section>") - page.find("<section"));
    const auto table = first.find("<table>");
    const auto chart = first.find("<svg");
    const auto lines = first.find("<ul>");
    ASSERT_NE(lines, std::string::npos);
    EXPECT_LT(table, chart);
    EXPECT_LT(chart, lines);
    EXPECT_EQ(countOf(first, "<tr>"), 28U);  // a head and 27 implements
    EXPECT_GE(countOf(first, "<li "), 2U);
    EXPECT_LE(countOf(first, "<li "), 10U);
    // All sections but the findings and the cautions.
    EXPECT_EQ(countOf(page, "<details>") + 2, countOf(page, "<section"));
}

TEST_F(PublishedPage, ReaderWithoutANameDoesNotAppear) {
    tests::InventedNames names;
    names.reader.clear();
    publishInto("out", tests::inventedMaterial(names));
    const std::string text = textOfPage(folder.file("out/index.html"));
    for (const char* words : {"by ;", "by .", "by ,", "by  ", "reader who is not named"}) {
        EXPECT_EQ(text.find(words), std::string::npos) << words;
    }
    EXPECT_NE(text.find("Read: 36 shots from marks; version"), std::string::npos);
}

TEST_F(PublishedPage, OneShotIsOneEverywhere) {
    tests::InventedNames names;
    names.implements = {"implement one"};
    names.hitters = {"Nadir"};
    auto material = tests::inventedMaterial(names, 1);
    publishInto("out", material);
    tests::bytesOf(folder.path() / "out" / "index.html");
    const auto read = tests::runProgram(
        {"python3", "-c",
         "import re,sys,html\n"
         "print(html.unescape(re.sub('<[^>]*>', '', open(sys.argv[1], encoding='utf-8').read())))",
         folder.file("out/index.html")});
    for (const char* words : {"1 implement, 1 hitter, 1 shot that counts", "is not compared"}) {
        EXPECT_NE(read.output.find(words), std::string::npos) << words;
    }
    for (const char* words : {"1 shots", "1 hitters", "(s)", "keep a second", "Ranks: simulated"}) {
        EXPECT_EQ(read.output.find(words), std::string::npos) << words;
    }
}

// A season of 27 implements is read on paper at one sitting.
TEST_F(PublishedPage, PdfOfTwentySevenImplementsHasAtMostTwelvePages) {
    if (!tests::hasProgram("pdfinfo")) {
        GTEST_SKIP() << "pdfinfo is not installed";
    }
    publishInto("out", tests::inventedMaterial(tests::manyImplements(27)));
    const auto info = tests::runProgram({"pdfinfo", folder.file("out/findings.pdf")});
    ASSERT_EQ(info.status, 0) << info.errors;
    const auto at = info.output.find("Pages:");
    ASSERT_NE(at, std::string::npos) << info.output;
    EXPECT_LE(std::stoi(info.output.substr(at + 6)), 12) << info.output;
}

}  // namespace
}  // namespace core::publish
