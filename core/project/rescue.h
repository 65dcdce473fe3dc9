#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "core/base/result.h"

/// The way out for a damaged project of which there is no backup.
namespace core::project {

/// What a rescue saved of one kind of things, and what it could not.
struct RescuedKind {
    std::string name;  ///< "shot", "reading"
    std::int64_t saved{};
    /// What was left behind, a sentence each, for example "Shot 12 does not fit its check number."
    std::vector<std::string> lost;
};

struct Rescue {
    std::vector<RescuedKind> kinds;  ///< that the project has any of

    [[nodiscard]] std::size_t lostCount() const noexcept;
};

/// Saves what can be read of a project into a new one.
///
/// Every row that fits its check number (FORMAT.md R08) and refers to rows that were saved is taken
/// over; where a page cannot be read, reading goes on behind it. A kept shot whose reading is lost
/// is open again. Steps to undo are not taken along. The damaged file is copied before it is looked
/// into, and stays as it is; the new project passes Store::faults().
/// Errors: NotFound; Busy while somebody has the project open; Damaged where nothing can be read,
/// or where the file holds what no project has; WriteFailed; InvalidInput when `to` exists.
Result<Rescue> rescueProject(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace core::project
