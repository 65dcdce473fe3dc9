#include "core/publish/page/pair_words.h"
#include "core/publish/tables/tables.h"

namespace core::publish {
namespace {

using findings::Findings;
using report::Cell;
using report::Field;
using report::FieldType;
using report::numberOrNothing;

Cell nameOrNothing(const std::string& text) {
    return text.empty() ? Cell{} : Cell{text};
}

std::vector<Field> rankingFields() {
    return {
        {"hitter", FieldType::Text, "", "Of this comparison; empty: all hitters together."},
        {"rank", FieldType::Whole, "", "1 for the highest mean."},
        {"rank_best", FieldType::Whole, "", "Best rank that the data allow at the 95 % level."},
        {"rank_worst", FieldType::Whole, "", "Worst rank that the data allow."},
        {"first_chance", FieldType::Number, "1", "Chance to be the first in truth, 0 to 1."},
        {"implement", FieldType::Text, "", "Name, with the condition where two share a name."},
        {"shots", FieldType::Whole, "", "Shots that count."},
        {"mean_rpm", FieldType::Number, "rpm", "Mean spin as compared."},
        {"standard_uncertainty_rpm", FieldType::Number, "rpm",
         "Standard uncertainty of the mean, the clock's part included."},
        {"interval_low_rpm", FieldType::Number, "rpm", "Lower end of its 95 % interval."},
        {"interval_high_rpm", FieldType::Number, "rpm", "Upper end of its 95 % interval."},
        {"scatter_rpm", FieldType::Number, "rpm", "Standard deviation from shot to shot."},
        {"letters", FieldType::Text, "", "Implements that share a letter cannot be told apart."},
        {"band", FieldType::Text, "", "The tester's range of spin that the mean falls into."}};
}

std::vector<Field> pairFields() {
    return {{"hitter", FieldType::Text, "", "Of this comparison; empty: all hitters together."},
            {"first", FieldType::Text, "", "Implement with the higher mean."},
            {"second", FieldType::Text, "", "Implement with the lower mean."},
            {"difference_rpm", FieldType::Number, "rpm", "First less second."},
            {"standard_error_rpm", FieldType::Number, "rpm", "Of the difference."},
            {"degrees_of_freedom", FieldType::Number, "1", "Of the standard error."},
            {"interval_low_rpm", FieldType::Number, "rpm",
             "Lower end of the 95 % interval that holds for all pairs at once."},
            {"interval_high_rpm", FieldType::Number, "rpm", "Upper end of that interval."},
            {"adjusted_p", FieldType::Number, "1", "Adjusted for all pairs of the comparison."},
            {"differs", FieldType::Truth, "", "Whether the interval leaves out zero."},
            {"verdict",
             FieldType::Text,
             "",
             "What can be said, against the noticeable step where one is set.",
             {"differs_by_at_least_step", "differs_by_less_than_step", "differs",
              "equivalent_within_step", "not_settled"}},
            {"more_shots", FieldType::Whole, "",
             "Shots more in each cell that would tell the two apart with power 0.8, should the "
             "present difference and scatter be the true ones."},
            {"sentence", FieldType::Text, "", "The same in plain words."}};
}

}  // namespace

report::Table rankingTable(const Findings& findings) {
    report::Table table{"ranking",
                        "Ranking",
                        "One implement a row, with all hitters together or with one.",
                        rankingFields(),
                        {}};
    for (const auto& comparison : findings.comparisons) {
        std::int64_t place = 0;
        for (const auto& row : comparison.ranked) {
            ++place;
            const auto whole = [](int value) { return Cell{std::int64_t{value}}; };
            table.rows.push_back(
                {nameOrNothing(comparison.hitterName), place,
                 row.rank ? whole(row.rank->lowest) : Cell{},
                 row.rank ? whole(row.rank->highest) : Cell{},
                 row.rank ? numberOrNothing(row.rank->firstChance) : Cell{}, row.name,
                 static_cast<std::int64_t>(row.shots), numberOrNothing(row.mean.value),
                 numberOrNothing(row.mean.standardUncertainty),
                 numberOrNothing(row.mean.interval95.low),
                 numberOrNothing(row.mean.interval95.high),
                 row.scatterRpm ? numberOrNothing(*row.scatterRpm) : Cell{},
                 nameOrNothing(row.letters), row.band ? nameOrNothing(*row.band) : Cell{}});
        }
    }
    return table;
}

report::Table pairsTable(const Findings& findings) {
    report::Table table{"pairs",
                        "Pairs",
                        "Two implements a row, compared with all hitters together or with one.",
                        pairFields(),
                        {}};
    for (const auto& comparison : findings.comparisons) {
        for (const auto& pair : comparison.pairs) {
            table.rows.push_back(
                {nameOrNothing(comparison.hitterName), pair.firstName, pair.secondName,
                 numberOrNothing(pair.differenceRpm), numberOrNothing(pair.standardErrorRpm),
                 numberOrNothing(pair.dof), numberOrNothing(pair.interval95.low),
                 numberOrNothing(pair.interval95.high), numberOrNothing(pair.adjustedP),
                 pair.differs, std::string{codeOf(pairWord(pair))},
                 pair.moreShots ? Cell{std::int64_t{*pair.moreShots}} : Cell{}, pair.sentence});
        }
    }
    return table;
}

std::vector<report::Table> tablesOf(const project::Snapshot& snapshot, const Findings& findings) {
    return {report::shotsTable(snapshot), report::readingsTable(snapshot),
            report::summaryTable(findings.summary), rankingTable(findings), pairsTable(findings)};
}

}  // namespace core::publish
