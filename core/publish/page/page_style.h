#pragma once

#include <string>

namespace core::publish {

/// The style sheet of a page: one column, words of a readable length, tables that scroll on their
/// own on a narrow screen, everything unfolded on paper.
[[nodiscard]] std::string pageStyle();

}  // namespace core::publish
