#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/project/snapshot.h"
#include "core/report/cell_estimate.h"

namespace core::report {

/// How many shots of a cell or an implement are where.
struct ShotCounts {
    std::size_t kept{};
    std::size_t open{};
    std::size_t setAside{};
    std::size_t leftOut{};  ///< kept, but the flight refutes the clock of their clip
    bool operator==(const ShotCounts&) const = default;
};

/// Mean of a group of readings with its interval; all in rpm. The interval is that of the readings'
/// likelihood (stats::likelyMean(); of exact readings Student's), with what they share added after
/// averaging (cell_estimate.h).
struct GroupMean {
    double meanRpm{};
    double medianRpm{};
    std::optional<double> standardDeviationRpm;    ///< absent for fewer than two readings
    std::optional<double> standardUncertaintyRpm;  ///< of the mean
    std::optional<Interval<Rpm>> interval95;
    double dof{};  ///< of the standard uncertainty; may be infinite; zero when it is not known
};

/// One implement with one hitter in one session.
struct CellRow {
    project::CellId cell;
    project::SessionId session;
    project::ImplementId implement;
    project::HitterId hitter;
    std::string sessionName;
    std::string implementName;
    std::string condition;
    std::string hitterName;
    ShotCounts counts;
    std::vector<CountingReading> readings;  ///< kept ones, in the order of the film
    std::optional<CellEstimate> estimate;   ///< absent for fewer than two readings
    std::optional<GroupMean> mean;          ///< absent without a kept reading
};

/// One implement over its cells: the plain average of the cell means, so that a hitter with more
/// shots does not weigh more. Standard deviation: pooled within cells. Interval: standard errors
/// combined by JCGM 100:2008, 5.1.2, degrees of freedom by Welch and Satterthwaite (G.4.1), each
/// shared part of the cells added once.
struct ImplementRow {
    project::ImplementId implement;
    std::string implementName;
    std::string condition;
    ShotCounts counts;
    std::size_t cellsWithReadings{};
    std::vector<CountingReading> readings;
    std::optional<GroupMean> mean;
};

/// A clip whose clock the flight refutes: its kept shots are in no number.
struct LeftOutClip {
    project::ClipId clip;
    std::string name;
    std::size_t shots{};  ///< kept ones
    std::string statement;
};
/// "3 kept shots of b.mp4 are left out: …", with what to do, for people.
[[nodiscard]] std::string leftOutSentence(const LeftOutClip& clip);

/// The per-implement summary of a project. Immutable value.
struct Summary {
    std::vector<CellRow> cells;            ///< by implement (as added), then hitter, then session
    std::vector<ImplementRow> implements;  ///< highest mean first; without a mean last
    ShotCounts unassigned;                 ///< shots without implement and hitter: in no row
    std::vector<LeftOutClip> leftOut;      ///< with kept shots only
};

/// O(shots). Errors: NotFinite when a stored reading is not a finite number (names the shot).
Result<Summary> summarise(const project::Snapshot& snapshot);

/// Standard deviation from shot to shot in rpm, pooled over the cells with two or more kept shots
/// (square root of the sum of squares within the cells over its degrees of freedom; ISO 5725-2,
/// 7.4.5.1), what coarse readings add taken out. Cells whose readings are too coarse to show any
/// scatter are left out; absent without another one.
[[nodiscard]] std::optional<double> measuredScatterRpm(const Summary& summary);

/// The summary as two tables in plain text, for a terminal.
[[nodiscard]] std::string summaryText(const Summary& summary);

}  // namespace core::report
