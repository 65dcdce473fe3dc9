#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <string>

#include "core/base/result.h"
#include "core/doubts/find_doubts.h"
#include "core/findings/findings.h"

namespace core::publish {

/// What somebody should still look at, when a project is published; who publishes knows of it.
struct OpenDoubts {
    /// Names of the reasons (core/doubts), separated by blanks.
    std::map<project::ShotId, std::string> shots;
    std::map<project::CellId, std::string> cells;  ///< of cells as a whole
    std::size_t withoutPictures{};  ///< filmed shots whose pictures were not yet read
};

[[nodiscard]] OpenDoubts openDoubtsOf(const doubts::Doubts& doubts);

/// Finds them once the findings are there. Called on the thread that publishes.
using DoubtFinder = std::function<Result<OpenDoubts>(const findings::Findings&)>;

}  // namespace core::publish
