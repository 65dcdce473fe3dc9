#pragma once

#include <filesystem>
#include <functional>
#include <stop_token>
#include <string>

#include "core/base/result.h"

namespace core::demo {

/// share from 0 to 1, and what is being done.
using Progress = std::function<void(double share, const std::string& doing)>;

/// The project file that makeDemoProject writes into a folder.
[[nodiscard]] std::filesystem::path demoProjectFile(const std::filesystem::path& folder);

/// Writes the demo into a folder: rendered clips with their truth, and a project that holds them. A
/// tennis club's stringing bench compares eight string set-ups in one racket frame, hitters A and
/// B; every figure is invented. Marks are set where the true attitudes put them, readings are
/// computed from the marks like any other, and the last shots are left to be read. All files or
/// none are written, over nothing that is there. Errors: InvalidInput when a file of a name of the
/// demo is there already; Busy while another one is made in the folder, by this program or another;
/// WriteFailed; Cancelled; those of the modules it uses.
Result<std::filesystem::path> makeDemoProject(const std::filesystem::path& folder,
                                              const Progress& progress = {},
                                              std::stop_token stop = {});

}  // namespace core::demo
