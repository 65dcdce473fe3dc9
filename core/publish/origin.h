#pragma once

#include <cstdint>
#include <ctime>
#include <string>

#include "core/publish/credits.h"

namespace core::publish {

/// Where a publication comes from: stands in every file.
struct Origin {
    std::string title;        ///< name of the project
    std::int64_t revision{};  ///< of the project
    std::string lastChange;   ///< ISO 8601, UTC, to the second; empty for a project without history
    std::string program;      ///< name and version
    Credits credits{};

    /// "stringing bench, revision 57, changed 2026-05-16 · Turnmark 0.6.0"
    [[nodiscard]] std::string line() const;
    /// The last change as seconds since 1970; 1970 where it is not known.
    [[nodiscard]] std::time_t lastChangeSeconds() const;
};

}  // namespace core::publish
