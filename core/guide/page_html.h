#pragma once

#include <string>

#include "core/guide/guide.h"

namespace core::guide {

/// Who shows the HTML.
enum class HtmlFor {
    Browser,  ///< drawings stand within, tables scroll on their own
    Window,   ///< drawings as `img` by their name, for a viewer that knows little of styles;
              ///< cautions as a table of one cell
};

/// The page as a piece of HTML (what stands in `main`). Sections have ids made from their headings
/// (sectionId()); a link to another page leads to NAME.html.
[[nodiscard]] std::string bodyHtml(const Page& page, HtmlFor viewer);

/// "The true capture rate" becomes "the-true-capture-rate".
[[nodiscard]] std::string sectionId(const std::string& heading);

}  // namespace core::guide
