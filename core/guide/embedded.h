#pragma once

#include <string_view>
#include <vector>

/// Texts of resources/guide, compiled in. Internal to this module.
namespace core::guide {

struct EmbeddedText {
    std::string_view name;  ///< without its ending: "first-shot", "drawings/markings"
    std::string_view text;
};

/// Markdown, in the order of the contents.
[[nodiscard]] const std::vector<EmbeddedText>& embeddedPages();
/// SVG.
[[nodiscard]] const std::vector<EmbeddedText>& embeddedDrawings();

}  // namespace core::guide
