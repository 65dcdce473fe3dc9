#include "core/base/words.h"
#include "core/publish/tables/field.h"
#include "core/publish/tables/tables.h"
#include "core/words/findings.h"

namespace core::publish {
namespace {

using findings::Findings;
using report::Cell;
using report::Field;
using report::numberOrNothing;
using report::textOrNothing;

void addCorrelationFields(std::vector<Field>& fields, const std::string& name,
                          const std::string& what) {
    fields.push_back(numberField(name, "1", what));
    fields.push_back(numberField(name + "_low", "1", said("Lower end of its 95 % interval.")));
    fields.push_back(numberField(name + "_high", "1", said("Upper end of its 95 % interval.")));
    fields.push_back(numberField(name + "_p", "1", said("Two-sided, against zero.")));
}

void addCorrelation(std::vector<Cell>& row, const findings::Said<stats::Correlation>& found) {
    if (!found) {
        row.resize(row.size() + 4);
        return;
    }
    row.push_back(numberOrNothing(found->coefficient));
    row.push_back(found->interval ? numberOrNothing(found->interval->low) : Cell{});
    row.push_back(found->interval ? numberOrNothing(found->interval->high) : Cell{});
    row.push_back(numberOrNothing(found->pValue));
}

}  // namespace

report::Table driftTable(const Findings& findings) {
    report::Table table{
        "drift",
        said("Drift"),
        said("One hitter on one filming day a row: spin against the number of the shot, cells held "
             "apart."),
        {wholeField("session_id", said("The filming day.")),
         wholeField("hitter_id", said("The hitter.")),
         wholeField("shots", said("Shots that count.")),
         numberField("slope_rpm_per_shot", "rpm", said("More spin a shot.")),
         numberField("standard_error_rpm_per_shot", "rpm", said("Of the slope.")),
         numberField("degrees_of_freedom", "1", said("Of the standard error.")),
         numberField("interval_low_rpm_per_shot", "rpm", said("Lower end of its 95 % interval.")),
         numberField("interval_high_rpm_per_shot", "rpm", said("Upper end of its 95 % interval.")),
         numberField("p", "1", said("Two-sided, against zero.")),
         textField("sentence", said("The same in plain words."))},
        {},
        {"session_id", "hitter_id"},
        {{"session_id", "days"}, {"hitter_id", "hitters"}}};
    for (const auto& drift : findings.drifts) {
        std::vector<Cell> row{drift.session.value, drift.hitter.value,
                              static_cast<std::int64_t>(drift.points.size())};
        if (drift.perShot) {
            const auto& slope = *drift.perShot;
            for (const double number : {slope.estimate, slope.standardError, slope.dof.value,
                                        slope.interval.low, slope.interval.high, slope.pValue}) {
                row.push_back(numberOrNothing(number));
            }
        } else {
            row.resize(row.size() + 6);
        }
        row.push_back(textOrNothing(words::sentence(drift, words::Advice::Without)));
        table.rows.push_back(std::move(row));
    }
    return table;
}

report::Table trendsTable(const Findings& findings) {
    report::Table table{"trends",
                        said("Spin against attributes"),
                        said("One attribute a row, against the means of the ranking."),
                        {textField("attribute", said("As in attributes.csv.")),
                         textField("unit", said("Of all the numbers.")),
                         wholeField("implements", said("Implements with a number."))},
                        {},
                        {"attribute"}};
    addCorrelationFields(table.fields, "spearman", said("Correlation of the ranks."));
    addCorrelationFields(table.fields, "pearson", said("Correlation of the numbers."));
    table.fields.push_back(textField("sentence", said("The same in plain words.")));
    for (const auto& attribute : findings.attributes) {
        std::vector<Cell> row{attribute.key, textOrNothing(attribute.unit),
                              static_cast<std::int64_t>(attribute.points.size())};
        addCorrelation(row, attribute.spearman);
        addCorrelation(row, attribute.pearson);
        row.push_back(textOrNothing(words::sentence(attribute, words::Advice::Without)));
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace core::publish
