#pragma once

#include <algorithm>
#include <compare>
#include <cstdint>
#include <functional>
#include <vector>

namespace core::project {

/// Identity of an entity in one project file: a positive row number that is never used again.
template <class Entity>
struct Id {
    std::int64_t value{};
    auto operator<=>(const Id&) const = default;
};

/// Ids of one kind, ascending.
template <class Entity>
struct Ids : std::vector<Id<Entity>> {
    /// Whether there is any.
    explicit operator bool() const noexcept { return !this->empty(); }
    [[nodiscard]] bool contains(Id<Entity> id) const {
        return std::binary_search(this->begin(), this->end(), id);
    }
};

using SessionId = Id<struct Session>;
using ImplementId = Id<struct Implement>;
using HitterId = Id<struct Hitter>;
using CellId = Id<struct Cell>;
using ClipId = Id<struct Clip>;
using ShotId = Id<struct Shot>;
using ReadingId = Id<struct Reading>;
using CorrectionId = Id<struct ShotCorrection>;
using PlanId = Id<struct PlanRecord>;
using SecondLookId = Id<struct SecondLook>;
using SecondReadingId = Id<struct SecondReading>;
using EffortId = Id<struct ReadingEffort>;
using HistoryId = Id<struct HistoryEntry>;

}  // namespace core::project

template <class Entity>
struct std::hash<core::project::Id<Entity>> {
    std::size_t operator()(const core::project::Id<Entity>& id) const noexcept {
        return std::hash<std::int64_t>{}(id.value);
    }
};
