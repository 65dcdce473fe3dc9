#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/findings/agreement.h"
#include "core/findings/bands.h"
#include "core/findings/cells.h"
#include "core/findings/comparison.h"
#include "core/findings/hitters.h"
#include "core/findings/method.h"
#include "core/findings/said.h"
#include "core/findings/trends.h"
#include "core/project/snapshot.h"
#include "core/report/summary.h"

/// From readings to a ranked table that others can trust and check: everything that can be said of
/// a project, as values; core/words says it.
namespace core::findings {

struct FindingsOptions {
    /// For the chances of ranks; kept with the result, the same seed gives the same findings.
    std::uint64_t seed{20240229};
    int draws{1000};  ///< simulated tables for the ranks, 100 to 1,000,000
};

/// What is said of a project at one revision. Immutable value; rpm throughout.
struct Findings {
    std::int64_t revision{};
    std::uint64_t seed{};
    int draws{};
    std::uint64_t fingerprint{};        ///< of counting readings, settings and options: see Looks
    int looks{};                        ///< with other data or options, this one not counted
    std::optional<Rpm> noticeableStep;  ///< D; absent while the tester has set none
    Bands bands;

    report::Summary summary;                   ///< the plain table: what `summary` and `export` say
    std::vector<CellFinding> cells;            ///< in the order of summary.cells
    std::vector<ImplementFinding> implements;  ///< in the order of summary.implements
    std::vector<Comparison> comparisons;  ///< all hitters together, then, where several, each alone
    HitterFindings hitters;
    std::vector<ConditionContrast> conditions;
    std::vector<AttributeFinding> attributes;
    std::vector<DriftFinding> drifts;
    std::vector<ControlFinding> controls;
    std::vector<SessionLink> sessions;
    SpeedFinding speed;
    AgreementFindings agreement;
    /// Speed across the picture of every shot's latest rotation fit, m/s; absent where the size of
    /// the ball is not known.
    std::map<project::ReadingId, std::optional<double>> ballSpeeds;
    MethodFacts method;

    /// All hitters together.
    [[nodiscard]] const Comparison& together() const { return comparisons.front(); }
    /// Null when the hitter has no comparison of their own.
    [[nodiscard]] const Comparison* comparisonOf(project::HitterId hitter) const noexcept;
    [[nodiscard]] const ImplementFinding* find(project::ImplementId implement) const noexcept;
    /// Odd shots of all cells, the farthest first.
    [[nodiscard]] std::vector<OddShot> oddShots() const;
};

using FindingsPtr = std::shared_ptr<const Findings>;

/// Everything that can be said of the kept readings; the order in which shots were kept or filmed
/// plays no part but in the drift. With the findings of an earlier revision (and the same options)
/// cells and pairs that did not change are taken over: the result is the same, only sooner.
/// Errors: NotFinite when a stored reading is not a number (names the shot); Damaged for settings
/// that cannot be read; OutOfRange for options; Cancelled.
Result<Findings> findFindings(const project::Snapshot& snapshot,
                              const FindingsOptions& options = {}, const std::stop_token& stop = {},
                              const Findings* earlier = nullptr);

/// Only what doubts rest on: cells and hitters, with the defaults of FindingsOptions; nothing is
/// compared (comparisons is empty). Errors: NotFinite; Damaged.
Result<Findings> findCellsAndHitters(const project::Snapshot& snapshot);

}  // namespace core::findings
