#pragma once

#include <string>
#include <vector>

#include "core/findings/findings.h"

namespace core::findings {

/// How it was read and computed, one sentence each, from what the project holds.
std::vector<std::string> methodSentences(const project::Snapshot& snapshot,
                                         const Findings& findings);

}  // namespace core::findings
