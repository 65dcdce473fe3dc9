#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/findings/cells.h"
#include "core/stats/comparison/contrast.h"
#include "core/stats/comparison/noticeable_step.h"
#include "core/stats/comparison/two_way.h"

namespace core::findings {

/// A level of a factor with its estimated marginal mean: each level of the other factor weighs the
/// same.
struct MarginalMean {
    std::string name{};
    Estimate mean;
};

/// Two hitters with one implement.
struct HitterPair {
    project::ImplementId implement{};
    project::HitterId first{};
    project::HitterId second{};
    std::string implementName{};
    std::string firstName{};
    std::string secondName{};
    Said<stats::JudgedEstimate> difference{};  ///< first less second, rpm; interval for it alone
    std::optional<stats::StepVerdict> verdict{};
};

/// A cell that does not fit implement + hitter: one hitter got more or less from an implement than
/// the others did. A reason to film the cell again, never a fault. Where the readings cannot tell
/// which of several cells it is, all of them are listed, one after the other; with two hitters that
/// is always so.
struct InteractionCell {
    project::ImplementId implement{};
    project::HitterId hitter{};
    std::string implementName{};
    std::string hitterName{};
    double departureRpm{};  ///< cell mean less what the other cells predict for it
    double standardErrorRpm{};
    double adjustedP{};     ///< Bonferroni, over what could have been named
    bool isOneOfSeveral{};  ///< it is this cell or another one of its group
    std::size_t group{};
    // Among the implements that every hitter has struck, with this hitter.
    double meanRpm{};
    double meanSigmaRpm{};
    double othersRpm{};        ///< mean of the others
    std::size_t above{};       ///< of the others, how many have a higher mean
    std::size_t implements{};  ///< this one among them
};

/// A cell without (enough) kept shots.
struct MissingCell {
    project::ImplementId implement{};
    project::HitterId hitter{};
};

/// Implement and hitter together.
struct HitterFindings {
    Said<stats::TwoWayAnova> typeTwo{};
    Said<stats::TwoWayAnova> typeThree{};
    Said<std::vector<MarginalMean>> implementMeans{};
    Said<std::vector<MarginalMean>> hitterMeans{};
    std::vector<InteractionCell> interaction{};  ///< the cells that stand out, largest first
    std::vector<MissingCell> missing{};
    std::vector<HitterPair> pairs{};  ///< by implement

    /// The cells among which the odd one is, the likeliest first: those of a cell's group.
    [[nodiscard]] std::span<const InteractionCell> groupOf(const InteractionCell& cell) const;
};

/// New against worn: implements of one name that differ in their condition.
struct ConditionContrast {
    project::ImplementId first{};
    project::ImplementId second{};
    std::string name{};
    std::string firstCondition{};
    std::string secondCondition{};
    Said<stats::JudgedEstimate> difference{};  ///< first less second, over the hitters of both
    std::optional<stats::StepVerdict> verdict{};
    bool differs{};
};

}  // namespace core::findings
