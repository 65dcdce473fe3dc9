#include "ui/style/tokens.h"

#include <QApplication>
#include <array>

namespace ui::style {
namespace {

struct Inks {
    QRgb light;
    QRgb dark;
};

/// In the order of Token.
constexpr std::array<Inks, kTokens> kInks{{
    {0xFFF0EFEB, 0xFF171923},  // Ground
    {0xFFFFFFFF, 0xFF1F2230},  // Surface
    {0xFFE3E3DF, 0xFF0F1013},  // Sunken
    {0xFF171A2C, 0xFFECEAE0},  // Text
    {0xFF565A6C, 0xFFA8ACBD},  // Quiet
    {0xFF8A8D9A, 0xFF7E8394},  // Off
    {0xFF777A89, 0xFF7C8198},  // Edge
    {0xFFD6D5CF, 0xFF353A4D},  // Line
    {0xFF2B3178, 0xFFF2E3A6},  // Ink
    {0xFFFFFFFF, 0xFF171A2C},  // OnInk
    {0xFF3A4198, 0xFFFBF0C4},  // InkHover
    {0xFF1D2258, 0xFFD9C882},  // InkPressed
    {0xFFE8E7E2, 0xFF2A2E40},  // Hover
    {0xFFDAD9D2, 0xFF343950},  // Pressed
    {0xFFFBF5DE, 0xFF35342F},  // Pale
    {0xFFAE3600, 0xFFFF8A57},  // Grave
    {0xFFFBE8DE, 0xFF40261D},  // GraveGround
    {0xFF8B3A6B, 0xFFE8A3CB},  // Question
    {0xFFF6E7F0, 0xFF3B2536},  // QuestionGround
    {0xFF006B4E, 0xFF4CC9A0},  // Done
    {0xFFDFF1EA, 0xFF15352C},  // DoneGround
    {0xFF9C6400, 0xFFE69F00},  // Start
    {0xFF0B6EA8, 0xFF56B4E9},  // Return
    {0xFF0072B2, 0xFF56B4E9},  // HitterA
    {0xFFC25200, 0xFFF0803C},  // HitterB
    {0xFF857A00, 0xFFF0E442},  // Ochre
    {0xFF1D2147, 0xFF0D0F18},  // Band
    {0xFFF4F1E4, 0xFFECEAE0},  // BandWords
    {0xFFB4B8D2, 0xFFA8ACBD},  // BandQuiet
    {0xFF2B3062, 0xFF1F2230},  // BandHover
    {0xFFF4E8B8, 0xFFF2E3A6},  // Chalk
    {0xFF171A2C, 0xFF171A2C},  // OnChalk
    {0xFF4A4632, 0xFF4A4632},  // OnChalkQuiet
}};

constexpr int kChipAlpha = 225;

}  // namespace

bool isDark(const QPalette& palette) {
    return palette.color(QPalette::Base).lightnessF() < palette.color(QPalette::Text).lightnessF();
}

QColor colour(Token token, bool dark) {
    const Inks& inks = kInks.at(static_cast<std::size_t>(token));
    return QColor::fromRgb(dark ? inks.dark : inks.light);
}

QColor colour(Token token, const QPalette& palette) {
    return colour(token, isDark(palette));
}

QPalette windowPalette(bool dark) {
    const auto of = [dark](Token token) { return colour(token, dark); };
    QPalette palette{of(Token::Surface), of(Token::Ground)};
    const std::initializer_list<std::pair<QPalette::ColorRole, Token>> roles{
        {QPalette::Window, Token::Ground},
        {QPalette::WindowText, Token::Text},
        {QPalette::Base, Token::Surface},
        {QPalette::AlternateBase, Token::Surface},
        {QPalette::Text, Token::Text},
        {QPalette::PlaceholderText, Token::Quiet},
        {QPalette::Button, Token::Surface},
        {QPalette::ButtonText, Token::Text},
        {QPalette::BrightText, Token::OnInk},
        {QPalette::Light, Token::Surface},
        {QPalette::Midlight, Token::Hover},
        {QPalette::Mid, Token::Line},
        {QPalette::Dark, Token::Edge},
        {QPalette::Shadow, Token::Edge},
        {QPalette::Highlight, Token::Ink},
        {QPalette::HighlightedText, Token::OnInk},
        {QPalette::Link, Token::Ink},
        {QPalette::LinkVisited, Token::Ink},
        {QPalette::ToolTipBase, Token::Surface},
        {QPalette::ToolTipText, Token::Text}};
    for (const auto& [role, token] : roles) {
        palette.setColor(role, of(token));
    }
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        palette.setColor(QPalette::Disabled, role, of(Token::Off));
    }
    palette.setColor(QPalette::Disabled, QPalette::Base, of(Token::Ground));
    return palette;
}

QPalette programPalette() {
    return QApplication::palette();
}

QPalette bandPalette() {
    const QPalette program = programPalette();
    QPalette palette = windowPalette(true);
    palette.setColor(QPalette::Window, colour(Token::Band, program));
    palette.setColor(QPalette::Base, colour(Token::Band, program));
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        palette.setColor(QPalette::Active, role, colour(Token::BandWords, program));
        palette.setColor(QPalette::Inactive, role, colour(Token::BandWords, program));
    }
    return palette;
}

QColor casing() {
    return colour(Token::Text, false);
}

QColor chipGround() {
    QColor ground = colour(Token::Sunken, true);
    ground.setAlpha(kChipAlpha);
    return ground;
}

QColor chipWords() {
    return colour(Token::Surface, false);
}

}  // namespace ui::style
