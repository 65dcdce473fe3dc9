#pragma once

#include <filesystem>
#include <stop_token>

#include "core/base/result.h"

/// The demo: a tennis club's stringing bench compares eight string set-ups in one racket frame,
/// hitters A and B; every figure is invented. The program carries it as a packed project,
/// samples/stringing_bench.tar.xz.
namespace core::demo {

/// The project file that unpackDemo() writes into a folder.
[[nodiscard]] std::filesystem::path demoProjectFile(const std::filesystem::path& folder);

/// Writes the demo's project and its clips into a folder, which is made when it is not there: all
/// files or none, over nothing that is there. Cost: well below a second. Errors: those of
/// pack::unpack().
Result<std::filesystem::path> unpackDemo(const std::filesystem::path& folder,
                                         std::stop_token stop = {});

}  // namespace core::demo
