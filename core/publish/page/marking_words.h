#pragma once

#include <string>

#include "core/project/model.h"

namespace core::publish {

/// "three quarters dark"
[[nodiscard]] std::string markingWords(project::BallMarking marking);

}  // namespace core::publish
