#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/findings/cells.h"
#include "core/stats/correlation.h"
#include "core/stats/covariance_analysis.h"
#include "core/stats/straight_line.h"

namespace core::findings {

/// A point of a scatter plot; opens the implement or the shot that it stands for.
struct TrendPoint {
    double x{};
    double y{};  ///< rpm
    std::optional<project::ImplementId> implement;
    std::optional<project::ShotId> shot;
    std::string name;
};

/// Spin against a numeric attribute of the implements, one point an implement.
struct AttributeFinding {
    std::string attribute;
    std::vector<TrendPoint> points;
    std::vector<std::string> leftOut;  ///< implements without a number there
    Said<stats::Correlation> pearson;
    Said<stats::Correlation> spearman;
    std::string sentence;  ///< with the warning that attributes go together
};

/// Spin against shot number in a session. Each shot's spin less the mean of its cell, so that the
/// order of the implements is not taken for a drift.
struct DriftFinding {
    project::SessionId session;
    std::optional<project::HitterId> hitter;  ///< absent: all hitters of the session
    std::string sessionName;
    std::string hitterName;
    std::vector<TrendPoint> points;       ///< x shot number from 1, y rpm above the cell mean
    Said<stats::JudgedEstimate> perShot;  ///< rpm a shot, cells held apart
    Said<stats::StraightLine> line;       ///< through the points, for drawing
    std::string sentence;
};

/// One implement at the start, the middle and the end of a session.
struct ControlFinding {
    project::SessionId session;
    project::HitterId hitter;
    project::ImplementId implement;
    std::vector<Estimate> thirds;              ///< start, middle, end
    Said<stats::JudgedEstimate> endLessStart;  ///< rpm
    std::string sentence;
};

/// How much more or less spin one session shows than another for the same implements and hitters.
struct SessionLink {
    project::SessionId first;
    project::SessionId second;
    std::string firstName;
    std::string secondName;
    std::size_t sharedCells{};               ///< implement with hitter in both
    Said<stats::JudgedEstimate> difference;  ///< first less second, rpm
    std::string sentence;
};

/// Implements at equal ball speed.
struct SpeedFinding {
    Said<stats::CovarianceAnalysis> analysis;
    std::string sentence;
};

}  // namespace core::findings
