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
