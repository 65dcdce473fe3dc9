#include <iterator>
#include <map>
#include <utility>

#include "core/base/words.h"
#include "core/project/clock_refutation.h"
#include "core/report/tables.h"

namespace core::report {
namespace {

using project::Snapshot;
using Efforts = std::map<project::ShotId, project::ShotEffort>;

Field methodField() {
    return {"method", FieldType::Text, "", said("How it was read."), {"marks", "rotation fit"}};
}

/// Who read and when.
std::vector<Field> readerFields() {
    return {{"reader", FieldType::Text, "", said("Who read.")},
            {"made_at", FieldType::Moment, "", said("When it was read, UTC.")}};
}

std::vector<Field> rateFields() {
    return {
        {"rate_rpm", FieldType::Number, "rpm", said("Spin rate, turns per minute.")},
        {"standard_uncertainty_rpm", FieldType::Number, "rpm",
         said("Standard uncertainty of the spin rate (JCGM 100).")},
        {"interval_low_rpm", FieldType::Number, "rpm", said("Lower end of its 95 % interval.")},
        {"interval_high_rpm", FieldType::Number, "rpm", said("Upper end of its 95 % interval.")}};
}

Field clockField() {
    return {"clock_relative_uncertainty", FieldType::Number, "1",
            said("Part of the uncertainty, relative to the rate, that all shots of a clip share.")};
}

/// What reading the shot cost a person; empty where nobody was timed.
std::vector<Field> effortFields() {
    return {
        {"keys", FieldType::Whole, "",
         said("Keys that a person pressed while the shot was open, all visits together.")},
        {"clicks", FieldType::Whole, "", said("Presses of the pointer's buttons.")},
        {"active_s", FieldType::Number, "s",
         said("Time that a person spent on the shot; of a pause at most 10 s count.")},
        {"names_hidden", FieldType::Truth, "",
         said("Whether implement and hitter were hidden, in shuffled order, up to the last visit "
              "that kept a reading.")}};
}

template <class Value>
void append(std::vector<Value>& all, std::vector<Value> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

std::vector<Field> shotFields() {
    std::vector<Field> fields{
        {"session", FieldType::Text, "", said("Name of the filming day.")},
        {"implement", FieldType::Text, "", said("What struck the ball.")},
        {"condition", FieldType::Text, "",
         said("Of the implement: new, worn, or the tester's word.")},
        {"hitter", FieldType::Text, "", said("Who struck.")},
        {"clip", FieldType::Text, "", said("Video file, relative to the project.")},
        {"shot", FieldType::Whole, "", said("Position of the shot within its clip, from 1.")},
        {"first_frame", FieldType::Whole, "",
         said("First frame of the shot; frames count from 0.")},
        {"last_frame", FieldType::Whole, "", said("Last frame of the shot.")},
        {"strike_frame", FieldType::Whole, "",
         said("First frame after contact, where it is known.")},
        {"standing",
         FieldType::Text,
         "",
         said("Kept shots count; open ones are to read; those set aside do not count."),
         {"open", "kept", "set aside"}},
        {"reason", FieldType::Text, "", said("Why a shot was set aside.")},
        {"doubtful", FieldType::Truth, "", said("Whether somebody marked it for a second look.")}};
    fields.push_back(methodField());
    append(fields, readerFields());
    append(fields, rateFields());
    fields.push_back(clockField());
    append(fields, effortFields());
    fields.push_back({"shot_id", FieldType::Whole, "", said("Number of the shot in the project.")});
    fields.push_back({"reading_id", FieldType::Whole, "", said("The reading that counts.")});
    fields.push_back({"cell_id", FieldType::Whole, "",
                      said("Implement with hitter on a filming day; empty: not assigned.")});
    fields.push_back({"session_id", FieldType::Whole, "", said("The filming day.")});
    fields.push_back({"implement_id", FieldType::Whole, "", said("The implement.")});
    fields.push_back({"hitter_id", FieldType::Whole, "", said("The hitter.")});
    fields.push_back(
        {"hitter_shot", FieldType::Whole, "",
         said("Number of the shot among those of its hitter on the filming day, from 1, "
              "kept or not, in the order of the film.")});
    return fields;
}

/// As readerFields().
std::vector<Cell> readerCells(const project::Reading& reading) {
    return {textOrNothing(reading.reader), textOrNothing(reading.madeAt)};
}

/// As rateFields().
std::vector<Cell> rateCells(const project::Reading& reading) {
    return {numberOrNothing(reading.rate.value.rpm), numberOrNothing(reading.rate.sigma.rpm),
            numberOrNothing(reading.interval95.low.rpm),
            numberOrNothing(reading.interval95.high.rpm)};
}

void appendReading(std::vector<Cell>& row, const project::Reading* reading) {
    if (reading == nullptr) {
        row.resize(row.size() + 1 + readerFields().size() + rateFields().size() + 1);
        return;
    }
    row.emplace_back(methodCode(reading->method));
    append(row, readerCells(*reading));
    append(row, rateCells(*reading));
    row.push_back(numberOrNothing(reading->clockRelativeSigma));
}

/// As effortFields().
std::vector<Cell> effortCells(const Efforts& efforts, project::ShotId shot) {
    const auto found = efforts.find(shot);
    if (found == efforts.end()) {
        return std::vector<Cell>(effortFields().size());
    }
    const project::ShotEffort& effort = found->second;
    return {effort.keys, effort.clicks, numberOrNothing(effort.activeSeconds),
            effort.namesHidden ? Cell{*effort.namesHidden} : Cell{}};
}

/// reading_id, cell_id, session_id, implement_id, hitter_id
std::vector<Cell> shotKeys(const Snapshot& snapshot, const project::Shot& shot) {
    std::vector<Cell> keys(5);
    if (shot.counting) {
        keys[0] = shot.counting->value;
    }
    const auto* clip = snapshot.clips.find(shot.clip);
    if (clip != nullptr) {
        keys[2] = clip->session.value;
    }
    if (const auto* cell = shot.cell ? snapshot.cells.find(*shot.cell) : nullptr) {
        keys[1] = cell->id.value;
        keys[2] = cell->session.value;
        keys[3] = cell->implement.value;
        keys[4] = cell->hitter.value;
    }
    return keys;
}

std::vector<Cell> shotRow(const Snapshot& snapshot, const Efforts& efforts,
                          const project::Shot& shot) {
    const auto where = placeOf(snapshot, shot);
    std::vector<Cell> row{textOrNothing(where.session),
                          textOrNothing(where.implement),
                          textOrNothing(where.condition),
                          textOrNothing(where.hitter),
                          textOrNothing(where.clip),
                          shot.ordinal,
                          shot.firstFrame.value,
                          shot.lastFrame.value,
                          shot.strikeFrame ? Cell{shot.strikeFrame->value} : Cell{},
                          standingCode(shot.standing),
                          textOrNothing(shot.reason),
                          shot.doubtful};
    appendReading(row, shot.counting ? snapshot.readings.find(*shot.counting) : nullptr);
    append(row, effortCells(efforts, shot.id));
    row.emplace_back(shot.id.value);
    append(row, shotKeys(snapshot, shot));
    return row;
}

std::vector<Field> readingFields() {
    std::vector<Field> fields{
        {"reading_id", FieldType::Whole, "", said("Number of the reading in the project.")},
        {"shot_id", FieldType::Whole, "", said("The shot that was read; see shots.csv.")},
        {"counts", FieldType::Truth, "",
         said("Whether this reading enters the summary: it is the counting one of a kept shot.")},
        methodField(),
        {"method_version", FieldType::Text, "", said("Version of the method.")}};
    append(fields, readerFields());
    append(fields, rateFields());
    fields.push_back(
        {"bound_low_rpm", FieldType::Number, "rpm",
         said("Hard lower limit from the frames that were marked, where there is one.")});
    fields.push_back({"bound_high_rpm", FieldType::Number, "rpm", said("Hard upper limit.")});
    fields.push_back(clockField());
    fields.push_back(
        {"view_relative_uncertainty", FieldType::Number, "1",
         said("Part of the uncertainty, relative to the rate, that the shots of a session "
              "share because of where the camera stood; empty where it is not known.")});
    fields.push_back(
        {"counting_habit",
         FieldType::Text,
         "",
         said("How whole frames were counted: nearest (start exact, nearest return), both "
              "(both ends rounded), after (first frame at or past the turn), or unknown; "
              "empty for a reading that is no whole-frame count."),
         {"nearest", "both", "after", "unknown"}});
    fields.push_back(
        {"own_uncertainty_rpm", FieldType::Number, "rpm",
         said("Part of the standard uncertainty that this reading shares with no other.")});
    const auto addPart = [&fields](const std::string& name, std::string what) {
        fields.push_back({name + "_part", FieldType::Text, "", std::move(what)});
        fields.push_back({name + "_uncertainty_rpm", FieldType::Number, "rpm",
                          said("That part: readings with the same name err by it together.")});
    };
    addPart("clock", said("Name of the part that comes from the capture rate, by filming day; see "
                          "shared_parts.csv."));
    addPart("view", said("Name of the part that comes from where the camera stood, by filming day "
                         "and method; see shared_parts.csv."));
    addPart("habit", said("Name of the part that comes from a counting habit that is not known, by "
                          "filming day; see shared_parts.csv."));
    return fields;
}

/// The last seven of readingFields(). A reading of no cell has no named parts.
std::vector<Cell> partCells(const project::Reading& reading, const project::Cell* cell) {
    std::vector<Cell> cells(7);
    cells[0] = numberOrNothing(countingReading(reading).likelihood.spread());
    if (cell != nullptr) {
        for (const auto& [key, effectRpm] : partsOf(reading, cell->session)) {
            const std::size_t at = 1 + 2 * static_cast<std::size_t>(key.source);
            cells[at] = partName(key);
            cells[at + 1] = numberOrNothing(effectRpm);
        }
    }
    return cells;
}

std::vector<Cell> readingRow(const project::Reading& reading, bool counts,
                             const project::Cell* cell) {
    std::vector<Cell> row{reading.id.value, reading.shot.value, counts, methodCode(reading.method),
                          textOrNothing(reading.methodVersion)};
    append(row, readerCells(reading));
    append(row, rateCells(reading));
    row.push_back(reading.bounds ? numberOrNothing(reading.bounds->low.rpm) : Cell{});
    row.push_back(reading.bounds ? numberOrNothing(reading.bounds->high.rpm) : Cell{});
    row.push_back(numberOrNothing(reading.clockRelativeSigma));
    row.push_back(numberOrNothing(reading.viewRelativeSigma));
    row.push_back(reading.habit ? Cell{std::string{spin::habitName(*reading.habit)}} : Cell{});
    append(row, partCells(reading, cell));
    return row;
}

}  // namespace

ShotPlace placeOf(const Snapshot& snapshot, const project::Shot& shot) {
    ShotPlace where;
    if (const auto* clip = snapshot.clips.find(shot.clip)) {
        where.clip = clip->path;
        if (const auto* session = snapshot.sessions.find(clip->session)) {
            where.session = session->name;
        }
    }
    if (const auto* cell = shot.cell ? snapshot.cells.find(*shot.cell) : nullptr) {
        if (const auto* implement = snapshot.implements.find(cell->implement)) {
            where.implement = implement->name;
            where.condition = implement->condition;
        }
        if (const auto* hitter = snapshot.hitters.find(cell->hitter)) {
            where.hitter = hitter->name;
        }
    }
    return where;
}

std::string standingCode(project::ShotStanding standing) {
    switch (standing) {
        case project::ShotStanding::Open:
            return "open";
        case project::ShotStanding::Kept:
            return "kept";
        case project::ShotStanding::SetAside:
            return "set aside";
    }
    return {};
}

std::string methodCode(project::ReadingMethod method) {
    return method == project::ReadingMethod::Marks ? "marks" : "rotation fit";
}

std::vector<NumberedShot> numberShotsOfHitters(const Snapshot& snapshot) {
    std::vector<NumberedShot> numbered;
    numbered.reserve(snapshot.shots.size());
    std::map<std::pair<project::SessionId, project::HitterId>, int> counts;
    for (const auto* shot : project::shotsInOrder(snapshot)) {
        if (const auto* cell = shot->cell ? snapshot.cells.find(*shot->cell) : nullptr) {
            numbered.emplace_back(shot->id, ++counts[{cell->session, cell->hitter}]);
        }
    }
    return numbered;
}

std::string partName(const SharedKey& key) {
    const std::string day = std::to_string(key.session.value);
    switch (key.source) {
        case SharedSource::Clock:
            return "clock:" + day;
        case SharedSource::View:
            return "view:" + day +
                   (key.method == project::ReadingMethod::Marks ? ":marks" : ":rotation_fit");
        case SharedSource::Habit:
            return "habit:" + day;
    }
    return {};
}

std::vector<std::pair<SharedKey, double>> partsOf(const project::Reading& reading,
                                                  project::SessionId session) {
    const CountingReading counting = countingReading(reading);
    const double rate = reading.rate.value.rpm;
    std::vector<std::pair<SharedKey, double>> parts{
        {{SharedSource::Clock, session, {}}, rate * counting.clockRelativeSigma},
        {{SharedSource::View, session, reading.method}, rate * counting.viewRelativeSigma},
        {{SharedSource::Habit, session, {}}, counting.habitRpm}};
    std::erase_if(parts, [](const auto& part) { return !(part.second > 0.0); });
    return parts;
}

Table shotsTable(const Snapshot& snapshot) {
    Table table{"shots",
                said("Shots"),
                said("One strike of the ball a row, with the reading that counts."),
                shotFields(),
                {},
                {"shot_id"}};
    table.references = {{"cell_id", "summary"}};
    const Efforts efforts = project::effortByShot(snapshot);
    std::map<project::ShotId, int> numbers;
    for (const auto& [shot, number] : numberShotsOfHitters(snapshot)) {
        numbers[shot] = number;
    }
    for (const auto* shot : project::shotsInOrder(snapshot)) {
        table.rows.push_back(shotRow(snapshot, efforts, *shot));
        const auto number = numbers.find(shot->id);
        table.rows.back().push_back(number == numbers.end() ? Cell{}
                                                            : Cell{std::int64_t{number->second}});
    }
    return table;
}

Table readingsTable(const Snapshot& snapshot) {
    Table table{"readings",
                said("Readings"),
                said("One determination of the spin of one shot a row, whether it counts or not."),
                readingFields(),
                {},
                {"reading_id"},
                {{"shot_id", "shots"}}};
    for (const auto& reading : snapshot.readings) {
        const auto* shot = snapshot.shots.find(reading.shot);
        const bool counts =
            shot != nullptr && shot->counting == reading.id && isCounted(snapshot, *shot);
        const auto* cell =
            shot != nullptr && shot->cell ? snapshot.cells.find(*shot->cell) : nullptr;
        table.rows.push_back(readingRow(reading, counts, cell));
    }
    return table;
}

}  // namespace core::report
