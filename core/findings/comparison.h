#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/findings/cells.h"
#include "core/stats/comparison/noticeable_step.h"
#include "core/stats/comparison/one_way.h"
#include "core/stats/comparison/rank_intervals.h"

namespace core::findings {

/// How the means that are compared came about.
enum class ComparisonModel {
    /// Every implement was struck by every hitter in every session: plain average of the cell
    /// means, each cell with its own variance (Games and Howell).
    CellMeans,
    /// Cells are missing: additive model implement + hitter in session, one error variance (Tukey
    /// and Kramer). What is missing is filled in by the model, which a sentence says.
    Additive,
};

/// Two implements compared, within the family of all pairs of its comparison.
struct PairFinding {
    project::ImplementId first{};  ///< the one with the higher mean
    project::ImplementId second{};
    std::string firstName{};
    std::string secondName{};
    double differenceRpm{};  ///< zero or more
    double standardErrorRpm{};
    double dof{};
    Interval<double> interval95{};  ///< holds for all pairs at once
    Interval<double> interval90{};  ///< of the equivalence test, for all pairs at once
    double adjustedP{};
    bool differs{};                               ///< interval95 leaves out zero
    std::optional<stats::StepVerdict> verdict{};  ///< absent while no noticeable step is set
    /// More shots in each cell that would tell the two apart with power 0.8, should the present
    /// difference and scatter be the true ones; 0 when they differ already. Of many implements only
    /// near neighbours in the ranks are asked for.
    Said<int> moreShots{};
};

/// An implement in the ranked table.
struct RankedImplement {
    project::ImplementId implement{};
    std::string name{};
    std::size_t shots{};
    Estimate mean;              ///< as compared (see ComparisonModel), clock included
    Said<double> scatterRpm{};  ///< standard deviation from shot to shot, pooled over its cells
    std::string letters{};      ///< implements that share a letter cannot be told apart
    Said<stats::RankInterval> rank{};
    Said<std::string> band{};
    std::vector<ImplementNote> notes{};
};

/// An implement that could not be compared, with the reason.
struct LeftOut {
    project::ImplementId implement{};
    std::string name{};
    WhyNot whyNot{};
};

/// Tukey and Kramer's pairs, where the variances are alike.
struct EqualVariancePair {
    project::ImplementId first{};  ///< the one with the higher mean in the comparison
    project::ImplementId second{};
    double differenceRpm{};
    Interval<double> interval95{};
    double adjustedP{};
};

/// The implements compared: with one hitter, or with all of them together.
struct Comparison {
    std::optional<project::HitterId> hitter{};  ///< absent: all hitters together
    std::string hitterName{};                   ///< empty: all hitters together
    ComparisonModel model{};
    std::vector<RankedImplement> ranked{};  ///< highest mean first
    std::vector<LeftOut> leftOut{};
    /// Do the implements differ at all? Welch's test; in the additive model the F test of the
    /// implements, adjusted for hitters and sessions.
    Said<stats::VarianceRatioTest> welch{};
    Said<stats::VarianceRatioTest> equalVariances{};  ///< Brown and Forsythe, over the cells
    std::vector<PairFinding> pairs{};                 ///< (0,1), (0,2) … by position in ranked
    std::optional<WhyNot> whyNoPairs{};               ///< absent when there are pairs
    Said<std::vector<EqualVariancePair>> tukeyKramer{};
    std::uint64_t fingerprint{};  ///< of everything that it was computed from

    [[nodiscard]] const RankedImplement* find(project::ImplementId implement) const noexcept;
    /// In either order; null when the pair was not compared.
    [[nodiscard]] const PairFinding* pair(project::ImplementId a,
                                          project::ImplementId b) const noexcept;
};

}  // namespace core::findings
