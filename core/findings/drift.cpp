#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/findings/find_trends.h"
#include "core/report/tables.h"
#include "core/stats/comparison/pairwise.h"
#include "core/stats/model/straight_line.h"

namespace core::findings {
namespace {

using HitterInSession = std::pair<project::SessionId, project::HitterId>;

/// A cell's readings against their shot numbers.
struct NumberedCell {
    const CellFinding* cell{};
    std::vector<double> numbers{};
    std::vector<double> rates{};
    std::vector<project::ShotId> shots{};
};

NumberedCell numberedCell(const CellFinding& cell, const ShotNumbers& numbers) {
    NumberedCell numbered{.cell = &cell};
    for (const auto& reading : cell.row.readings) {
        if (const auto number = numbers.of(reading.shot)) {
            numbered.numbers.push_back(*number);
            numbered.rates.push_back(reading.rate.value.rpm);
            numbered.shots.push_back(reading.shot);
        }
    }
    return numbered;
}

std::map<HitterInSession, std::vector<NumberedCell>> byHitterAndSession(
    const std::vector<CellFinding>& cells, const ShotNumbers& numbers) {
    std::map<HitterInSession, std::vector<NumberedCell>> groups;
    for (const CellFinding& cell : cells) {
        if (!cell.row.readings.empty()) {
            groups[{cell.row.session, cell.row.hitter}].push_back(numberedCell(cell, numbers));
        }
    }
    return groups;
}

Said<stats::JudgedEstimate> commonSlope(const std::vector<NumberedCell>& cells) {
    if (cells.size() == 1) {
        const auto line = stats::fitStraightLine({cells.front().numbers, cells.front().rates});
        return line ? Said{line.value().slope} : WhyNot::of(line.error());
    }
    std::vector<stats::PairedValues> groups;
    for (const NumberedCell& cell : cells) {
        groups.push_back({cell.numbers, cell.rates});
    }
    const auto analysis = stats::analyseCovariance(groups);
    return analysis ? Said{analysis.value().slope} : WhyNot::of(analysis.error());
}

double meanOf(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

void placePoints(DriftFinding& drift, const std::vector<NumberedCell>& cells) {
    double count = 0.0;
    for (const NumberedCell& cell : cells) {
        for (const double number : cell.numbers) {
            drift.centre += number;
            count += 1.0;
        }
    }
    drift.centre /= count;
    // A slope that is not shown must not be drawn into the points either.
    const double slope = drift.isShown() ? drift.perShot->estimate : 0.0;
    for (const NumberedCell& cell : cells) {
        const double level = meanOf(cell.rates) - slope * (meanOf(cell.numbers) - drift.centre);
        for (std::size_t i = 0; i < cell.rates.size(); ++i) {
            drift.points.push_back({cell.numbers[i], cell.rates[i] - level,
                                    cell.cell->row.implement, cell.shots[i],
                                    cell.cell->row.implementName});
        }
    }
    std::sort(drift.points.begin(), drift.points.end(),
              [](const TrendPoint& a, const TrendPoint& b) { return a.x < b.x; });
}

bool isControl(const project::Snapshot& snapshot, const project::Implement& implement) {
    const plan::Plan& plan = planOf(snapshot);
    if (plan.control) {
        const auto& planned = plan.implements[*plan.control];
        if (planned.name == implement.name && planned.condition == implement.condition) {
            return true;
        }
    }
    return implement.condition == "control" || implement.attributes.contains("control");
}

/// A straight line through plain rates says nothing: where readings are coarse beside the
/// scatter, their errors follow from the rate and do not average out along the line.
bool areCoarse(const std::vector<NumberedCell>& cells) {
    return std::any_of(cells.begin(), cells.end(),
                       [](const NumberedCell& cell) { return isCoarse(*cell.cell); });
}

ControlFinding findControl(const CellFinding& cell, const ShotNumbers& numbers, double lastNumber) {
    ControlFinding control{.session = cell.row.session,
                           .hitter = cell.row.hitter,
                           .implement = cell.row.implement,
                           .sessionName = cell.row.sessionName,
                           .hitterName = cell.row.hitterName,
                           .implementName = cell.row.implementName};
    if (isCoarse(cell)) {
        control.endLessStart = WhyNot::Kind::TooCoarseForDrift;
        return control;
    }
    const NumberedCell numbered = numberedCell(cell, numbers);
    std::array<std::vector<double>, 3> thirds;
    for (std::size_t i = 0; i < numbered.rates.size(); ++i) {
        const double place = 3.0 * (numbered.numbers[i] - 1.0) / lastNumber;
        thirds[static_cast<std::size_t>(std::clamp(place, 0.0, 2.0))].push_back(numbered.rates[i]);
    }
    std::vector<stats::IndependentMean> ends;
    for (const auto& third : thirds) {
        const auto moments = third.size() >= 2 ? stats::momentsOf(third) : stats::Moments{};
        if (moments.sumSquares <= 0.0L) {
            control.endLessStart = WhyNot::Kind::FewShotsInAThird;
            return control;
        }
        const auto mean = stats::independentMean(moments);
        const double sigma = std::sqrt(mean.variance);
        const double reach = stats::StudentT{mean.dof}.coverageFactor({}) * sigma;
        control.thirds.push_back(
            {mean.mean, sigma, {mean.mean - reach, mean.mean + reach}, mean.dof.value});
        ends.push_back(mean);
    }
    control.endLessStart =
        Said<stats::JudgedEstimate>{stats::contrast(ends, std::vector{-1.0, 0.0, 1.0})};
    return control;
}

}  // namespace

ShotNumbers::ShotNumbers(std::vector<Numbered> numbers) : m_numbers{std::move(numbers)} {
    std::sort(m_numbers.begin(), m_numbers.end());
}

std::optional<int> ShotNumbers::of(project::ShotId shot) const {
    const auto at = std::lower_bound(
        m_numbers.begin(), m_numbers.end(), shot,
        [](const Numbered& numbered, project::ShotId wanted) { return numbered.first < wanted; });
    return at == m_numbers.end() || at->first != shot ? std::nullopt : std::optional{at->second};
}

ShotNumbers numberShots(const project::Snapshot& snapshot) {
    return ShotNumbers{report::numberShotsOfHitters(snapshot)};
}

std::vector<DriftFinding> findDrifts(const std::vector<CellFinding>& cells,
                                     const ShotNumbers& numbers) {
    std::vector<DriftFinding> drifts;
    for (const auto& [who, numbered] : byHitterAndSession(cells, numbers)) {
        DriftFinding drift{.session = who.first,
                           .hitter = who.second,
                           .sessionName = numbered.front().cell->row.sessionName,
                           .hitterName = numbered.front().cell->row.hitterName};
        drift.perShot =
            areCoarse(numbered) ? WhyNot::Kind::TooCoarseForDrift : commonSlope(numbered);
        placePoints(drift, numbered);
        drifts.push_back(std::move(drift));
    }
    return drifts;
}

std::vector<ControlFinding> findControls(const project::Snapshot& snapshot,
                                         const std::vector<CellFinding>& cells,
                                         const ShotNumbers& numbers) {
    const auto isControlCell = [&snapshot](const CellFinding& cell) {
        const auto* implement = snapshot.implements.find(cell.row.implement);
        return implement != nullptr && isControl(snapshot, *implement) &&
               !cell.row.readings.empty();
    };
    if (std::none_of(cells.begin(), cells.end(), isControlCell)) {
        return {};
    }
    std::map<HitterInSession, double> last;
    for (const auto& [who, numbered] : byHitterAndSession(cells, numbers)) {
        for (const NumberedCell& cell : numbered) {
            for (const double number : cell.numbers) {
                last[who] = std::max(last[who], number);
            }
        }
    }
    std::vector<ControlFinding> controls;
    for (const CellFinding& cell : cells) {
        if (!isControlCell(cell)) {
            continue;
        }
        controls.push_back(findControl(cell, numbers, last[{cell.row.session, cell.row.hitter}]));
    }
    return controls;
}

}  // namespace core::findings
