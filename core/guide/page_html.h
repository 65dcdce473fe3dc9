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

/// The page as a piece of HTML (what stands in `main`), its sections with their ids; a link to
/// another page leads to NAME.html.
[[nodiscard]] std::string bodyHtml(const Page& page, HtmlFor viewer);

}  // namespace core::guide
