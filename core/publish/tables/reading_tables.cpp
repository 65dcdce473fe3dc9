#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "core/base/words.h"
#include "core/findings/ball_speed.h"
#include "core/project/clock_refutation.h"
#include "core/publish/tables/field.h"
#include "core/publish/tables/tables.h"
#include "core/reading/inputs_json.h"
#include "core/words/flight.h"

namespace core::publish {
namespace {

using report::Cell;
using report::FieldType;
using report::numberOrNothing;
using report::textOrNothing;

/// What a rate was read from, as far as it is known.
struct ReadFrames {
    std::optional<std::int64_t> start;
    std::optional<std::int64_t> end;
    std::optional<double> frames;  ///< from start to end; half ones where the end lies between two
    std::optional<double> turns;
    std::optional<double> captureRateFps;
};

std::optional<double> captureRateOf(const project::ClockSetting& clock, const project::Clip* clip) {
    if (clock.kind == timebase::ClockKind::Counted) {
        return clock.counted ? std::optional{clock.counted->fps.toDouble()} : std::nullopt;
    }
    if (clip == nullptr || !clip->playbackRate) {
        return std::nullopt;
    }
    const double stretch =
        clock.kind == timebase::ClockKind::Stretched ? clock.stretch.toDouble() : 1.0;
    return clip->playbackRate->fps.toDouble() * stretch;
}

/// Where a return lies, in frames.
double placeOf(const spin::ReturnMark& mark) {
    const auto first = static_cast<double>(mark.frame.value);
    const auto interval = static_cast<double>(mark.frameAfter.value - mark.frame.value);
    return first + interval * (mark.fraction ? mark.fraction->value : 0.5);
}

ReadFrames framesOfMarks(const reading::MarksInputs& inputs, const project::Reading& read) {
    ReadFrames found;
    std::optional<int> turns;
    const spin::MarkSet& marks = inputs.marks;
    if (marks.start && !marks.returns.empty()) {
        const auto last =
            std::max_element(marks.returns.begin(), marks.returns.end(),
                             [](const auto& a, const auto& b) { return placeOf(a) < placeOf(b); });
        found.start = marks.start->frame.value;
        // "First frame at or past the turn" is a bracket that ends with the frame counted.
        const bool isFirstPast = read.habit == spin::CountingHabit::After;
        found.end = (isFirstPast ? last->frameAfter : last->frame).value;
        found.frames =
            (isFirstPast ? static_cast<double>(last->frameAfter.value) : placeOf(*last)) -
            static_cast<double>(*found.start);
        turns = last->turns;
    } else if (marks.angles.size() > 1) {
        const auto [first, last] =
            std::minmax_element(marks.angles.begin(), marks.angles.end(),
                                [](const auto& a, const auto& b) { return a.frame < b.frame; });
        found.start = first->frame.value;
        found.end = last->frame.value;
        found.frames = static_cast<double>(*found.end - *found.start);
    }
    if (turns) {
        found.turns = *turns;
    }
    return found;
}

/// Turns that were not given follow from the rate; between returns they are whole.
void fillTurns(ReadFrames& found, const project::Reading& read, bool isWhole) {
    if (!found.turns && found.frames && found.captureRateFps) {
        const double turns = read.rate.value.rpm / 60.0 * *found.frames / *found.captureRateFps;
        found.turns = isWhole ? std::max(1.0, std::round(turns)) : turns;
    }
}

ReadFrames readFramesOf(const project::Reading& read, const project::Clip* clip) {
    if (read.method == project::ReadingMethod::Marks) {
        const auto inputs = reading::marksInputsFromJson(read.inputsJson);
        if (!inputs) {
            return {};
        }
        ReadFrames found = framesOfMarks(inputs.value(), read);
        found.captureRateFps = captureRateOf(inputs.value().clock, clip);
        fillTurns(found, read, !inputs.value().marks.returns.empty());
        return found;
    }
    const auto kept = reading::keptFitFromJson(read.inputsJson);
    if (!kept || kept.value().track.empty()) {
        return {};
    }
    const auto& track = kept.value().track;
    ReadFrames found{
        .start = track.front().frame.value,
        .end = track.back().frame.value,
        .frames = static_cast<double>(track.back().frame.value - track.front().frame.value),
        .turns =
            read.rate.value.rpm / 60.0 * (track.back().time.seconds - track.front().time.seconds),
        .captureRateFps = captureRateOf(kept.value().request.clock, clip)};
    return found;
}

Cell wholeOrNothing(std::optional<std::int64_t> value) {
    return value ? Cell{*value} : Cell{};
}

std::string_view sourceWord(report::SharedSource source) {
    switch (source) {
        case report::SharedSource::Clock:
            return "clock";
        case report::SharedSource::View:
            return "view";
        case report::SharedSource::Habit:
            return "habit";
    }
    return "";
}

}  // namespace

/// Why kept shots are in no number of the summary.
void addLeftOut(report::Table& table, const project::Snapshot& snapshot) {
    const auto id = static_cast<std::size_t>(
        std::find_if(table.fields.begin(), table.fields.end(),
                     [](const report::Field& field) { return field.name == "shot_id"; }) -
        table.fields.begin());
    table.fields.push_back(textField(
        "left_out", said("Why a kept shot is in no summary: what its flight says of its clock.")));
    for (auto& row : table.rows) {
        const auto* shot = snapshot.shots.find({std::get<std::int64_t>(row[id])});
        const auto* clip = shot != nullptr ? snapshot.clips.find(shot->clip) : nullptr;
        const bool isOut = clip != nullptr && shot->standing == project::ShotStanding::Kept &&
                           isLeftOut(snapshot, *clip);
        row.push_back(isOut ? Cell{refutationOf(snapshot, *clip)->statement} : Cell{});
    }
}

report::Table shotsTable(const TableInput& input) {
    auto table = report::shotsTable(input.snapshot);
    addLeftOut(table, input.snapshot);
    if (!input.doubts) {
        return table;
    }
    const auto id = static_cast<std::size_t>(
        std::find_if(table.fields.begin(), table.fields.end(),
                     [](const report::Field& field) { return field.name == "shot_id"; }) -
        table.fields.begin());
    table.fields.push_back(
        textField("open_doubts", said("What nobody has looked at yet, by name.")));
    for (auto& row : table.rows) {
        const auto open = input.doubts->shots.find({std::get<std::int64_t>(row[id])});
        row.push_back(open == input.doubts->shots.end() ? Cell{} : Cell{open->second});
    }
    return table;
}

/// Columns of how the ball flew, a value and its standard uncertainty each.
void addFlightFields(report::Table& table) {
    const auto add = [&table](const words::FlightNumber& number, const std::string& says) {
        const std::string unit = number.column.empty() ? "" : "_" + std::string{number.column};
        const std::string name{number.name};
        const std::string of{number.unit.empty() ? "1" : number.unit};
        table.fields.push_back(numberField(name + unit, of, says));
        table.fields.push_back(
            numberField(name + "_uncertainty" + unit, of, said("Its standard uncertainty.")));
    };
    const std::array<std::string, words::kFlightNumbers> what{
        said("Speed of the ball at the first frame of its track; needs the ball's diameter."),
        said("Rise of the flight above the horizontal there."),
        said("Part of the spin about the horizontal across the flight: positive where the upper "
             "side runs forward (topspin), negative for backspin."),
        said("Part of the spin about the axis square to the flight and to that one: positive where "
             "the ball curves to the right."),
        said("Part of the spin about the direction of flight."),
        said("Angle between the horizontal and the axis, seen along the flight: 0 for pure topspin "
             "or backspin, positive for sidespin to the right."),
        said("Radius times spin over speed (Nathan 2008, Am. J. Phys. 76:119).")};
    const auto numbers = words::numbersOf({});
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        add(numbers[i], what[i]);
    }
}

