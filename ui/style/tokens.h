#pragma once

#include <QColor>
#include <QPalette>

/// The look in one place: every colour, and every size that is not a matter of one drawing.
namespace ui::style {

/// What a colour is for. Each is stated for light and for dark.
enum class Token {
    Ground,   ///< of the window
    Surface,  ///< tables, fields, cards
    Sunken,   ///< around pictures
    Text,
    Quiet,  ///< second words
    Off,    ///< disabled words
    Edge,   ///< of controls
    Line,   ///< hairlines without meaning
    Ink,    ///< what acts: primary buttons, links, focus, selection
    OnInk,
    InkHover,
    InkPressed,
    Hover,
    Pressed,
    Pale,  ///< selected row, switch that is on
    Grave,
    GraveGround,
    Question,
    QuestionGround,
    Done,
    DoneGround,
    Start,   ///< mark of the start, on a surface
    Return,  ///< mark of a return, on a surface
    HitterA,
    HitterB,
    Ochre,  ///< for the yellow of the data palette, on a surface
    Band,   ///< over everything, dark in both looks
    BandWords,
    BandQuiet,
    BandHover,
    Chalk,  ///< the step one is in; progress on the band
    OnChalk,
    OnChalkQuiet,
};
inline constexpr int kTokens = static_cast<int>(Token::OnChalkQuiet) + 1;

/// Whether the base of the palette is darker than its text.
[[nodiscard]] bool isDark(const QPalette& palette);

[[nodiscard]] QColor colour(Token token, bool dark);
/// The colour on the grounds of this palette.
[[nodiscard]] QColor colour(Token token, const QPalette& palette);

/// The roles that widgets ask for, from the tokens.
[[nodiscard]] QPalette windowPalette(bool dark);

/// The palette of the program as it looks now, whatever a widget has.
[[nodiscard]] QPalette programPalette();
/// For what stands on the band, which is dark in both looks.
[[nodiscard]] QPalette bandPalette();

/// Over footage, which is neither light nor dark.
[[nodiscard]] QColor casing();      ///< the dark line that carries a coloured one
[[nodiscard]] QColor chipGround();  ///< below words
[[nodiscard]] QColor chipWords();

// Space, in logical pixels.
inline constexpr int kPairPx = 4;     ///< inside of what belongs together
inline constexpr int kBetweenPx = 8;  ///< between controls
inline constexpr int kCardsPx = 12;   ///< between groups of them
inline constexpr int kPagePx = 16;    ///< edge of a page
inline constexpr int kGroupsPx = 24;
// Radii and widths of lines.
inline constexpr double kControlRadiusPx = 4.0;
inline constexpr double kCardRadiusPx = 8.0;
inline constexpr double kHairlinePx = 1.0;
inline constexpr double kFocusPx = 2.0;
inline constexpr int kSelectionBarPx = 3;
// Heights, at the least: a line of text and some room where that is more.
inline constexpr int kControlHeightPx = 30;
inline constexpr int kPrimaryHeightPx = 38;
inline constexpr int kRowHeightPx = 30;
inline constexpr int kTwoLineRowPx = 46;
inline constexpr int kBandHeightPx = 54;
inline constexpr int kRoomAroundLinePx = 12;

/// The stated height, or what a line of this height needs.
[[nodiscard]] constexpr int heightFor(int statedPx, int linePx) {
    return statedPx > linePx + kRoomAroundLinePx ? statedPx : linePx + kRoomAroundLinePx;
}

}  // namespace ui::style
