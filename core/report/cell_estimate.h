#pragma once

#include <map>
#include <optional>
#include <span>

#include "core/project/snapshot.h"
#include "core/stats/comparison/pairwise.h"
#include "core/stats/sample/likely_mean.h"

/// The one model of a cell's mean: what is its own, and what it shares with other cells.
namespace core::report {

/// Where an error comes from that several means share.
enum class SharedSource {
    Clock,  ///< of the clips of a session
    View,   ///< line of sight or field of view, by session and method
    Habit,  ///< of counting whole frames where it is not known, by session
};

struct SharedKey {
    SharedSource source{};
    project::SessionId session{};
    project::ReadingMethod method{};  ///< for the view; else Marks
    auto operator<=>(const SharedKey&) const = default;
};

/// Effect on a mean, with its sign and in rpm, of one standard uncertainty of each shared part.
/// Parts of different keys are independent. A difference of means has the differences of these.
using SharedParts = std::map<SharedKey, double>;

/// Sum of squares, rpm squared.
[[nodiscard]] double varianceOf(const SharedParts& parts) noexcept;
/// parts += weight * more
void addParts(SharedParts& parts, const SharedParts& more, double weight);

/// What one reading brings into its cell.
struct CountingReading {
    project::ShotId shot;
    Measured<Rpm> rate;
    double clockRelativeSigma{};
    project::ReadingMethod method{};
    std::optional<spin::CountingHabit> habit{};
    double viewRelativeSigma{};             ///< zero where it is not known
    stats::ReadingLikelihood likelihood{};  ///< without what is shared
    double habitRpm{};                      ///< effect of a habit that is not known
};

/// A reading with a counting habit enters as its count (spin::countedRate()); one with hard limits
/// as a trapezoid of periods between them that has the reading's own standard uncertainty; any
/// other as normal. The parts that are shared (clock, view, habit) are not in it.
[[nodiscard]] CountingReading countingReading(const project::Reading& reading);

/// Mean of a cell of at least two readings.
struct CellEstimate {
    std::size_t count{};
    stats::LikelyMean own{};
    SharedParts shared{};

    [[nodiscard]] double variance() const noexcept { return own.standardError * own.standardError; }
    [[nodiscard]] stats::IndependentMean independent() const {
        return {own.mean, variance(), own.dof};
    }
    /// With what it shares.
    [[nodiscard]] stats::SharedWidening total() const;
    /// Count, mean, and the sum of squares that gives the variance of the mean; for exact readings
    /// those of the sample.
    [[nodiscard]] stats::Moments moments() const noexcept;
};

/// Errors: those of stats::likelyMean().
Result<CellEstimate> estimateCell(project::SessionId session,
                                  std::span<const CountingReading> readings);

/// Plain average of cell means of one implement. What cells with rectangular limits do not average
/// out (stats::LikelyMean::commonError) is taken to be alike in all of them.
struct CellsAverage {
    double meanRpm{};
    double variance{};       ///< of the mean, without shared parts
    double shotsVariance{};  ///< the part of it that more shots make smaller
    double dof{};            ///< of variance, Welch and Satterthwaite; zero without scatter
    double scatterRpm{};     ///< from shot to shot, pooled within the cells
    SharedParts shared{};
};
[[nodiscard]] CellsAverage averageOf(std::span<const CellEstimate* const> cells);

}  // namespace core::report
