#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <regex>

#include "tests/support/process.h"

namespace {

/// The command guide.
class GuideCommand : public ::testing::Test {
protected:
    tests::Finished run(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {TURNMARK_CLI, "guide"});
        return tests::runProgram(arguments);
    }

    tests::TemporaryFolder folder;
};

TEST_F(GuideCommand, PagesAreWrittenIntoAFolder) {
    const auto done = run({"--to", folder.file("guide")});
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_NE(tests::bytesOf(folder.path() / "guide" / "index.html").find("first-shot.html"),
              std::string::npos);
}

TEST_F(GuideCommand, PagesAreWrittenInGermanWhereAskedFor) {
    const auto done = run({"--to", folder.file("guide"), "--language", "de"});
    ASSERT_EQ(done.status, 0) << done.errors;
    const auto page = tests::bytesOf(folder.path() / "guide" / "how-to-film.html");
    EXPECT_NE(page.find("<html lang=\"de\">"), std::string::npos);
    EXPECT_NE(page.find("<h1>Wie man filmt</h1>"), std::string::npos);
    const auto unknown = run({"--to", folder.file("other"), "--language", "zz"});
    EXPECT_EQ(unknown.status, 2);
    EXPECT_NE(unknown.errors.find("--language"), std::string::npos) << unknown.errors;
}

// Read back by poppler, another PDF library: the sheet is A4 lying (ISO 216), and a line on it is
// as long as the circumference of the ball.
TEST_F(GuideCommand, ATemplateIsPrintedInTrueSize) {
    const auto done = run({"--template", "67", "--to", folder.file("ball.pdf")});
    ASSERT_EQ(done.status, 0) << done.errors;
    const auto info = tests::runProgram({"pdfinfo", folder.file("ball.pdf")});
    EXPECT_NE(info.output.find("Pages:           1"), std::string::npos) << info.output;
    EXPECT_NE(info.output.find("(A4)"), std::string::npos) << info.output;
    const auto drawn =
        tests::runProgram({"pdftocairo", "-svg", folder.file("ball.pdf"), folder.file("back.svg")});
    ASSERT_EQ(drawn.status, 0) << drawn.errors;
    const std::string svg = tests::bytesOf(folder.path() / "back.svg");
    const std::regex line{R"(d="M ([0-9.]+) ([0-9.]+) L ([0-9.]+) ([0-9.]+) ?")"};
    double nearest = 0.0;
    for (std::sregex_iterator at{svg.begin(), svg.end(), line}; at != std::sregex_iterator{};
         ++at) {
        const double mm = std::hypot(std::stod((*at)[3]) - std::stod((*at)[1]),
                                     std::stod((*at)[4]) - std::stod((*at)[2])) /
                          72.0 * 25.4;
        nearest =
            std::abs(mm - std::numbers::pi * 67.0) < std::abs(nearest - std::numbers::pi * 67.0)
                ? mm
                : nearest;
    }
    EXPECT_NEAR(nearest, std::numbers::pi * 67.0, 0.05);
}

TEST_F(GuideCommand, ATemplateNeedsAKnownEndingAndADiameter) {
    const auto ending = run({"--template", "67", "--to", folder.file("ball.png")});
    EXPECT_EQ(ending.status, 1);
    EXPECT_NE(ending.errors.find(".pdf or .svg"), std::string::npos) << ending.errors;
    const auto size = run({"--template", "6700", "--to", folder.file("ball.pdf")});
    EXPECT_EQ(size.status, 1);
    EXPECT_NE(size.errors.find("6700 mm"), std::string::npos) << size.errors;
}

}  // namespace
