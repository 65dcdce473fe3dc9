#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/project/store.h"

namespace core::evidence {

/// What is wrong with what the project keeps beside the numbers: inputs from which a reading could
/// not be computed again, and kept pictures that cannot be decoded. One sentence each, with the
/// shot and its clip. Decodes every picture: about a second for a thousand.
/// Errors: those of the store, of the whole file.
Result<std::vector<std::string>> faultsOfKept(const project::Store& store);

}  // namespace core::evidence
