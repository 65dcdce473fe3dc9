#pragma once

#include <string>
#include <vector>

namespace core::plan {

/// What a tester should know before anybody swings, a sentence or two each.
[[nodiscard]] const std::vector<std::string>& filmingCautions();

}  // namespace core::plan
