#pragma once

#include <optional>
#include <span>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/comparison/random_effects.h"
#include "core/stats/sample/sample_summary.h"

namespace core::stats {

/// Readings of one cell (one implement, one hitter, one session).
struct CellReadings {
    std::span<const double> values{};
    /// Standard uncertainty of each reading without the part shared by all; empty when unknown.
    std::span<const double> readingUncertainties{};
    /// Relative standard uncertainty that every reading of the cell shares: the clock.
    double sharedRelativeUncertainty{};
};

/// Uncertainty of the mean of a cell of at least two readings.
struct CellMean {
    double standardUncertainty{};  ///< scatter and shared part together
    double sharedUncertainty{};    ///< |mean| times the relative one, whatever the count
    DegreesOfFreedom dof{};        ///< effective, Welch-Satterthwaite; infinite without scatter
    Interval<double> interval{};   ///< mean -+ t(dof) * standardUncertainty
};

/// What the scatter of a cell consists of.
struct ScatterSplit {
    double readingDeviation{};  ///< root mean square of the reading uncertainties
    RandomEffects reml{};       ///< shot-to-shot variation by restricted likelihood
    RandomEffects moments{};    ///< the same by DerSimonian and Laird
};

/// All numbers of one cell.
struct CellSummary {
    SampleSummary sample{};               ///< from the scatter alone
    std::optional<CellMean> mean{};       ///< absent for a single reading
    std::optional<ScatterSplit> split{};  ///< absent without uncertainties or for a single reading
};

/// Summary of a cell. The shared relative uncertainty is added after averaging: unlike the scatter
/// it does not shrink with the count. Combination by JCGM 100:2008, 5.1.2 and G.4.1 (eq. G.2b) with
/// infinitely many degrees of freedom for the shared part. O(n).
/// Errors: those of summarise() and estimateRandomEffects(); OutOfRange for a negative shared
/// uncertainty; NotFinite.
Result<CellSummary> summariseCell(const CellReadings& readings, Confidence confidence = {});

}  // namespace core::stats