void appendFlight(std::vector<Cell>& row, const project::Reading& read) {
    const auto flight = findings::flightOf(read);
    if (!flight) {
        row.resize(row.size() + 2 * words::kFlightNumbers);
        return;
    }
    for (const auto& number : words::numbersOf(*flight)) {
        row.push_back(numberOrNothing(number.value));
        row.push_back(numberOrNothing(number.sigma));
    }
}

/// What the tester says of the shot: the note, the stroke.
void appendWords(std::vector<Cell>& row, const project::Snapshot& snapshot,
                 const project::Shot* shot, const project::Clip* clip) {
    const auto* day = clip != nullptr ? snapshot.sessions.find(clip->session) : nullptr;
    if (shot == nullptr || day == nullptr) {
        row.resize(row.size() + 2);
        return;
    }
    row.push_back(textOrNothing(shot->note));
    row.push_back(strokeWord(project::strokeOf(*day, *shot)));
}

report::Table readingsTable(const TableInput& input) {
    auto table = report::readingsTable(input.snapshot);
    table.fields.push_back(
        wholeField("start_frame", said("Frame of reference; frames count from 0.")));
    table.fields.push_back(
        wholeField("end_frame", said("Frame of the last return, or the last one that was used.")));
    table.fields.push_back(
        numberField("frames", "1",
                    said("From start to end; a fraction where a return lies between two frames.")));
    table.fields.push_back(
        numberField("turns", "1", said("Turns in these frames; whole between start and return.")));
    table.fields.push_back(numberField("capture_rate_fps", "1/s",
                                       said("Frames a second at which the camera filmed.")));
    addFlightFields(table);
    table.fields.push_back(textField("note", said("What the tester noted about the shot.")));
    table.fields.push_back({"stroke",
                            FieldType::Text,
                            "",
                            said("The sense in which the tester says the stroke turns the ball; it "
                                 "decides where the pictures leave two. Empty: not known."),
                            {"topspin", "backspin"}});
    std::size_t at = 0;
    for (const auto& read : input.snapshot.readings) {
        const auto* shot = input.snapshot.shots.find(read.shot);
        const auto* clip = shot != nullptr ? input.snapshot.clips.find(shot->clip) : nullptr;
        const ReadFrames found = readFramesOf(read, clip);
        auto& row = table.rows[at++];
        row.push_back(wholeOrNothing(found.start));
        row.push_back(wholeOrNothing(found.end));
        row.push_back(numberOrNothing(found.frames));
        row.push_back(numberOrNothing(found.turns));
        row.push_back(numberOrNothing(found.captureRateFps));
        appendFlight(row, read);
        appendWords(row, input.snapshot, shot, clip);
    }
    for (const char* part : {"clock_part", "view_part", "habit_part"}) {
        table.references.push_back({part, "shared_parts", "part"});
    }
    return table;
}

