#pragma once

#include <string>
#include <vector>

namespace core::plan {

/// What stands above them.
[[nodiscard]] std::string cautionsHeading();

/// What a tester should know before anybody swings, a sentence or two each.
[[nodiscard]] std::vector<std::string> filmingCautions();

/// The one of them for who films a spinning rig to check the clock.
[[nodiscard]] std::string rigCaution();

}  // namespace core::plan
