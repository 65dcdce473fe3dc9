#include "ui/chart/series_drawing.h"

#include <array>

namespace ui::chart {

QColor colourOf(core::report::SeriesLook look, const QPalette& palette) {
    using style::DataColour;
    constexpr std::array kColours{DataColour::Blue,        DataColour::Vermilion,
                                  DataColour::BluishGreen, DataColour::ReddishPurple,
                                  DataColour::Orange,      DataColour::SkyBlue};
    return style::dataColour(kColours.at(static_cast<std::size_t>(look.colour)), palette);
}

style::Shape shapeOf(core::report::SeriesLook look) {
    using style::Shape;
    constexpr std::array kShapes{Shape::Disc,    Shape::Square,       Shape::TriangleUp,
                                 Shape::Diamond, Shape::TriangleDown, Shape::Cross};
    return kShapes.at(static_cast<std::size_t>(look.shape));
}

}  // namespace ui::chart
