#pragma once

#include <string_view>
#include <vector>

#include "ui/style/sign.h"

/// What signs consist of. For the sources of this folder only.
namespace ui::style {

/// Part of a sign, on a grid of 24 by 24, y downwards. Commands with numbers after them, as in path
/// data of W3C SVG 2 ("9.3"): M move, L line, C cubic curve, Z close; and O, a circle: centre,
/// radius.
struct SignPart {
    enum class Kind { Line, Fill, Dashes, Dots };
    Kind kind{};
    std::string_view path;
};

[[nodiscard]] std::vector<SignPart> partsOf(Sign sign);

}  // namespace ui::style
