#pragma once

#include <optional>
#include <vector>

#include "core/findings/cells.h"
#include "core/findings/comparison.h"
#include "core/findings/hitters.h"
#include "core/project/snapshot.h"
#include "core/stats/comparison/pairwise.h"

namespace core::findings {

/// Readings of one implement with one hitter, all sessions together.
struct CrossedCell {
    std::size_t implement{};   ///< position in the list of implements
    std::size_t hitter{};      ///< position in Crossed::hitters
    stats::Moments moments{};  ///< that give the variance of the mean (report::CellEstimate)
    /// The part of that variance that nothing estimates and more shots make no smaller: of coarse
    /// readings (stats::LikelyMean::coarsenessError).
    double coarseVariance{};
    bool isScatterHidden{};  ///< readings too coarse to show any scatter
    /// How much farther the mean may lie off than its standard error says when it lies far off: of
    /// coarse readings the likelihood falls slowly. 1 for exact ones.
    double farFactor{1.0};
    report::SharedParts shared{};
    std::vector<project::ShotId> shots{};

    [[nodiscard]] stats::IndependentMean mean() const;
};

/// Implements against hitters.
struct Crossed {
    struct Who {
        project::HitterId id;
        std::string name;
    };
    std::vector<Who> hitters{};  ///< those with a cell, as added
    std::vector<CrossedCell> cells{};

    /// Null when there is no such cell.
    [[nodiscard]] const CrossedCell* find(std::size_t implement, std::size_t hitter) const;
    /// With two readings that differ, or more: a mean with a known uncertainty.
    [[nodiscard]] const CrossedCell* usable(std::size_t implement, std::size_t hitter) const;
};

Crossed crossCells(const std::vector<ImplementFinding>& implements,
                   const std::vector<CellFinding>& cells);

HitterFindings findHitters(const std::vector<ImplementFinding>& implements, const Crossed& crossed,
                           std::optional<Rpm> step);

std::vector<ConditionContrast> findConditions(const std::vector<ImplementFinding>& implements,
                                              const Comparison& together);

/// The verdict on one difference by itself: intervals of 95 % and, for equivalence, 90 %.
std::optional<stats::StepVerdict> verdictOn(const stats::JudgedEstimate& difference,
                                            std::optional<Rpm> step);

}  // namespace core::findings
