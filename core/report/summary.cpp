#include "core/report/summary.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>

#include "core/stats/model/distributions.h"
#include "core/stats/sample/sample_summary.h"

namespace core::report {
namespace {

using project::Snapshot;

std::vector<double> ratesOf(const std::vector<CountingReading>& readings) {
    std::vector<double> rates;
    rates.reserve(readings.size());
    for (const auto& reading : readings) {
        rates.push_back(reading.rate.value.rpm);
    }
    return rates;
}

/// The clocks of several clips in one cell: the largest is taken as shared by all, which never
/// makes the interval too short.
double largestClockSigma(const std::vector<CountingReading>& readings) {
    double largest = 0.0;
    for (const auto& reading : readings) {
        largest = std::max(largest, reading.clockRelativeSigma);
    }
    return largest;
}

GroupMean groupMean(const stats::CellSummary& summary) {
    GroupMean mean;
    mean.meanRpm = summary.sample.mean;
    mean.medianRpm = summary.sample.median;
    if (summary.sample.spread) {
        mean.standardDeviationRpm = summary.sample.spread->standardDeviation;
    }
    if (summary.mean) {
        mean.standardUncertaintyRpm = summary.mean->standardUncertainty;
        mean.interval95 = {{summary.mean->interval.low}, {summary.mean->interval.high}};
    }
    return mean;
}

Result<void> fillCellMean(CellRow& row) {
    if (row.readings.empty()) {
        return ok();
    }
    const std::vector<double> rates = ratesOf(row.readings);
    const auto summary =
        stats::summariseCell({.values = rates,
                              .readingUncertainties = {},
                              .sharedRelativeUncertainty = largestClockSigma(row.readings)});
    if (!summary) {
        return fail(summary.error().code, row.implementName + ", hitter " + row.hitterName + ": " +
                                              summary.error().message);
    }
    row.mean = groupMean(summary.value());
    return ok();
}

/// What one cell gives to the average over an implement's cells.
struct CellPart {
    double mean{};
    double standardError{};  ///< from the scatter alone
    double dof{};
};

GroupMean averageOfCells(std::span<const CellPart> parts, double clockSigma) {
    const auto count = static_cast<double>(parts.size());
    GroupMean average;
    double variance = 0.0;
    double satterthwaite = 0.0;
    bool everyCellHasScatter = true;
    for (const auto& part : parts) {
        average.meanRpm += part.mean / count;
        const double contribution = part.standardError * part.standardError / (count * count);
        variance += contribution;
        if (part.dof > 0.0) {
            satterthwaite += contribution * contribution / part.dof;
        } else {
            everyCellHasScatter = false;
        }
    }
    if (!everyCellHasScatter) {
        return average;
    }
    const double shared = average.meanRpm * clockSigma;
    const double total = variance + shared * shared;
    average.standardUncertaintyRpm = std::sqrt(total);
    if (satterthwaite > 0.0) {
        const stats::StudentT student{{total * total / satterthwaite}};
        const double half = student.coverageFactor({}) * std::sqrt(total);
        average.interval95 = {{average.meanRpm - half}, {average.meanRpm + half}};
    }
    return average;
}

void addCounts(ShotCounts& to, const ShotCounts& from) {
    to.kept += from.kept;
    to.open += from.open;
    to.setAside += from.setAside;
}

void count(ShotCounts& counts, project::ShotStanding standing) {
    switch (standing) {
        case project::ShotStanding::Kept:
            ++counts.kept;
            break;
        case project::ShotStanding::Open:
            ++counts.open;
            break;
        case project::ShotStanding::SetAside:
            ++counts.setAside;
            break;
    }
}

std::vector<CellRow> emptyRows(const Snapshot& snapshot) {
    std::vector<CellRow> rows;
    for (const auto& cell : snapshot.cells) {
        const auto* implement = snapshot.implements.find(cell.implement);
        const auto* hitter = snapshot.hitters.find(cell.hitter);
        const auto* session = snapshot.sessions.find(cell.session);
        CellRow row;
        row.cell = cell.id;
        row.session = cell.session;
        row.implement = cell.implement;
        row.hitter = cell.hitter;
        row.sessionName = session != nullptr ? session->name : std::string{};
        row.implementName = implement != nullptr ? implement->name : std::string{};
        row.condition = implement != nullptr ? implement->condition : std::string{};
        row.hitterName = hitter != nullptr ? hitter->name : std::string{};
        rows.push_back(std::move(row));
    }
    std::sort(rows.begin(), rows.end(), [](const CellRow& a, const CellRow& b) {
        return std::tie(a.implement, a.hitter, a.cell) < std::tie(b.implement, b.hitter, b.cell);
    });
    return rows;
}

void fillShots(const Snapshot& snapshot, Summary& summary) {
    std::map<project::CellId, CellRow*> rowOf;
    for (auto& row : summary.cells) {
        rowOf[row.cell] = &row;
    }
    for (const auto* shot : project::shotsInOrder(snapshot)) {
        const auto found = shot->cell ? rowOf.find(*shot->cell) : rowOf.end();
        if (found == rowOf.end()) {
            count(summary.unassigned, shot->standing);
            continue;
        }
        count(found->second->counts, shot->standing);
        if (shot->standing != project::ShotStanding::Kept || !shot->counting) {
            continue;
        }
        if (const auto* reading = snapshot.readings.find(*shot->counting)) {
            found->second->readings.push_back(
                {shot->id, reading->rate, reading->clockRelativeSigma});
        }
    }
}

ImplementRow implementRow(std::span<const CellRow> cells) {
    ImplementRow row;
    row.implement = cells.front().implement;
    row.implementName = cells.front().implementName;
    row.condition = cells.front().condition;
    std::vector<CellPart> parts;
    double withinSquares = 0.0;
    double withinDof = 0.0;
    for (const auto& cell : cells) {
        addCounts(row.counts, cell.counts);
        row.readings.insert(row.readings.end(), cell.readings.begin(), cell.readings.end());
        if (!cell.mean) {
            continue;
        }
        const auto n = static_cast<double>(cell.readings.size());
        const double deviation = cell.mean->standardDeviationRpm.value_or(0.0);
        parts.push_back({cell.mean->meanRpm, deviation / std::sqrt(n), n - 1.0});
        withinSquares += (n - 1.0) * deviation * deviation;
        withinDof += n - 1.0;
    }
    row.cellsWithReadings = parts.size();
    if (!parts.empty()) {
        row.mean = averageOfCells(parts, largestClockSigma(row.readings));
        row.mean->medianRpm = stats::median(ratesOf(row.readings));
        if (withinDof > 0.0) {
            row.mean->standardDeviationRpm = std::sqrt(withinSquares / withinDof);
        }
    }
    return row;
}

std::vector<ImplementRow> implementRows(const std::vector<CellRow>& cells) {
    std::vector<ImplementRow> rows;
    for (auto begin = cells.begin(); begin != cells.end();) {
        const auto end = std::find_if(begin, cells.end(), [&](const CellRow& row) {
            return row.implement != begin->implement;
        });
        rows.push_back(implementRow({begin, end}));
        begin = end;
    }
    std::stable_sort(rows.begin(), rows.end(), [](const ImplementRow& a, const ImplementRow& b) {
        if (!a.mean || !b.mean) {
            return a.mean.has_value() && !b.mean.has_value();
        }
        return a.mean->meanRpm > b.mean->meanRpm;
    });
    return rows;
}

}  // namespace

Result<Summary> summarise(const Snapshot& snapshot) {
    Summary summary;
    summary.cells = emptyRows(snapshot);
    fillShots(snapshot, summary);
    for (auto& row : summary.cells) {
        BOOST_OUTCOME_TRY(fillCellMean(row));
    }
    summary.implements = implementRows(summary.cells);
    return summary;
}

}  // namespace core::report
