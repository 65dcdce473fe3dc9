#include "core/publish/page/pair_words.h"
#include "core/publish/tables/field.h"
#include "core/publish/tables/tables.h"

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
    return {wholeField("hitter_id", "The hitter of this comparison."),
            textField("hitter", "Name of the hitter.")};
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
    return {wholeField("implement_id", "The implement."),
            textField("implement", "Name, with the condition where two share a name."),
            wholeField("rank", "1 for the highest mean."),
            wholeField("rank_best", "Best rank that the data allow at the 95 % level."),
            wholeField("rank_worst", "Worst rank that the data allow."),
            numberField("first_chance", "1",
                        "Chance to be the first in truth, 0 to 1: the share of simulated tables."),
            wholeField("shots", "Shots that count."),
            numberField("mean_rpm", "rpm", "Mean spin as compared."),
            numberField("standard_uncertainty_rpm", "rpm",
                        "Standard uncertainty of the mean, the shared parts included."),
            numberField("degrees_of_freedom", "1", "Of the standard uncertainty."),
            numberField("interval_low_rpm", "rpm", "Lower end of its 95 % interval."),
            numberField("interval_high_rpm", "rpm", "Upper end of its 95 % interval."),
            numberField("scatter_rpm", "rpm", "Standard deviation from shot to shot."),
            textField("letters", "Implements that share a letter cannot be told apart."),
            textField("band", "The tester's range of spin that the mean falls into."),
            textField("band_of_low", "The range that the lower end of the interval falls into."),
            textField("band_of_high", "The range that the upper end falls into.")};
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
            "What can be said, against the noticeable step where one is set.",
            {"differs_by_at_least_step", "differs_by_less_than_step", "differs",
             "equivalent_within_step", "not_settled"}};
}

std::vector<Field> pairFields() {
    return {
        wholeField("first_implement_id", "Implement with the higher mean."),
        wholeField("second_implement_id", "Implement with the lower mean."),
        textField("first", "Name of the first."),
        textField("second", "Name of the second."),
        numberField("difference_rpm", "rpm", "First less second."),
        numberField("standard_error_rpm", "rpm", "Of the difference, what both share taken out."),
        numberField("degrees_of_freedom", "1", "Of the standard error."),
        numberField("interval_low_rpm", "rpm",
                    "Lower end of the 95 % interval that holds for all pairs at once."),
        numberField("interval_high_rpm", "rpm", "Upper end of that interval."),
        numberField("equivalence_low_rpm", "rpm",
                    "Lower end of the 90 % interval for all pairs at once: inside the "
                    "noticeable step on both sides, the two are equivalent."),
        numberField("equivalence_high_rpm", "rpm", "Upper end of that interval."),
        numberField("adjusted_p", "1", "Adjusted for all pairs of the comparison."),
        truthField("differs", "Whether the 95 % interval leaves out zero."),
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

/// Name, title, fields and keys of a table that there is for all hitters and for each.
report::Table scopedTable(const std::string& name, const std::string& title, const std::string& row,
                          Scope scope) {
    report::Table table;
    const bool isEach = scope == Scope::EachHitter;
    table.name = name + (isEach ? "_by_hitter" : "");
    table.title = title + (isEach ? " by hitter" : "");
    table.description =
        row + (isEach ? " and one hitter a row." : " a row, all hitters taken together.");
    table.fields = hitterFields(scope);
    if (isEach) {
        table.primaryKey = {"hitter_id"};
        table.references = {{"hitter_id", "hitters"}};
    }
    return table;
}

}  // namespace

report::Table rankingTable(const Findings& findings, Scope scope) {
    report::Table table = scopedTable("ranking", "Ranking", "One implement", scope);
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
    report::Table table = scopedTable("pairs", "Pairs", "Two implements", scope);
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
        "Comparisons",
        "One comparison of implements a row.",
        {{"scope",
          FieldType::Text,
          "",
          "All hitters together, or one.",
          {"all_hitters", "one_hitter"}},
         wholeField("hitter_id", "Of one hitter."),
         {"model",
          FieldType::Text,
          "",
          "cell_means: every implement has every cell, plain averages, each cell with its own "
          "variance (Games and Howell); additive: cells are missing and are filled in by implement "
          "+ hitter on a filming day, one error variance (Tukey and Kramer).",
          {"cell_means", "additive"}},
         wholeField("implements", "Implements in it."),
         numberField("f", "1",
                     "Do they differ at all? Welch's test; of the additive model the F test."),
         numberField("f_numerator_dof", "1", "Its degrees of freedom."),
         numberField("f_denominator_dof", "1", "Its degrees of freedom."),
         numberField("p", "1", "Its p value."),
         textField("sentence", "What can be said."),
         textField("why_no_pairs", "Why nothing was compared.")},
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
        row.push_back(textOrNothing(comparison.sentence));
        row.push_back(textOrNothing(comparison.whyNoPairs));
        table.rows.push_back(std::move(row));
    }
    return table;
}

report::Table conditionsTable(const Findings& findings) {
    report::Table table{
        "conditions",
        "New against worn",
        "Two conditions of one implement a row, as the pair stands among all pairs.",
        {wholeField("first_implement_id", "The one that was added first."),
         wholeField("second_implement_id", "The other one."),
         textField("implement", "The name of both."), textField("first_condition", "Of the first."),
         textField("second_condition", "Of the second."),
         numberField("difference_rpm", "rpm", "First less second."),
         numberField("standard_error_rpm", "rpm", "Of the difference."),
         numberField("degrees_of_freedom", "1", "Of the standard error."),
         numberField("interval_low_rpm", "rpm",
                     "Lower end of the 95 % interval that holds for all pairs at once."),
         numberField("interval_high_rpm", "rpm", "Upper end of that interval."),
         numberField("adjusted_p", "1", "Adjusted for all pairs."), verdictField(),
         textField("sentence", "The same in plain words.")},
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
        row.push_back(textOrNothing(contrast.sentence));
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace core::publish
