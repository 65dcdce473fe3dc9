#pragma once

#include <array>
#include <string>
#include <string_view>

#include "core/publish/figures/figure.h"

namespace core::publish {

/// A colour of a figure on light and on dark ground.
struct InkColours {
    Ink ink{};
    std::string_view name;   ///< of the CSS variable and class
    std::string_view light;  ///< "#rrggbb"; also in print
    std::string_view dark;
};

/// The data series are those of Okabe and Ito 2008, "Color Universal Design", safe for
/// colour-blind readers; on dark ground the same hues are lighter. Shape always doubles colour.
inline constexpr std::array<InkColours, 13> kPalette{{
    {Ink::Paper, "paper", "#ffffff", "#16181b"},
    {Ink::Text, "text", "#1a1a1a", "#ececec"},
    {Ink::Soft, "soft", "#5a5a5a", "#a9adb3"},
    {Ink::Grid, "grid", "#dcdcdc", "#363a40"},
    {Ink::BandA, "band-a", "#f1f3f5", "#1f2226"},
    {Ink::BandB, "band-b", "#e3e8ed", "#292d33"},
    {Ink::Step, "step", "#a34d00", "#e69f00"},
    {Ink::Series1, "series-1", "#0072b2", "#56a8e0"},
    {Ink::Series2, "series-2", "#d55e00", "#f28a45"},
    {Ink::Series3, "series-3", "#009e73", "#35c79c"},
    {Ink::Series4, "series-4", "#b5578f", "#e39ac4"},
    {Ink::Series5, "series-5", "#b87f00", "#e6b23c"},
    {Ink::Series6, "series-6", "#2f8fc4", "#9ad4f5"},
}};

[[nodiscard]] const InkColours& coloursOf(Ink ink) noexcept;

/// The palette as CSS variables for the given selector, dark by the reader's system setting.
[[nodiscard]] std::string paletteCss(std::string_view selector);
/// Classes by which figures take their colours from the variables.
[[nodiscard]] std::string figureCss();

}  // namespace core::publish
