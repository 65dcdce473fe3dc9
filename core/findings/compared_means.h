#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/findings/comparison.h"
#include "core/stats/comparison/one_way.h"
#include "core/stats/comparison/two_way.h"

namespace core::findings {

/// What the comparison of one implement rests on.
struct ComparedMean {
    std::size_t implement{};  ///< position in the list of implements
    std::string name;
    std::size_t shots{};
    double shotsPerCell{};  ///< harmonic mean over its cells
    double meanRpm{};
    double variance{};                           ///< of the mean, without shared parts
    double shotsVariance{};                      ///< the part of it that more shots make smaller
    double dof{};                                ///< of variance
    double scatterRpm{};                         ///< from shot to shot, pooled within its cells
    std::optional<Interval<double>> interval95;  ///< of a single cell: its own, which may be skew
    std::vector<double> sharedRpm;               ///< effect of each of ComparedMeans::sharedKeys

    [[nodiscard]] double sharedVariance() const noexcept;
};

/// Means of implements that can be compared with each other: their own covariance, and what they
/// share with each other.
struct ComparedMeans {
    ComparisonModel model{};
    std::vector<ComparedMean> means;  ///< highest first
    std::vector<double> covariance;   ///< of the means, row-major; diagonal for CellMeans
    double commonDof{};               ///< of the additive model's error variance
    std::vector<report::SharedKey> sharedKeys;
    bool isCoarse{};  ///< a cell has readings that are coarse beside its scatter
    std::vector<LeftOut> leftOut;
    bool areLinked{true};                         ///< else the means can only be shown side by side
    std::vector<std::vector<double>> cellValues;  ///< of the cells used
    std::vector<stats::TwoWayCell> cells;         ///< row: position in means
    std::size_t blocks{};                         ///< hitters in sessions
};

/// Means of one hitter, or of all together. A cell enters with two kept readings or more.
ComparedMeans compareMeans(const std::vector<ImplementFinding>& implements,
                           const std::vector<CellFinding>& cells,
                           std::optional<project::HitterId> hitter);

/// Variance of the difference of two means, what they share taken out, and its degrees of freedom.
struct DifferenceError {
    double variance{};
    double shotsVariance{};  ///< the part that more shots make smaller
    double dof{};
};
[[nodiscard]] DifferenceError differenceError(const ComparedMeans& compared, std::size_t i,
                                              std::size_t j);

/// Welch's test of the means, what they share left out.
Said<stats::VarianceRatioTest> welchTest(const std::vector<ComparedMean>& means);

}  // namespace core::findings
