#include <cmath>
#include <utility>

#include "core/base/words.h"
#include "core/report/tables.h"

namespace core::report {
namespace {

Field whole(std::string name, std::string description) {
    return {std::move(name), FieldType::Whole, "", std::move(description)};
}

Field rpmField(std::string name, std::string description) {
    return {std::move(name), FieldType::Number, "rpm", std::move(description)};
}

void addMeanFields(std::vector<Field>& fields) {
    fields.push_back(whole("kept", said("Shots that count.")));
    fields.push_back(whole("open", said("Shots to read.")));
    fields.push_back(whole("set_aside", said("Shots left out with a reason.")));
    fields.push_back(rpmField("mean_rpm", said("Mean spin.")));
    fields.push_back(rpmField("median_rpm", said("Median of the spins as they were read.")));
    fields.push_back(rpmField("standard_deviation_rpm", said("Scatter from shot to shot.")));
    fields.push_back(
        rpmField("standard_uncertainty_rpm",
                 said("Standard uncertainty of the mean, the shared parts included.")));
    fields.push_back({"degrees_of_freedom", FieldType::Number, "1",
                      said("Its degrees of freedom; empty where it is as good as known.")});
    fields.push_back(rpmField("interval_low_rpm", said("Lower end of its 95 % interval.")));
    fields.push_back(rpmField("interval_high_rpm", said("Upper end of its 95 % interval.")));
}

void addMeanCells(std::vector<Cell>& row, const ShotCounts& counts,
                  const std::optional<GroupMean>& mean) {
    for (const std::size_t count : {counts.kept, counts.open, counts.setAside}) {
        row.emplace_back(static_cast<std::int64_t>(count));
    }
    if (!mean) {
        row.resize(row.size() + 7);
        return;
    }
    row.push_back(numberOrNothing(mean->meanRpm));
    row.push_back(numberOrNothing(mean->medianRpm));
    row.push_back(numberOrNothing(mean->standardDeviationRpm));
    row.push_back(numberOrNothing(mean->standardUncertaintyRpm));
    row.push_back(mean->standardUncertaintyRpm ? numberOrNothing(mean->dof) : Cell{});
    row.push_back(mean->interval95 ? numberOrNothing(mean->interval95->low.rpm) : Cell{});
    row.push_back(mean->interval95 ? numberOrNothing(mean->interval95->high.rpm) : Cell{});
}

void addEstimateFields(std::vector<Field>& fields) {
    fields.push_back(rpmField("own_uncertainty_rpm",
                              said("Part of the standard uncertainty that is the cell's own.")));
    fields.push_back(
        rpmField("shots_uncertainty_rpm", said("Part of it that more shots make smaller.")));
    fields.push_back(rpmField("coarseness_uncertainty_rpm",
                              said("Part of it that does not average out because the readings are "
                                   "coarse beside the scatter.")));
    fields.push_back(rpmField("common_coarseness_uncertainty_rpm",
                              said("Part of that in which means of near values err alike.")));
    fields.push_back(
        rpmField("shared_uncertainty_rpm",
                 said("Part of the standard uncertainty that is shared with other cells; "
                      "cell_parts.csv has what it consists of.")));
    fields.push_back({"scatter_hidden", FieldType::Truth, "",
                      said("Whether the readings are too coarse to show any scatter.")});
}

void addEstimateCells(std::vector<Cell>& row, const std::optional<CellEstimate>& estimate) {
    if (!estimate) {
        row.resize(row.size() + 6);
        return;
    }
    const auto& own = estimate->own;
    for (const double part : {own.standardError, own.shotsError, own.coarsenessError,
                              own.commonError, std::sqrt(varianceOf(estimate->shared))}) {
        row.push_back(numberOrNothing(part));
    }
    row.emplace_back(own.isScatterHidden);
}

}  // namespace

Table summaryTable(const Summary& summary) {
    Table table{"summary",
                said("Summary"),
                said("One implement with one hitter on one filming day (a cell) a row."),
                {whole("cell_id", said("Number of the cell in the project.")),
                 whole("session_id", said("The filming day.")),
                 {"session", FieldType::Text, "", said("Its name.")},
                 whole("implement_id", said("The implement.")),
                 {"implement", FieldType::Text, "", said("What struck the ball.")},
                 {"condition", FieldType::Text, "", said("Of the implement.")},
                 whole("hitter_id", said("The hitter.")),
                 {"hitter", FieldType::Text, "", said("Who struck.")}},
                {},
                {"cell_id"}};
    addMeanFields(table.fields);
    addEstimateFields(table.fields);
    for (const auto& cell : summary.cells) {
        std::vector<Cell> row{cell.cell.value,
                              cell.session.value,
                              textOrNothing(cell.sessionName),
                              cell.implement.value,
                              textOrNothing(cell.implementName),
                              textOrNothing(cell.condition),
                              cell.hitter.value,
                              textOrNothing(cell.hitterName)};
        addMeanCells(row, cell.counts, cell.mean);
        addEstimateCells(row, cell.estimate);
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table implementsTable(const Summary& summary) {
    Table table{"implements",
                said("Implements"),
                said("One implement a row, its mean the plain average of its cells."),
                {whole("implement_id", said("Number of the implement in the project.")),
                 {"implement", FieldType::Text, "", said("Its name.")},
                 {"condition", FieldType::Text, "", said("New, worn, or the tester's word.")},
                 whole("cells", said("Cells with a shot that counts."))},
                {},
                {"implement_id"}};
    addMeanFields(table.fields);
    for (const auto& implement : summary.implements) {
        std::vector<Cell> row{implement.implement.value, textOrNothing(implement.implementName),
                              textOrNothing(implement.condition),
                              static_cast<std::int64_t>(implement.cellsWithReadings)};
        addMeanCells(row, implement.counts, implement.mean);
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace core::report
