#pragma once

#include <string_view>
#include <vector>

/// Texts of resources/guide, compiled in. Internal to this module.
namespace core::guide {

struct EmbeddedText {
    std::string_view language;  ///< "en", "de"
    std::string_view name;      ///< without its ending: "first-shot", "drawings/markings"
    std::string_view text;
};

/// Markdown, in the order of the contents: first the English pages, all of them, then the others.
[[nodiscard]] const std::vector<EmbeddedText>& embeddedPages();
/// SVG; the English ones first.
[[nodiscard]] const std::vector<EmbeddedText>& embeddedDrawings();

}  // namespace core::guide
