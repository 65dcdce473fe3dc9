#include <utility>

#include "core/base/words.h"
#include "core/publish/page/pair_words.h"
#include "core/publish/tables/field.h"
#include "core/publish/tables/tables.h"
#include "core/words/findings.h"

namespace core::publish {
namespace {

using findings::Comparison;
using findings::Findings;
using report::Cell;
using report::Field;
using report::FieldType;
using report::numberOrNothing;
using report::textOrNothing;

/// All hitters together are the first of the comparisons.
bool isIn(const Comparison& comparison, Scope scope) {
    return comparison.hitter.has_value() == (scope == Scope::EachHitter);
}

std::vector<Field> hitterFields(Scope scope) {
    if (scope == Scope::AllHitters) {
        return {};
    }
    return {wholeField("hitter_id", said("The hitter of this comparison.")),
            textField("hitter", said("Name of the hitter."))};
}

std::vector<Cell> hitterCells(const Comparison& comparison) {
    return comparison.hitter
               ? std::vector<Cell>{comparison.hitter->value, textOrNothing(comparison.hitterName)}
               : std::vector<Cell>{};
}

template <class Item>
void addAll(std::vector<Item>& all, std::vector<Item> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

std::vector<Field> rankingFields() {
    return {
        wholeField("implement_id", said("The implement.")),
        textField("implement", said("Name, with the condition where two share a name.")),
        wholeField("rank", said("1 for the highest mean.")),
        wholeField("rank_best", said("Best rank that the data allow at the 95 % level.")),
        wholeField("rank_worst", said("Worst rank that the data allow.")),
        numberField(
            "first_chance", "1",
            said("Chance to be the first in truth, 0 to 1: the share of simulated tables.")),
        wholeField("shots", said("Shots that count.")),
        numberField("mean_rpm", "rpm", said("Mean spin as compared.")),
        numberField("standard_uncertainty_rpm", "rpm",
                    said("Standard uncertainty of the mean, the shared parts included.")),
        numberField("degrees_of_freedom", "1", said("Of the standard uncertainty.")),
        numberField("interval_low_rpm", "rpm", said("Lower end of its 95 % interval.")),
        numberField("interval_high_rpm", "rpm", said("Upper end of its 95 % interval.")),
        numberField("scatter_rpm", "rpm", said("Standard deviation from shot to shot.")),
        textField("letters", said("Implements that share a letter cannot be told apart.")),
        textField("band", said("The tester's range of spin that the mean falls into.")),
        textField("band_of_low", said("The range that the lower end of the interval falls into.")),
        textField("band_of_high", said("The range that the upper end falls into."))};
}

Cell bandAt(const findings::Bands& bands, double rpm) {
    const auto* band = bands.bandOf({rpm});
    return band != nullptr ? textOrNothing(band->name) : Cell{};
}

std::vector<Cell> rankingCells(const Findings& findings, const findings::RankedImplement& row,
                               std::int64_t place) {
    const auto whole = [](int value) { return Cell{std::int64_t{value}}; };
    return {row.implement.value,
            row.name,
            place,
            row.rank ? whole(row.rank->lowest) : Cell{},
            row.rank ? whole(row.rank->highest) : Cell{},
            row.rank ? numberOrNothing(row.rank->firstChance) : Cell{},
            static_cast<std::int64_t>(row.shots),
            numberOrNothing(row.mean.value),
            numberOrNothing(row.mean.standardUncertainty),
            numberOrNothing(row.mean.dof),
            numberOrNothing(row.mean.interval95.low),
            numberOrNothing(row.mean.interval95.high),
            row.scatterRpm ? numberOrNothing(*row.scatterRpm) : Cell{},
            textOrNothing(row.letters),
            bandAt(findings.bands, row.mean.value),
            bandAt(findings.bands, row.mean.interval95.low),
            bandAt(findings.bands, row.mean.interval95.high)};
}

Field verdictField() {
    return {"verdict",
            FieldType::Text,
            "",
            said("What can be said, against the noticeable step where one is set."),
            {"differs_by_at_least_step", "differs_by_less_than_step", "differs",
             "equivalent_within_step", "not_settled"}};
}

std::vector<Field> pairFields() {
    return {wholeField("first_implement_id", said("Implement with the higher mean.")),
            wholeField("second_implement_id", said("Implement with the lower mean.")),
            textField("first", said("Name of the first.")),
            textField("second", said("Name of the second.")),
            numberField("difference_rpm", "rpm", said("First less second.")),
            numberField("standard_error_rpm", "rpm",
                        said("Of the difference, what both share taken out.")),
            numberField("degrees_of_freedom", "1", said("Of the standard error.")),
            numberField("interval_low_rpm", "rpm",
                        said("Lower end of the 95 % interval that holds for all pairs at once.")),
            numberField("interval_high_rpm", "rpm", said("Upper end of that interval.")),
            numberField("equivalence_low_rpm", "rpm",
                        said("Lower end of the 90 % interval for all pairs at once: inside the "
                             "noticeable step on both sides, the two are equivalent.")),
            numberField("equivalence_high_rpm", "rpm", said("Upper end of that interval.")),
            numberField("adjusted_p", "1", said("Adjusted for all pairs of the comparison.")),
            truthField("differs", said("Whether the 95 % interval leaves out zero.")),
            verdictField()};
}

std::vector<Cell> pairCells(const findings::PairFinding& pair) {
    return {pair.first.value,
            pair.second.value,
            pair.firstName,
            pair.secondName,
            numberOrNothing(pair.differenceRpm),
            numberOrNothing(pair.standardErrorRpm),
            numberOrNothing(pair.dof),
            numberOrNothing(pair.interval95.low),
            numberOrNothing(pair.interval95.high),
            numberOrNothing(pair.interval90.low),
            numberOrNothing(pair.interval90.high),
            numberOrNothing(pair.adjustedP),
            pair.differs,
            std::string{codeOf(pairWord(pair))}};
}

/// Fields and keys of a table that there is for all hitters and for each.
report::Table scopedTable(std::string name, std::string title, std::string description,
                          Scope scope) {
    report::Table table;
    table.name = std::move(name);
    table.title = std::move(title);
    table.description = std::move(description);
    table.fields = hitterFields(scope);
    if (scope == Scope::EachHitter) {
        table.primaryKey = {"hitter_id"};
        table.references = {{"hitter_id", "hitters"}};
    }
    return table;
}

}  // namespace

report::Table rankingTable(const Findings& findings, Scope scope) {
    report::Table table =
        scope == Scope::EachHitter
            ? scopedTable("ranking_by_hitter", said("Ranking by hitter"),
                          said("One implement and one hitter a row."), scope)
            : scopedTable("ranking", said("Ranking"),
                          said("One implement a row, all hitters taken together."), scope);
    addAll(table.fields, rankingFields());
    table.primaryKey.emplace_back("implement_id");
    table.references.push_back({"implement_id", "implements"});
    for (const auto& comparison : findings.comparisons) {
        std::int64_t place = 0;
        for (const auto& row : comparison.ranked) {
            if (isIn(comparison, scope)) {
                table.rows.push_back(hitterCells(comparison));
                addAll(table.rows.back(), rankingCells(findings, row, ++place));
            }
        }
    }
    return table;
}

report::Table pairsTable(const Findings& findings, Scope scope) {
    report::Table table =
        scope == Scope::EachHitter
            ? scopedTable("pairs_by_hitter", said("Pairs by hitter"),
                          said("Two implements and one hitter a row."), scope)
            : scopedTable("pairs", said("Pairs"),
                          said("Two implements a row, all hitters taken together."), scope);
    addAll(table.fields, pairFields());
    addAll(table.primaryKey, {"first_implement_id", "second_implement_id"});
    for (const char* field : {"first_implement_id", "second_implement_id"}) {
        table.references.push_back({field, "implements", "implement_id"});
    }
    for (const auto& comparison : findings.comparisons) {
        for (const auto& pair : comparison.pairs) {
            if (isIn(comparison, scope)) {
                table.rows.push_back(hitterCells(comparison));
                addAll(table.rows.back(), pairCells(pair));
            }
        }
    }
    return table;
}

report::Table comparisonsTable(const Findings& findings) {
    report::Table table{
        "comparisons",
        said("Comparisons"),
        said("One comparison of implements a row."),
        {{"scope",
          FieldType::Text,
          "",
          said("All hitters together, or one."),
          {"all_hitters", "one_hitter"}},
         wholeField("hitter_id", said("Of one hitter.")),
         {"model",
          FieldType::Text,
          "",
          said("cell_means: every implement has every cell, plain averages, each cell with its own "
               "variance (Games and Howell); additive: cells are missing and are filled in by "
               "implement + hitter on a filming day, one error variance (Tukey and Kramer)."),
          {"cell_means", "additive"}},
         wholeField("implements", said("Implements in it.")),
         numberField(
             "f", "1",
             said("Do they differ at all? Welch's test; of the additive model the F test.")),
         numberField("f_numerator_dof", "1", said("Its degrees of freedom.")),
         numberField("f_denominator_dof", "1", said("Its degrees of freedom.")),
         numberField("p", "1", said("Its p value.")),
         textField("sentence", said("What can be said.")),
         textField("why_no_pairs", said("Why nothing was compared."))},
        {}};
    for (const auto& comparison : findings.comparisons) {
        std::vector<Cell> row{
            std::string{comparison.hitter ? "one_hitter" : "all_hitters"},
            comparison.hitter ? Cell{comparison.hitter->value} : Cell{},
            std::string{comparison.model == findings::ComparisonModel::CellMeans ? "cell_means"
                                                                                 : "additive"},
            static_cast<std::int64_t>(comparison.ranked.size())};
        if (comparison.welch) {
            addAll(row, {numberOrNothing(comparison.welch->f),
                         numberOrNothing(comparison.welch->dof.numerator.value),
                         numberOrNothing(comparison.welch->dof.denominator.value),
                         numberOrNothing(comparison.welch->pValue)});
        } else {
            row.resize(row.size() + 4);
        }
        row.push_back(textOrNothing(
            words::sentence(comparison, findings.noticeableStep, words::Advice::Without)));
        row.push_back(textOrNothing(words::whyNoPairs(comparison, words::Advice::Without)));
        table.rows.push_back(std::move(row));
    }
    return table;
}

report::Table conditionsTable(const Findings& findings) {
    report::Table table{
        "conditions",
        said("New against worn"),
        said("Two conditions of one implement a row, as the pair stands among all pairs."),
        {wholeField("first_implement_id", said("The one that was added first.")),
         wholeField("second_implement_id", said("The other one.")),
         textField("implement", said("The name of both.")),
         textField("first_condition", said("Of the first.")),
         textField("second_condition", said("Of the second.")),
         numberField("difference_rpm", "rpm", said("First less second.")),
         numberField("standard_error_rpm", "rpm", said("Of the difference.")),
         numberField("degrees_of_freedom", "1", said("Of the standard error.")),
         numberField("interval_low_rpm", "rpm",
                     said("Lower end of the 95 % interval that holds for all pairs at once.")),
         numberField("interval_high_rpm", "rpm", said("Upper end of that interval.")),
         numberField("adjusted_p", "1", said("Adjusted for all pairs.")), verdictField(),
         textField("sentence", said("The same in plain words."))},
        {},
        {"first_implement_id", "second_implement_id"},
        {{"first_implement_id", "implements", "implement_id"},
         {"second_implement_id", "implements", "implement_id"}}};
    for (const auto& contrast : findings.conditions) {
        std::vector<Cell> row{contrast.first.value, contrast.second.value, contrast.name,
                              textOrNothing(contrast.firstCondition),
                              textOrNothing(contrast.secondCondition)};
        const auto* pair = findings.together().pair(contrast.first, contrast.second);
        if (contrast.difference && pair != nullptr) {
            const auto& difference = *contrast.difference;
            addAll(row,
                   {numberOrNothing(difference.estimate), numberOrNothing(difference.standardError),
                    numberOrNothing(difference.dof.value), numberOrNothing(difference.interval.low),
                    numberOrNothing(difference.interval.high), numberOrNothing(difference.pValue),
                    Cell{std::string{codeOf(pairWord(*pair))}}});
        } else {
            row.resize(row.size() + 7);
        }
        row.push_back(textOrNothing(
            words::sentence(contrast, findings.noticeableStep, words::Advice::Without)));
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace core::publish
