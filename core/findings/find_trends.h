#pragma once

#include <map>
#include <vector>

#include "core/findings/cells.h"
#include "core/findings/comparison.h"
#include "core/findings/trends.h"
#include "core/project/snapshot.h"
#include "core/report/tables.h"

namespace core::findings {

/// Attributes that are numbers for three implements or more. A unit after the number ("23 kg") must
/// be the same for all.
std::vector<AttributeFinding> findAttributes(const project::Snapshot& snapshot,
                                             const Comparison& together);

/// Shot numbers count a hitter's shots of a session, kept or not, in the order of the film.
class ShotNumbers {
public:
    using Numbered = report::NumberedShot;

    ShotNumbers() = default;
    /// Each shot once, in any order.
    explicit ShotNumbers(std::vector<Numbered> numbers);
    /// Absent for a shot without a cell.
    [[nodiscard]] std::optional<int> of(project::ShotId shot) const;

private:
    std::vector<Numbered> m_numbers;  // by shot
};
ShotNumbers numberShots(const project::Snapshot& snapshot);

std::vector<DriftFinding> findDrifts(const std::vector<CellFinding>& cells,
                                     const ShotNumbers& numbers);
std::vector<ControlFinding> findControls(const project::Snapshot& snapshot,
                                         const std::vector<CellFinding>& cells,
                                         const ShotNumbers& numbers);
std::vector<SessionLink> findSessionLinks(const std::vector<CellFinding>& cells);

/// Ball speeds of shots whose counting reading carries one, in metres a second.
using BallSpeeds = std::map<project::ShotId, double>;
SpeedFinding findSpeed(const std::vector<ImplementFinding>& implements, const BallSpeeds& speeds);

}  // namespace core::findings
