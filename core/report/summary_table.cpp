#include "core/report/tables.h"

namespace core::report {
namespace {

std::vector<Field> summaryFields() {
    return {{"session", FieldType::Text, "", "Name of the filming day; empty: all sessions."},
            {"implement", FieldType::Text, "", "What struck the ball."},
            {"condition", FieldType::Text, "", "Of the implement."},
            {"hitter", FieldType::Text, "", "Who struck; empty: all hitters."},
            {"kept", FieldType::Whole, "", "Shots that count."},
            {"open", FieldType::Whole, "", "Shots not decided."},
            {"set_aside", FieldType::Whole, "", "Shots left out with a reason."},
            {"mean_rpm", FieldType::Number, "rpm",
             "Mean spin; of an implement the plain average of its cells."},
            {"median_rpm", FieldType::Number, "rpm", "Median spin."},
            {"standard_deviation_rpm", FieldType::Number, "rpm",
             "Scatter from shot to shot; of an implement pooled within its cells."},
            {"standard_uncertainty_rpm", FieldType::Number, "rpm",
             "Standard uncertainty of the mean, the clock's part included."},
            {"interval_low_rpm", FieldType::Number, "rpm", "Lower end of its 95 % interval."},
            {"interval_high_rpm", FieldType::Number, "rpm", "Upper end of its 95 % interval."}};
}

void appendSummary(std::vector<Cell>& row, const ShotCounts& counts,
                   const std::optional<GroupMean>& mean) {
    for (const std::size_t count : {counts.kept, counts.open, counts.setAside}) {
        row.emplace_back(static_cast<std::int64_t>(count));
    }
    if (!mean) {
        row.resize(row.size() + 6);
        return;
    }
    row.push_back(numberOrNothing(mean->meanRpm));
    row.push_back(numberOrNothing(mean->medianRpm));
    row.push_back(numberOrNothing(mean->standardDeviationRpm));
    row.push_back(numberOrNothing(mean->standardUncertaintyRpm));
    row.push_back(mean->interval95 ? numberOrNothing(mean->interval95->low.rpm) : Cell{});
    row.push_back(mean->interval95 ? numberOrNothing(mean->interval95->high.rpm) : Cell{});
}

Cell nameOrNone(const std::string& text) {
    return text.empty() ? Cell{} : Cell{text};
}

}  // namespace

Table summaryTable(const Summary& summary) {
    Table table{"summary",
                "Summary",
                "One implement with one hitter in one session a row; then one implement a row.",
                summaryFields(),
                {}};
    for (const auto& cell : summary.cells) {
        std::vector<Cell> row{nameOrNone(cell.sessionName), nameOrNone(cell.implementName),
                              nameOrNone(cell.condition), nameOrNone(cell.hitterName)};
        appendSummary(row, cell.counts, cell.mean);
        table.rows.push_back(std::move(row));
    }
    for (const auto& implement : summary.implements) {
        std::vector<Cell> row{Cell{}, nameOrNone(implement.implementName),
                              nameOrNone(implement.condition), Cell{}};
        appendSummary(row, implement.counts, implement.mean);
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace core::report
