#include "core/report/export.h"

#include <nlohmann/json.hpp>

#include "core/base/version.h"
#include "core/report/tables.h"

namespace core::report {
namespace {

using Json = nlohmann::ordered_json;
using project::Snapshot;

Json orNull(const std::optional<double>& value) {
    return value ? Json(*value) : Json();
}

Json meanJson(const std::optional<GroupMean>& mean) {
    if (!mean) {
        return Json();
    }
    return {{"mean_rpm", mean->meanRpm},
            {"median_rpm", mean->medianRpm},
            {"standard_deviation_rpm", orNull(mean->standardDeviationRpm)},
            {"standard_uncertainty_rpm", orNull(mean->standardUncertaintyRpm)},
            {"interval_rpm",
             mean->interval95 ? Json::array({mean->interval95->low.rpm, mean->interval95->high.rpm})
                              : Json()}};
}

Json countsJson(const ShotCounts& counts) {
    return {{"kept", counts.kept}, {"open", counts.open}, {"set_aside", counts.setAside}};
}

std::string dump(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Json countingReadingJson(const Snapshot& snapshot, const project::Shot& shot) {
    const auto* reading = shot.counting ? snapshot.readings.find(*shot.counting) : nullptr;
    if (reading == nullptr) {
        return Json();
    }
    return {
        {"method", methodCode(reading->method)},
        {"method_version", reading->methodVersion},
        {"reader", reading->reader},
        {"made_at", reading->madeAt},
        {"rate_rpm", reading->rate.value.rpm},
        {"standard_uncertainty_rpm", reading->rate.sigma.rpm},
        {"interval_rpm", Json::array({reading->interval95.low.rpm, reading->interval95.high.rpm})},
        {"clock_relative_uncertainty", reading->clockRelativeSigma},
        {"view_relative_uncertainty",
         reading->viewRelativeSigma ? Json(*reading->viewRelativeSigma) : Json()},
        {"counting_habit", reading->habit ? Json(spin::habitName(*reading->habit)) : Json()},
        {"inputs", Json::parse(reading->inputsJson, nullptr, false)}};
}

Json effortJson(const std::map<project::ShotId, project::ShotEffort>& efforts,
                project::ShotId shot) {
    const auto found = efforts.find(shot);
    if (found == efforts.end()) {
        return Json();
    }
    const project::ShotEffort& effort = found->second;
    return {{"keys", effort.keys},
            {"clicks", effort.clicks},
            {"active_s", effort.activeSeconds},
            {"names_hidden", effort.namesHidden ? Json(*effort.namesHidden) : Json()}};
}

}  // namespace

std::string shotsCsv(const Snapshot& snapshot) {
    return csvOf(shotsTable(snapshot));
}

std::string shotsJson(const Snapshot& snapshot) {
    const auto efforts = project::effortByShot(snapshot);
    Json shots = Json::array();
    for (const auto* shot : project::shotsInOrder(snapshot)) {
        const ShotPlace place = placeOf(snapshot, *shot);
        shots.push_back(
            {{"session", place.session},
             {"implement", place.implement},
             {"condition", place.condition},
             {"hitter", place.hitter},
             {"clip", place.clip},
             {"shot", shot->ordinal},
             {"first_frame", shot->firstFrame.value},
             {"last_frame", shot->lastFrame.value},
             {"strike_frame", shot->strikeFrame ? Json(shot->strikeFrame->value) : Json()},
             {"standing", standingCode(shot->standing)},
             {"reason", shot->reason},
             {"doubtful", shot->doubtful},
             {"reading", countingReadingJson(snapshot, *shot)},
             {"effort", effortJson(efforts, shot->id)}});
    }
    return dump({{"program", programName()}, {"shots", shots}});
}

std::string summaryCsv(const Summary& summary) {
    return csvOf(summaryTable(summary));
}

std::string implementsCsv(const Summary& summary) {
    return csvOf(implementsTable(summary));
}

std::string summaryJson(const Summary& summary) {
    Json implements = Json::array();
    for (const auto& row : summary.implements) {
        implements.push_back({{"implement", row.implementName},
                              {"condition", row.condition},
                              {"counts", countsJson(row.counts)},
                              {"spin", meanJson(row.mean)}});
    }
    Json cells = Json::array();
    for (const auto& row : summary.cells) {
        cells.push_back({{"session", row.sessionName},
                         {"implement", row.implementName},
                         {"condition", row.condition},
                         {"hitter", row.hitterName},
                         {"counts", countsJson(row.counts)},
                         {"spin", meanJson(row.mean)}});
    }
    return dump({{"program", programName()},
                 {"implements", implements},
                 {"cells", cells},
                 {"unassigned", countsJson(summary.unassigned)}});
}

}  // namespace core::report
