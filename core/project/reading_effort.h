#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "core/project/ids.h"

/// What reading cost a person, so that it can be published how it was read.
namespace core::project {

struct Snapshot;

/// How a visit to a shot ended.
enum class VisitOutcome {
    Kept,      ///< with a reading
    SetAside,  ///< with a reason
    Left,      ///< as it was
};

/// Longest pause between two signs of life that counts as work, in whole: looking at a picture
/// without touching anything is reading, being away is not. Of a longer pause only so much counts.
/// Ten seconds are several times what the slowest step of a reading takes.
inline constexpr double kLongestPauseSeconds = 10.0;

/// One visit of a person to a shot on the reading screen (FORMAT.md R32).
struct ReadingEffort {
    EffortId id;
    ShotId shot;  ///< may be gone
    std::string reader;
    std::string beganAt;     ///< ISO 8601, UTC, to the second
    std::int64_t keys{};     ///< pressed; a key that is held counts once
    std::int64_t clicks{};   ///< presses of the pointer's buttons
    double activeSeconds{};  ///< pauses count up to kLongestPauseSeconds
    bool namesHidden{};      ///< implement and hitter were hidden, and the order was shuffled
    VisitOutcome outcome{VisitOutcome::Left};
    bool operator==(const ReadingEffort&) const = default;
};

/// All visits to one shot together.
struct ShotEffort {
    std::int64_t keys{};
    std::int64_t clicks{};
    double activeSeconds{};
    /// Whether nobody saw implement and hitter up to the last visit that kept a reading; absent
    /// when no visit did.
    std::optional<bool> namesHidden;
    bool operator==(const ShotEffort&) const = default;
};

/// Of the shots that were visited. O(n log n).
[[nodiscard]] std::map<ShotId, ShotEffort> effortByShot(const Snapshot& snapshot);

}  // namespace core::project
