#pragma once

#include <cstddef>
#include <optional>
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
    std::string implementName{};
    std::string hitterName{};
    double rpm{};
    std::optional<Interval<double>> bounds{};  ///< of a coarse reading
    /// Grubbs' |x - mean| / s, of coarse readings what gains as much (stats::grubbsTest()).
    double statistic{};
    stats::OutlierWord word{};
    double deviationRpm{};  ///< standard deviation of its cell
    /// Found because it alone puts its cell's scatter out of line: Cochran's p.
    std::optional<double> scatterP{};
};

/// A cell whose scatter is out of line with the other cells (Cochran, ISO 5725-2), and no single
/// shot makes it.
struct OddScatter {
    std::string implementName{};
    std::string hitterName{};
    double deviationRpm{};
    double pValue{};
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
    std::optional<OddScatter> oddScatter{};
};

/// Whether readings of the cell are coarse beside its scatter.
[[nodiscard]] inline bool isCoarse(const CellFinding& cell) noexcept {
    return cell.row.estimate && cell.row.estimate->own.coarsenessError > 0.0;
}

/// Whether single odd shots weigh in the mean: an average that they cannot drag away (Hodges and
/// Lehmann) lies more than a standard uncertainty off.
[[nodiscard]] bool isDragged(const CellFinding& cell);

/// What to know before trusting the row of an implement.
struct ImplementNote {
    enum class Kind {
        FewKept,          ///< `hitters` have fewer than two kept shots with it
        OddShots,         ///< `count` of them
        ToRead,           ///< `count` shots
        HittersDisagree,  ///< the means of `hitters`
    };
    struct Hitter {
        std::string name{};
        double meanRpm{};
        double sigmaRpm{};
        bool operator==(const Hitter&) const = default;
    };
    Kind kind{};
    std::size_t count{};
    std::vector<Hitter> hitters{};
    bool operator==(const ImplementNote&) const = default;
};

/// One implement over its cells, whoever struck it.
struct ImplementFinding {
    report::ImplementRow row{};        ///< the plain average of the cell means
    std::string name{};                ///< with the condition where another has the same name
    std::vector<std::size_t> cells{};  ///< positions in Findings::cells
    std::vector<ImplementNote> notes{};
};

}  // namespace core::findings
