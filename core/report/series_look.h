#pragma once

#include <cstddef>

/// How data series are told apart, alike on the screen and in print: by colour and by shape.
namespace core::report {

/// In the order of use; the values of each ground are decided where it is drawn.
enum class SeriesColour { Blue, Vermilion, BluishGreen, ReddishPurple, Orange, SkyBlue };

/// In the order of use.
enum class SeriesShape { Disc, Square, TriangleUp, Diamond, TriangleDown, Cross };

struct SeriesLook {
    SeriesColour colour;
    SeriesShape shape;
};

/// Of the k-th series of a chart (0 is the first). After six the colours start again, each with the
/// next shape: 36 series differ.
[[nodiscard]] constexpr SeriesLook seriesLook(std::size_t k) noexcept {
    return {static_cast<SeriesColour>(k % 6), static_cast<SeriesShape>((k + k / 6) % 6)};
}

}  // namespace core::report
