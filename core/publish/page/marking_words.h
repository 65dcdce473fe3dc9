#pragma once

#include <string>
#include <string_view>

#include "core/project/model.h"

namespace core::publish {

/// "three quarters dark", for files.
[[nodiscard]] std::string_view markingName(project::BallMarking marking) noexcept;
/// The same for people, in their language.
[[nodiscard]] std::string markingWords(project::BallMarking marking);

}  // namespace core::publish
