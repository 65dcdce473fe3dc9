#include "core/plan/ball_template.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <regex>

namespace {

using core::plan::ballTemplate;
using core::plan::TemplateFile;

/// Lengths of the level straight lines in the SVG, in millimetres. SVG 2 and CSS: the sheet says
/// its width in points of 1/72 inch, and so are its units.
std::vector<double> levelLinesMm(const std::string& svg) {
    static const std::regex kLine{R"(d="M ([0-9.]+) ([0-9.]+) L ([0-9.]+) ([0-9.]+) ?")"};
    std::vector<double> lines;
    for (std::sregex_iterator at{svg.begin(), svg.end(), kLine}; at != std::sregex_iterator{};
         ++at) {
        if ((*at)[2] == (*at)[4]) {
            lines.push_back(std::abs(std::stod((*at)[3]) - std::stod((*at)[1])) / 72.0 * 25.4);
        }
    }
    return lines;
}

std::size_t countNear(const std::vector<double>& lines, double mm) {
    return static_cast<std::size_t>(std::count_if(
        lines.begin(), lines.end(), [mm](double line) { return std::abs(line - mm) < 0.02; }));
}

// Circumference of a circle: π times its diameter. The sheet: ISO 216, A4.
TEST(BallTemplate, TheStripIsAsLongAsTheWayRoundTheBall) {
    for (const double diameter : {40.0, 42.7, 67.0, 73.0, 84.0}) {
        const auto svg = ballTemplate(diameter, TemplateFile::Svg);
        ASSERT_TRUE(svg) << svg.error().message;
        const auto lines = levelLinesMm(svg.value());
        EXPECT_EQ(countNear(lines, std::numbers::pi * diameter), 1U) << diameter;
        EXPECT_EQ(countNear(lines, 50.0), 1U) << diameter;
        EXPECT_NE(svg.value().find("width=\"841.8"), std::string::npos);
        EXPECT_NE(svg.value().find("height=\"595.2"), std::string::npos);
    }
}

TEST(BallTemplate, ALongStripComesInEqualPieces) {
    for (const auto& [diameter, pieces] : {std::pair{97.0, 2U}, std::pair{220.0, 4U}}) {
        const auto svg = ballTemplate(diameter, TemplateFile::Svg);
        ASSERT_TRUE(svg) << svg.error().message;
        EXPECT_EQ(countNear(levelLinesMm(svg.value()), std::numbers::pi * diameter / pieces),
                  pieces);
    }
}

TEST(BallTemplate, APdfOfOnePageIsMade) {
    const auto pdf = ballTemplate(67.0, TemplateFile::Pdf);
    ASSERT_TRUE(pdf) << pdf.error().message;
    EXPECT_EQ(pdf.value().substr(0, 5), "%PDF-");
}

TEST(BallTemplate, ADiameterThatNoBallHasIsRefused) {
    for (const double diameter : {0.0, -67.0, 6.7, 670.0, std::nan("")}) {
        EXPECT_FALSE(ballTemplate(diameter, TemplateFile::Svg)) << diameter;
    }
}

}  // namespace
