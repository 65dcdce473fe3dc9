#pragma once

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

#include "core/report/series_look.h"

namespace core::publish {

/// Pictures as lists of what is drawn, in points (1/72 inch), x to the right, y down, the origin at
/// the top left. Plain values; core/publish/drawing/svg.h and painter.h draw them.

struct PointPt {
    double x{};
    double y{};
};

/// What a colour stands for. Each has a value for light and one for dark ground (palette.h).
enum class Ink {
    Paper,  ///< the ground itself
    Text,   ///< words and estimates
    Soft,   ///< secondary words, axes
    Grid,   ///< lines to read along
    BandA,  ///< a range of values, and the one beside it
    BandB,
    Step,     ///< the noticeable step
    Series1,  ///< data series, told apart by shape as well
    Series2,
    Series3,
    Series4,
    Series5,
    Series6,
};

/// The ink of a series, told apart from the others by its shape as well.
[[nodiscard]] Ink inkOf(report::SeriesColour colour) noexcept;

using Shape = report::SeriesShape;

struct Line {
    PointPt from;
    PointPt to;
    Ink ink{Ink::Text};
    double widthPt{1.0};
    bool isDashed{false};
};

struct Rectangle {
    PointPt topLeft;
    double widthPt{};
    double heightPt{};
    Ink ink{Ink::BandA};
};

struct Marker {
    PointPt at;
    Shape shape{Shape::Disc};
    Ink ink{Ink::Text};
    double sizePt{6.0};  ///< across
    bool isFilled{true};
};
/// Corners of a marker's outline on the page, in order; none for a disc.
[[nodiscard]] std::vector<PointPt> cornersOf(const Marker& marker);

/// No words of a figure are smaller.
inline constexpr double kLeastTextPt = 11.0;

enum class Anchor { Start, Middle, End };

struct Text {
    PointPt at;  ///< on the base line, at the anchor
    std::string text;
    Anchor anchor{Anchor::Start};
    double sizePt{kLeastTextPt};
    Ink ink{Ink::Text};
    bool isBold{false};
};

/// Everything up to the next GroupEnd belongs together and has a text of its own, shown when it is
/// pointed at and read out by a screen reader.
struct GroupStart {
    std::string title;
};
struct GroupEnd {};

using Drawn = std::variant<Line, Rectangle, Marker, Text, GroupStart, GroupEnd>;

struct Figure {
    std::string name;  ///< a plain word, also of its files
    std::string title;
    std::string description;  ///< what it shows, for who cannot see it
    std::string caption;      ///< a plain sentence on what follows from it
    double widthPt{};
    double heightPt{};
    std::vector<Drawn> drawn;
};

/// About how wide a text will be: the mean letter of a sans-serif face, twice that for letters of
/// full width. Enough to decide where to cut, not to place by.
[[nodiscard]] double roughWidthPt(const std::string& text, double sizePt);
/// The text cut behind as many letters as fit, with "…"; never within a letter. Line ends and other
/// control characters become spaces.
[[nodiscard]] std::string cutToWidth(const std::string& text, double widthPt, double sizePt);
/// Lines of whole words, as far as a word is not longer than a line.
[[nodiscard]] std::vector<std::string> wrapToWidth(const std::string& text, double widthPt,
                                                   double sizePt);
/// Names for one list. Where one is too long, the words that all of them begin with are left out
/// ("…016 natural gut" of "Set 016 natural gut"), and what is then too long is cut behind.
[[nodiscard]] std::vector<std::string> namesToWidth(const std::vector<std::string>& names,
                                                    double widthPt, double sizePt);
/// Of the widest one; 0 of none.
[[nodiscard]] double widestPt(const std::vector<std::string>& texts, double sizePt);

}  // namespace core::publish
