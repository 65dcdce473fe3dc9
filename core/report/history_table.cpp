#include "core/report/history_table.h"

#include "core/base/words.h"
#include "core/report/tables.h"

namespace core::report {

Table historyTable(const std::vector<project::HistoryEntry>& lines,
                   const project::Snapshot& snapshot) {
    Table table;
    table.name = "history";
    table.title = said("History");
    table.description = said("One row is one thing that was done to the project, oldest first.");
    table.fields = {
        {"line", FieldType::Whole, "", said("Number of the line; lines are never changed.")},
        {"at", FieldType::Moment, "", said("When, UTC.")},
        {"reader", FieldType::Text, "", said("Who.")},
        {"what", FieldType::Text, "", said("What was done, a sentence.")},
        {"clip", FieldType::Text, "", said("Clip of the shot, where the line is about one shot.")},
        {"shot", FieldType::Whole, "", said("Its position within the clip today, from 1.")}};
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
            return fail(ErrorCode::InvalidInput,
                        said("Clips in two folders have a {}. Look for it in the table of all "
                             "lines, which has the folders.",
                             name));
        }
        found = shot.id;
    }
    if (!found) {
        return fail(
            ErrorCode::NotFound,
            said("There is no {} in the project. Write it as in the history: shot 3 of clip b.mp4.",
                 name));
    }
    return *found;
}

}  // namespace core::report
