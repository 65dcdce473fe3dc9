#include <algorithm>

#include "core/base/words.h"
#include "core/publish/page/marking_words.h"
#include "core/publish/tables/field.h"
#include "core/publish/tables/tables.h"

namespace core::publish {
namespace {

using report::Cell;
using report::numberOrNothing;
using report::textOrNothing;

/// The attribute of an implement as a number, where the findings took it for one.
Cell numberOfAttribute(const findings::Findings& findings, const std::string& key,
                       project::ImplementId implement) {
    for (const auto& attribute : findings.attributes) {
        if (attribute.key != key) {
            continue;
        }
        for (const auto& point : attribute.points) {
            if (point.implement == implement) {
                return numberOrNothing(point.x);
            }
        }
    }
    return {};
}

}  // namespace

report::Table attributesTable(const project::Snapshot& snapshot,
                              const findings::Findings& findings) {
    report::Table table{
        "attributes",
        said("Attributes"),
        said("One attribute of one implement a row, as the tester entered it."),
        {wholeField("implement_id", said("The implement.")),
         textField("attribute", said("What is stated.")), textField("value", said("As entered.")),
         numberField("number", "", said("The number in it, where spin was compared with it."))},
        {},
        {"implement_id", "attribute"},
        {{"implement_id", "implements"}}};
    for (const auto& implement : snapshot.implements) {
        if (findings.find(implement.id) == nullptr) {
            continue;  // nobody struck with it, so it is in no table
        }
        for (const auto& [key, value] : implement.attributes) {
            table.rows.push_back({implement.id.value, key, textOrNothing(value),
                                  numberOfAttribute(findings, key, implement.id)});
        }
    }
    return table;
}

report::Table hittersTable(const project::Snapshot& snapshot) {
    report::Table table{"hitters",
                        said("Hitters"),
                        said("One hitter a row."),
                        {wholeField("hitter_id", said("Number of the hitter in the project.")),
                         textField("hitter", said("Name, or H1, H2 … where names are hidden."))},
                        {},
                        {"hitter_id"}};
    for (const auto& hitter : snapshot.hitters) {
        table.rows.push_back({hitter.id.value, textOrNothing(hitter.name)});
    }
    return table;
}

report::Table daysTable(const project::Snapshot& snapshot) {
    report::Table table{
        "days",
        said("Filming days"),
        said("One filming day with one set-up a row."),
        {wholeField("session_id", said("Number of the filming day in the project.")),
         textField("session", said("Its name.")),
         textField("date", said("ISO 8601.")),
         textField("ball_marking", said("How the ball was marked.")),
         numberField("ball_diameter_mm", "mm", said("Where it is known.")),
         numberField("field_of_view_deg", "deg", said("Of the camera, horizontal.")),
         numberField("exposure_s", "s", said("How long the shutter was open.")),
         numberField("readout_s", "s",
                     said("Of a rolling shutter, from the first to the last row.")),
         textField("note", said("The tester's own.")),
         {"stroke",
          report::FieldType::Text,
          "",
          said("The sense in which the day's strokes turn the ball, where the tester says one."),
          {"topspin", "backspin"}}},
        {},
        {"session_id"}};
    for (const auto& day : snapshot.sessions) {
        table.rows.push_back(
            {day.id.value, textOrNothing(day.name), textOrNothing(day.date),
             std::string{markingName(day.marking)}, numberOrNothing(day.ballDiameterMm),
             numberOrNothing(day.fieldOfViewDeg), numberOrNothing(day.exposureSeconds),
             numberOrNothing(day.readoutSeconds), textOrNothing(day.note), strokeWord(day.stroke)});
    }
    return table;
}

}  // namespace core::publish
