#pragma once

#include <string>

#include "core/findings/findings.h"
#include "core/publish/origin.h"

namespace core::publish {

/// Everything that is said of the project, for programs: numbers with their units in the names,
/// sentences as a person reads them, and null with a "why_not" where something cannot be said.
[[nodiscard]] std::string findingsJson(const findings::Findings& findings, const Origin& origin);

}  // namespace core::publish
