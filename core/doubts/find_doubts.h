#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "core/doubts/doubt.h"
#include "core/doubts/doubt_material.h"
#include "core/findings/findings.h"

namespace core::doubts {

/// Everything doubtful in a project at one revision. Immutable value.
struct Doubts {
    std::int64_t revision{};
    /// Settled ones last, otherwise the worst first; equal ones in the order of the film, a cell
    /// before its shots.
    std::vector<Doubted> items;
    std::size_t keptShots{};        ///< that were looked at
    std::size_t withoutPictures{};  ///< of these, filmed shots whose pictures were not read:
                                    ///< nothing was held against the marks

    /// Items that nobody has settled.
    [[nodiscard]] std::size_t unsettled() const noexcept;
};

using DoubtsPtr = std::shared_ptr<const Doubts>;

/// Looks at every kept shot, every shot that a reader has marked as doubtful, and every cell. The
/// findings must be of the material's snapshot or an earlier one. The rules, with their sources,
/// are in rules_of_readings.h and rules_of_groups.h.
[[nodiscard]] Doubts findDoubts(const DoubtMaterial& material, const findings::Findings& findings);

}  // namespace core::doubts
