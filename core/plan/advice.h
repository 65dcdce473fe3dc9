#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/plan/plan.h"

/// What a plan can show, and whether the camera will be quick enough, in plain sentences.
namespace core::plan {

/// Probability with which a difference of the noticeable step shall be found.
inline constexpr double kAdvisedPower = 0.8;
/// Error probability of the test on one pair, and of all pairs together.
inline constexpr double kAdvisedAlpha = 0.05;
/// Frames in a turn below which whole turns are easily miscounted, and below which a rate cannot be
/// told from its alias (sampling theorem; the limits of core/spin/aliases.h).
inline constexpr double kFewFramesPerTurn = 3.0;
inline constexpr double kTooFewFramesPerTurn = 2.0;
/// Turn during an exposure above which the mark is smeared too much to be read well.
inline constexpr double kMuchBlurDegrees = 45.0;

/// What is known besides the plan.
struct AdviceFacts {
    std::optional<double> noticeableStepRpm;
    std::optional<double> measuredScatterRpm;  ///< of shots read earlier; goes before the assumed
};

struct AdviceLine {
    std::string text;
    bool isWarning{};
};

/// The smallest true difference between two implements of one hitter that so many shots per cell
/// find with kAdvisedPower.
struct SmallestStep {
    int shotsPerCell{};
    double rpm{};
};

struct Advice {
    /// Shots per cell with which one pair shows the step with kAdvisedPower, and with which all
    /// pairs of the planned implements do together (alpha shared out evenly, Bonferroni).
    std::optional<int> shotsForOnePair;
    std::optional<int> shotsForAllPairs;
    std::optional<double> powerAsPlanned;  ///< of one pair, with the planned shots
    std::optional<double> smallestStepAsPlannedRpm;
    /// By shots per cell, the planned number among them; empty while the scatter is not known.
    std::vector<SmallestStep> smallestSteps;
    std::optional<double> framesPerTurn;  ///< 60 · capture rate ÷ expected spin
    /// The neighbouring rates that counting whole frames of one turn can give, in rpm: 60 · capture
    /// rate ÷ whole number, below and above the expected spin. Equal when it is one of them.
    std::optional<double> countedBelowRpm;
    std::optional<double> countedAboveRpm;
    std::optional<double> blurDegrees;  ///< 6 · expected spin · exposure
    std::vector<AdviceLine> lines;
};

/// Advice for a plan. Two-sample t test, two-sided, noncentral t (core/stats/comparison/power.h);
/// scatter is the standard deviation of single shots as read, the same for all cells. What is not
/// known is asked for in a line of its own.
[[nodiscard]] Advice adviceFor(const Plan& plan, const AdviceFacts& facts);

}  // namespace core::plan
