#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "core/findings/bands.h"
#include "core/project/snapshot.h"
#include "core/project/store.h"

/// What the tester sets for the findings. Kept in the project, undone like every other edit.
namespace core::findings {

inline constexpr std::string_view kStepKey = "noticeable_step_rpm";
inline constexpr std::string_view kBandsKey = "bands";
inline constexpr std::string_view kLooksKey = "findings_looks";

/// Smallest difference of spin that a player can notice, greater than zero. Absent: not set.
/// Errors: Damaged for a stored text that is no such number.
Result<std::optional<Rpm>> noticeableStep(const project::Snapshot& snapshot);
/// From what the tester types; empty text: no step. Errors: InvalidInput.
Result<std::optional<Rpm>> parseStep(std::string_view text);
Result<void> setNoticeableStep(project::Store& store, std::optional<Rpm> step);

/// Errors: Damaged for a stored text that makes no bands.
Result<Bands> bands(const project::Snapshot& snapshot);
Result<void> setBands(project::Store& store, const Bands& bands);

/// How often the findings were looked at with other readings or options than before.
struct Looks {
    int count{};
    std::uint64_t fingerprint{};  ///< of the readings and options of the last look
};
Looks looks(const project::Snapshot& snapshot);
/// One look more, unless the last one had the same fingerprint.
Looks nextLook(const Looks& before, std::uint64_t fingerprint);
/// Keeps a look without a step of undo or a line of history: it is no edit.
Result<void> keepLook(project::Store& store, const Looks& look);

}  // namespace core::findings
