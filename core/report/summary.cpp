#include "core/report/summary.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/project/clock_refutation.h"
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

/// A failure with the cell that it is about.
template <class T>
Result<T> named(const CellRow& row, Result<T> result) {
    if (result) {
        return result;
    }
    return fail(result.error().code, said("{}, hitter {}: {}", row.implementName, row.hitterName,
                                          result.error().message));
}

GroupMean groupMean(const CellEstimate& estimate) {
    GroupMean mean;
    mean.meanRpm = estimate.own.mean;
    mean.standardDeviationRpm = estimate.own.scatter;
    const auto wide = estimate.total();
    mean.standardUncertaintyRpm = wide.standardUncertainty;
    mean.interval95 = {{wide.interval.low}, {wide.interval.high}};
    mean.dof = wide.dof.value;
    return mean;
}

Result<void> fillCellMean(CellRow& row) {
    if (row.readings.empty()) {
        return ok();
    }
    const std::vector<double> rates = ratesOf(row.readings);
    BOOST_OUTCOME_TRY(sample, named(row, stats::summarise(rates)));
    if (rates.size() < 2) {
        GroupMean single;
        single.meanRpm = sample.mean;
        single.medianRpm = sample.median;
        row.mean = single;
        return ok();
    }
    BOOST_OUTCOME_TRY(estimate, named(row, estimateCell(row.session, row.readings)));
    row.mean = groupMean(estimate);
    row.mean->medianRpm = sample.median;
    row.estimate = std::move(estimate);
    return ok();
}

/// Average over cells; without an interval where a cell has a single reading.
GroupMean averageOfCells(std::span<const CellRow> cells) {
    GroupMean average;
    std::vector<const CellEstimate*> estimates;
    double count = 0.0;
    for (const CellRow& cell : cells) {
        if (cell.mean) {
            average.meanRpm += cell.mean->meanRpm;
            count += 1.0;
        }
        if (cell.estimate) {
            estimates.push_back(&*cell.estimate);
        }
    }
    average.meanRpm /= count;
    if (count == 1.0 && estimates.size() == 1) {
        return groupMean(*estimates.front());
    }
    if (estimates.empty()) {
        return average;
    }
    const CellsAverage of = averageOf(estimates);
    average.standardDeviationRpm = of.scatterRpm;
    if (static_cast<double>(estimates.size()) < count) {
        return average;
    }
    const double total = of.variance + varianceOf(of.shared);
    average.standardUncertaintyRpm = std::sqrt(total);
    if (of.dof > 0.0) {
        average.dof = of.dof * std::pow(total / of.variance, 2.0);
        const stats::StudentT student{{average.dof}};
        const double half = student.coverageFactor({}) * std::sqrt(total);
        average.interval95 = {{average.meanRpm - half}, {average.meanRpm + half}};
    }
    return average;
}

void addCounts(ShotCounts& to, const ShotCounts& from) {
    to.kept += from.kept;
    to.open += from.open;
    to.setAside += from.setAside;
    to.leftOut += from.leftOut;
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

/// Clips whose clock the flight refutes, and nobody has overruled it.
std::vector<LeftOutClip> leftOutClips(const Snapshot& snapshot) {
    std::vector<LeftOutClip> clips;
    for (const auto& clip : snapshot.clips) {
        if (isLeftOut(snapshot, clip)) {
            clips.push_back(
                {clip.id, clipName(snapshot, clip.id), 0, refutationOf(snapshot, clip)->statement});
        }
    }
    return clips;
}

/// Null unless the shot is kept and stays out all the same.
LeftOutClip* leftOutWith(const project::Shot& shot, std::vector<LeftOutClip>& clips) {
    const auto at = std::find_if(clips.begin(), clips.end(),
                                 [&shot](const auto& clip) { return clip.clip == shot.clip; });
    const bool isKept = shot.standing == project::ShotStanding::Kept;
    return isKept && at != clips.end() ? &*at : nullptr;
}

void fillShots(const Snapshot& snapshot, Summary& summary) {
    std::map<project::CellId, CellRow*> rowOf;
    for (auto& row : summary.cells) {
        rowOf[row.cell] = &row;
    }
    summary.leftOut = leftOutClips(snapshot);
    for (const auto* shot : project::shotsInOrder(snapshot)) {
        const auto found = shot->cell ? rowOf.find(*shot->cell) : rowOf.end();
        if (LeftOutClip* clip = leftOutWith(*shot, summary.leftOut)) {
            ++clip->shots;
            ++(found == rowOf.end() ? summary.unassigned : found->second->counts).leftOut;
            continue;
        }
        if (found == rowOf.end()) {
            count(summary.unassigned, shot->standing);
            continue;
        }
        count(found->second->counts, shot->standing);
        if (shot->standing != project::ShotStanding::Kept || !shot->counting) {
            continue;
        }
        if (const auto* reading = snapshot.readings.find(*shot->counting)) {
            found->second->readings.push_back(countingReading(*reading));
        }
    }
    std::erase_if(summary.leftOut, [](const LeftOutClip& clip) { return clip.shots == 0; });
}

ImplementRow implementRow(std::span<const CellRow> cells) {
    ImplementRow row;
    row.implement = cells.front().implement;
    row.implementName = cells.front().implementName;
    row.condition = cells.front().condition;
    for (const auto& cell : cells) {
        addCounts(row.counts, cell.counts);
        row.readings.insert(row.readings.end(), cell.readings.begin(), cell.readings.end());
        row.cellsWithReadings += cell.mean ? 1U : 0U;
    }
    if (row.cellsWithReadings > 0) {
        row.mean = averageOfCells(cells);
        row.mean->medianRpm = stats::median(ratesOf(row.readings));
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

std::string leftOutSentence(const LeftOutClip& clip) {
    return saidOf(
        clip.shots,
        "{} kept shot of {} is left out of every number: {} Settle the capture rate in Footage, or "
        "overrule the flight with a reason in Doubts.",
        "{} kept shots of {} are left out of every number: {} Settle the capture rate in Footage, "
        "or overrule the flight with a reason in Doubts.",
        clip.shots, clip.name, saidKept(clip.statement));
}

std::optional<double> measuredScatterRpm(const Summary& summary) {
    double squares = 0.0;
    double degrees = 0.0;
    for (const CellRow& row : summary.cells) {
        if (row.estimate && !row.estimate->own.isScatterHidden) {
            const double freedom = static_cast<double>(row.estimate->count) - 1.0;
            squares += freedom * row.estimate->own.scatter * row.estimate->own.scatter;
            degrees += freedom;
        }
    }
    return squares > 0.0 ? std::optional{std::sqrt(squares / degrees)} : std::nullopt;
}

}  // namespace core::report
