#pragma once

#include <string>

#include "core/publish/figures/figure.h"

namespace core::publish {

/// A figure as SVG 1.1 text: words stay text, the title and the description are there for readers
/// who listen, and colours are CSS variables that follow light and dark.
enum class SvgUse {
    File,    ///< stands alone: XML declaration, style and ground inside
    InPage,  ///< within a page that has paletteCss() and figureCss()
};

[[nodiscard]] std::string svgText(const Figure& figure, SvgUse use);

}  // namespace core::publish
