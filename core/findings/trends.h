#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/findings/cells.h"
#include "core/stats/comparison/contrast.h"
#include "core/stats/comparison/covariance_analysis.h"
#include "core/stats/readers/correlation.h"

namespace core::findings {

/// A point of a scatter plot; opens the implement or the shot that it stands for.
struct TrendPoint {
    double x{};
    double y{};  ///< rpm
    std::optional<project::ImplementId> implement{};
    std::optional<project::ShotId> shot{};
    std::string name{};
};

/// What more of an attribute goes with.
enum class Trend { None, More, Less };

/// Spin against a numeric attribute of the implements, one point an implement.
struct AttributeFinding {
    std::string attribute{};  ///< with the unit: "mass, g"
    std::string key{};        ///< as the tester calls it
    std::string unit{};       ///< of all of them; empty where there is none or several
    std::vector<TrendPoint> points{};
    std::vector<std::string> leftOut{};  ///< implements without a number there
    Said<stats::Correlation> pearson{};
    Said<stats::Correlation> spearman{};
    /// By the rank correlation; None where its interval holds zero. Nothing where it is not known.
    std::optional<Trend> trend{};
    std::size_t lookedAt{};  ///< attributes, this one among them
};

/// Whether the interval holds zero; without one the p value says it.
[[nodiscard]] bool holdsZero(const stats::Correlation& correlation);

/// Spin against shot number of one hitter in a session. Implements are held apart (analysis of
/// covariance), so that the order in which they were filmed is not taken for a drift.
struct DriftFinding {
    project::SessionId session{};
    project::HitterId hitter{};
    std::string sessionName{};
    std::string hitterName{};
    /// x shot number of the hitter from 1, y rpm above the cell's level: its value at the centre
    /// when a drift is shown, else its mean.
    std::vector<TrendPoint> points{};
    Said<stats::JudgedEstimate> perShot{};  ///< rpm a shot, cells held apart
    double centre{};                        ///< shot number at which the line through y = 0 passes

    [[nodiscard]] bool isShown() const { return perShot && perShot->pValue < 0.05; }
};

/// A control implement at the start, the middle and the end of a session. An implement is one when
/// it is the plan's, or its condition or the name of one of its attributes is "control".
struct ControlFinding {
    project::SessionId session{};
    project::HitterId hitter{};
    project::ImplementId implement{};
    std::string sessionName{};
    std::string hitterName{};
    std::string implementName{};
    std::vector<Estimate> thirds{};              ///< start, middle, end
    Said<stats::JudgedEstimate> endLessStart{};  ///< rpm
};

/// How much more or less spin one session shows than another for the same implements and hitters.
struct SessionLink {
    project::SessionId first{};
    project::SessionId second{};
    std::string firstName{};
    std::string secondName{};
    std::size_t sharedCells{};                 ///< implement with hitter in both
    Said<stats::JudgedEstimate> difference{};  ///< first less second, rpm
};

/// Implements at equal ball speed.
struct SpeedFinding {
    Said<stats::CovarianceAnalysis> analysis{};
};

}  // namespace core::findings
