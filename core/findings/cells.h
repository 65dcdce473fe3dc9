#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/findings/said.h"
#include "core/report/summary.h"
#include "core/stats/sample/cell_summary.h"
#include "core/stats/sample/grubbs.h"
#include "core/stats/sample/robust_location.h"

namespace core::findings {

/// A number with its standard uncertainty and 95 % interval; rpm unless said otherwise.
struct Estimate {
    double value{};
    double standardUncertainty{};
    Interval<double> interval95{};
    double dof{};  ///< may be infinite
};

/// A shot that lies far from the others of its cell. Proposed for a second look, never removed.
struct OddShot {
    project::ShotId shot{};
    project::CellId cell{};
    double rpm{};
    /// Grubbs' |x - mean| / s, of coarse readings what gains as much (stats::grubbsTest()).
    double statistic{};
    stats::OutlierWord word{};
    bool isByScatter{};  ///< found because it alone puts its cell's scatter out of line (Cochran)
    std::string sentence{};
};

/// One implement with one hitter in one session.
struct CellFinding {
    report::CellRow row{};  ///< ids, names, counts, readings in the order of the film
    /// Count, mean, median and scatter of the readings as they stand, and what the scatter consists
    /// of. What is known of the mean is in `mean`.
    Said<stats::CellSummary> summary{};
    Said<Estimate> mean{};  ///< as report::CellRow::mean
    Said<stats::RobustTwins> robust{};
    Said<stats::ScatterSplit> split{};  ///< scatter: uncertainty of the readings, shot to shot
    Said<stats::GrubbsResult> grubbs{};
    std::vector<OddShot> oddShots{};
    std::string sentence{};
    std::string scatterSentence{};
    std::string
        oddScatterSentence{};  ///< scatter out of line that no single shot makes; else empty
    double oddScatterP{1.0};   ///< Cochran's, for the largest of all cells
};

/// Whether readings of the cell are coarse beside its scatter.
[[nodiscard]] inline bool isCoarse(const CellFinding& cell) noexcept {
    return cell.row.estimate && cell.row.estimate->own.coarsenessError > 0.0;
}

/// One implement over its cells, whoever struck it.
struct ImplementFinding {
    report::ImplementRow row{};        ///< the plain average of the cell means
    std::string name{};                ///< with the condition where another has the same name
    std::vector<std::size_t> cells{};  ///< positions in Findings::cells
    std::string sentence{};
    std::vector<std::string> notes{};  ///< what to know before trusting the row
};

}  // namespace core::findings
