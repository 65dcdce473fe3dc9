#pragma once

#include <cstdint>
#include <span>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/stats/comparison/pairwise.h"

namespace core::stats {

struct RankOptions {
    std::uint64_t seed{};
    Confidence confidence{};
    int draws{4000};  ///< simulated data sets, 100 to 1,000,000
};

/// Where one mean may stand, the highest mean having rank 1.
struct RankInterval {
    int rank{};            ///< of the estimate; equal means keep their order
    int lowest{};          ///< best rank that the data allow
    int highest{};         ///< worst rank that the data allow
    double firstChance{};  ///< share of simulated true means in which this one is first
};

struct Ranking {
    std::vector<RankInterval> means;  ///< in the order given
    std::uint64_t seed{};
    int draws{};
};

/// Ranks with their uncertainty by parametric bootstrap.
///
/// Interval of mean i: all ranks not excluded by its differences from the others, with a critical
/// value simulated for the largest studentized difference from i (Klein, Wright and Wieczorek 2020,
/// J. R. Stat. Soc. A 183:589-606; Mogstad, Romano, Shaikh and Wilhelm 2024, Rev. Econ. Stud.
/// 91:476-518). It covers the true rank with the level asked for, ties included, each mean on its
/// own; ranking the simulated means directly would not when true means are close. The chance to be
/// first simulates true means as estimate + t(dof) * standard error. Draws * k^2 steps; the same
/// seed gives the same result.
/// Errors: InvalidInput for fewer than two means; NotFinite; OutOfRange for a variance or dof of
/// zero or less, or options outside their range; Cancelled.
Result<Ranking> rankMeans(std::span<const IndependentMean> means, const RankOptions& options,
                          const std::stop_token& stop = {});

/// Means whose errors go together.
struct LinkedMeans {
    std::span<const IndependentMean> means{};
    /// Of a linear model, k x k, row-major, with the degrees of freedom of the first mean; its
    /// diagonal is the means' variances. Empty: each mean errs by itself.
    std::span<const double> covariance{};
    /// Effect on each mean of one standard uncertainty of each shared part, k x parts, row-major;
    /// in addition to the variances, and known as such. Empty: nothing is shared.
    std::span<const double> shared{};
};

/// The same with errors that go together: what two means share moves neither above the other.
/// Errors: as above; InvalidInput for sizes that do not fit or a covariance that is none.
Result<Ranking> rankMeans(const LinkedMeans& linked, const RankOptions& options,
                          const std::stop_token& stop = {});

}  // namespace core::stats
