#include "core/report/history_table.h"

#include "core/report/tables.h"

namespace core::report {

Table historyTable(const std::vector<project::HistoryEntry>& lines,
                   const project::Snapshot& snapshot) {
    Table table;
    table.name = "history";
    table.title = "History";
    table.description = "One row is one thing that was done to the project, oldest first.";
    table.fields = {
        {"line", FieldType::Whole, "", "Number of the line; lines are never changed."},
        {"at", FieldType::Moment, "", "When, UTC."},
        {"reader", FieldType::Text, "", "Who."},
        {"what", FieldType::Text, "", "What was done, a sentence."},
        {"clip", FieldType::Text, "", "Clip of the shot, where the line is about one shot."},
        {"shot", FieldType::Whole, "", "Its position within the clip today, from 1."}};
    table.primaryKey = {"line"};
    for (const auto& line : lines) {
        const auto* shot = line.shot ? snapshot.shots.find(*line.shot) : nullptr;
        table.rows.push_back({line.id.value, line.at, line.reader, line.what,
                              shot != nullptr ? Cell{placeOf(snapshot, *shot).clip} : Cell{},
                              shot != nullptr ? Cell{shot->ordinal} : Cell{}});
    }
    return table;
}

Result<project::ShotId> shotNamed(const project::Snapshot& snapshot, const std::string& name) {
    std::optional<project::ShotId> found;
    for (const auto& shot : snapshot.shots) {
        if (shotName(snapshot, shot) != name) {
            continue;
        }
        if (found) {
            return fail(ErrorCode::InvalidInput, "Clips in two folders have a " + name +
                                                     ". Look for it in the table of "
                                                     "all lines, which has the folders.");
        }
        found = shot.id;
    }
    if (!found) {
        return fail(ErrorCode::NotFound, "There is no " + name +
                                             " in the project. Write it as in the history: shot 3 "
                                             "of clip b.mp4.");
    }
    return *found;
}

}  // namespace core::report