report::Table summaryTable(const TableInput& input) {
    auto table = report::summaryTable(input.findings.summary);
    table.fields.push_back(numberField(
        "reading_scatter_rpm", "rpm",
        said("Of the scatter, what the readings' own uncertainty makes: its root mean square.")));
    table.fields.push_back(numberField("shot_scatter_rpm", "rpm",
                                       said("Of the scatter, what the shots themselves make "
                                            "(random effects, restricted likelihood).")));
    table.fields.push_back(
        numberField("scatter_p", "1",
                    said("Whether the shots differed at all (Cochran's Q); small if they did.")));
    if (input.doubts) {
        table.fields.push_back(textField(
            "open_doubts", said("What nobody has looked at yet about the cell as a whole.")));
    }
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const auto& cell = input.findings.cells[i];
        auto& row = table.rows[i];
        if (cell.split) {
            row.push_back(numberOrNothing(cell.split->readingDeviation));
            row.push_back(numberOrNothing(cell.split->reml.betweenDeviation));
            row.push_back(numberOrNothing(cell.split->reml.heterogeneityP));
        } else {
            row.resize(row.size() + 3);
        }
        if (input.doubts) {
            const auto open = input.doubts->cells.find(cell.row.cell);
            row.push_back(open == input.doubts->cells.end() ? Cell{} : Cell{open->second});
        }
    }
    table.references = {
        {"session_id", "days"}, {"implement_id", "implements"}, {"hitter_id", "hitters"}};
    return table;
}

report::Table sharedPartsTable(const project::Snapshot& snapshot) {
    report::Table table{"shared_parts",
                        said("Shared parts"),
                        said("One part of the uncertainty that several readings share a row."),
                        {textField("part", said("Name of the part.")),
                         {"source",
                          FieldType::Text,
                          "",
                          said("The capture rate (clock), where the camera stood (view) or how "
                               "whole frames were counted (habit)."),
                          {"clock", "view", "habit"}},
                         wholeField("session_id", said("The filming day whose readings share it.")),
                         {"method",
                          FieldType::Text,
                          "",
                          said("Of a view: the method whose readings share it."),
                          {"marks", "rotation fit"}}},
                        {},
                        {"part"},
                        {{"session_id", "days"}}};
    std::set<report::SharedKey> keys;
    for (const auto& read : snapshot.readings) {
        const auto* shot = snapshot.shots.find(read.shot);
        const auto* cell =
            shot != nullptr && shot->cell ? snapshot.cells.find(*shot->cell) : nullptr;
        if (cell != nullptr) {
            for (const auto& part : report::partsOf(read, cell->session)) {
                keys.insert(part.first);
            }
        }
    }
    for (const auto& key : keys) {
        table.rows.push_back(
            {report::partName(key), std::string{sourceWord(key.source)}, key.session.value,
             key.source == report::SharedSource::View ? Cell{report::methodCode(key.method)}
                                                      : Cell{}});
    }
    return table;
}

report::Table cellPartsTable(const findings::Findings& findings) {
    report::Table table{
        "cell_parts",
        said("Shared parts of cells"),
        said("One shared part of the mean of one cell a row."),
        {wholeField("cell_id", said("The cell.")), textField("part", said("Name of the part.")),
         numberField(
             "effect_rpm", "rpm",
             said("What one standard uncertainty of the part does to the mean. A mean has the "
                  "square of it in its variance, a difference the square of the difference."))},
        {},
        {"cell_id", "part"},
        {{"cell_id", "summary"}, {"part", "shared_parts"}}};
    for (const auto& cell : findings.cells) {
        if (cell.row.estimate) {
            for (const auto& [key, effect] : cell.row.estimate->shared) {
                table.rows.push_back(
                    {cell.row.cell.value, report::partName(key), numberOrNothing(effect)});
            }
        }
    }
    return table;
}

}  // namespace core::publish
