#pragma once

#include <filesystem>

#include "core/synthesis/footage_maker.h"

namespace core::synthesis {

/// Writes the clips of the folder samples with their truths: one plain flight at 120 frames per
/// second, one captured at 240 that plays at 30 and says so, one of variable frame rate with
/// dropped frames. Each is under a megabyte. Errors: as makeFootage().
Result<void> writeSamples(const std::filesystem::path& folder);

}  // namespace core::synthesis
