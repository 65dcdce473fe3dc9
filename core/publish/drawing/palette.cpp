#include "core/publish/drawing/palette.h"

#include <fmt/format.h>

namespace core::publish {

const InkColours& coloursOf(Ink ink) noexcept {
    for (const auto& colours : kPalette) {
        if (colours.ink == ink) {
            return colours;
        }
    }
    return kPalette.front();
}

std::string paletteCss(std::string_view selector) {
    std::string light;
    std::string dark;
    for (const auto& colours : kPalette) {
        light += fmt::format("--{}:{};", colours.name, colours.light);
        dark += fmt::format("--{}:{};", colours.name, colours.dark);
    }
    return fmt::format("{0}{{{1}}}\n@media screen and (prefers-color-scheme:dark){{{0}{{{2}}}}}\n",
                       selector, light, dark);
}

std::string figureCss() {
    std::string css;
    for (const auto& colours : kPalette) {
        css += fmt::format(".f-{0}{{fill:var(--{0})}}.l-{0}{{stroke:var(--{0});fill:none}}\n",
                           colours.name);
    }
    return css +
           "svg text{font-family:\"DejaVu Sans\",Verdana,system-ui,sans-serif;"
           "font-variant-numeric:tabular-nums}\nsvg .bold{font-weight:600}\n";
}

}  // namespace core::publish
