#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "ui/style/data_palette.h"
#include "ui/style/tokens.h"

/// W3C Recommendation "Web Content Accessibility Guidelines (WCAG) 2.2" (2023): relative luminance
/// and contrast ratio as its glossary defines them; 1.4.3 asks 4.5 of text, 1.4.11 asks 3 of
/// graphics and of what shows the state of a control.
namespace ui::style {
namespace {

double linear(double component) {
    return component <= 0.04045 ? component / 12.92 : std::pow((component + 0.055) / 1.055, 2.4);
}

double luminance(const QColor& colour) {
    const double red = linear(colour.red() / 255.0);
    const double green = linear(colour.green() / 255.0);
    const double blue = linear(colour.blue() / 255.0);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

double contrast(const QColor& one, const QColor& other) {
    const auto [low, high] = std::minmax(luminance(one), luminance(other));
    return (high + 0.05) / (low + 0.05);
}

struct Pairs {
    std::vector<Token> inks;
    std::vector<Token> grounds;
    double least;
};

constexpr double kText = 4.5;
constexpr double kGraphics = 3.0;
constexpr std::array kBothLooks{false, true};

void expectEach(const Pairs& pairs) {
    for (const bool dark : kBothLooks) {
        for (const Token ink : pairs.inks) {
            for (const Token ground : pairs.grounds) {
                EXPECT_GE(contrast(colour(ink, dark), colour(ground, dark)), pairs.least)
                    << (dark ? "dark" : "light") << ", token " << static_cast<int>(ink) << " on "
                    << static_cast<int>(ground);
            }
        }
    }
}

// White on black is 21 to one and a colour on itself 1 to one, by the definition.
TEST(Contrast, EndsOfTheScaleAreAsDefined) {
    EXPECT_NEAR(contrast(Qt::white, Qt::black), 21.0, 1e-9);
    EXPECT_NEAR(contrast(Qt::red, Qt::red), 1.0, 1e-9);
}

TEST(Contrast, WordsStandOutFromEveryGroundTheyAreOn) {
    expectEach({{Token::Text},
                {Token::Ground, Token::Surface, Token::Sunken, Token::Pale, Token::Hover,
                 Token::Pressed, Token::GraveGround, Token::QuestionGround, Token::DoneGround},
                kText});
    expectEach({{Token::Quiet},
                {Token::Ground, Token::Surface, Token::Sunken, Token::Pale, Token::Hover},
                kText});
}

TEST(Contrast, WordsOfButtonsStandOutInEveryState) {
    expectEach({{Token::OnInk}, {Token::Ink, Token::InkHover, Token::InkPressed}, kText});
    expectEach({{Token::Ink},
                {Token::Ground, Token::Surface, Token::Hover, Token::Pressed, Token::Pale},
                kText});
}

TEST(Contrast, WordsOfTheBandStandOut) {
    expectEach({{Token::BandWords, Token::BandQuiet}, {Token::Band, Token::BandHover}, kText});
    expectEach({{Token::Chalk}, {Token::Band, Token::BandHover}, kText});
    expectEach({{Token::OnChalk, Token::OnChalkQuiet}, {Token::Chalk}, kText});
}

TEST(Contrast, EdgesAndFocusStandOutFromEveryGround) {
    expectEach({{Token::Edge, Token::Ink},
                {Token::Ground, Token::Surface, Token::Sunken, Token::Pale},
                kGraphics});
}

TEST(Contrast, RemarksStandOutFromTheirGrounds) {
    expectEach(
        {{Token::Grave}, {Token::Surface, Token::Ground, Token::GraveGround, Token::Pale}, kText});
    expectEach({{Token::Question},
                {Token::Surface, Token::Ground, Token::QuestionGround, Token::Pale},
                kText});
    expectEach(
        {{Token::Done}, {Token::Surface, Token::Ground, Token::DoneGround, Token::Pale}, kText});
}

TEST(Contrast, DataStandOutFromTheGroundsOfChartsAndLists) {
    for (const bool dark : kBothLooks) {
        const QPalette palette = windowPalette(dark);
        for (int data = 0; data <= static_cast<int>(DataColour::ReddishPurple); ++data) {
            for (const Token ground : {Token::Surface, Token::Pale, Token::Sunken}) {
                EXPECT_GE(contrast(dataColour(static_cast<DataColour>(data), palette),
                                   colour(ground, dark)),
                          kGraphics)
                    << (dark ? "dark" : "light") << ", colour " << data << " on "
                    << static_cast<int>(ground);
            }
        }
    }
}

/// What is over footage stands on its casing, whatever the picture is.
TEST(Contrast, MarksStandOutFromTheirCasing) {
    for (const auto mark :
         {DataColour::Orange, DataColour::SkyBlue, DataColour::Yellow, DataColour::ReddishPurple}) {
        EXPECT_GE(contrast(publishedColour(mark), casing()), kGraphics);
    }
}

/// The chip lets a little through: at worst what lies below is white.
TEST(Contrast, WordsOnAChipCanBeReadOverAWhitePicture) {
    const QColor chip = chipGround();
    const double share = chip.alpha() / 255.0;
    const auto over = [share](int component) {
        return static_cast<int>(std::lround(component * share + 255.0 * (1.0 - share)));
    };
    const QColor seen{over(chip.red()), over(chip.green()), over(chip.blue())};
    EXPECT_GE(contrast(chipWords(), seen), kText);
}

TEST(WindowPalette, KnowsWhetherItIsDark) {
    EXPECT_FALSE(isDark(windowPalette(false)));
    EXPECT_TRUE(isDark(windowPalette(true)));
}

}  // namespace
}  // namespace ui::style
