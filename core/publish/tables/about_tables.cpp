#include <algorithm>
#include <utility>

#include "core/base/words.h"
#include "core/publish/tables/field.h"
#include "core/publish/tables/tables.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

using report::Cell;
using report::textOrNothing;

std::size_t countOf(const project::Snapshot& snapshot, project::ShotStanding standing) {
    return static_cast<std::size_t>(
        std::count_if(snapshot.shots.begin(), snapshot.shots.end(),
                      [standing](const auto& shot) { return shot.standing == standing; }));
}

/// Facts of a project as rows.
class AboutRows {
public:
    void add(const std::string& item, const std::string& value, const std::string& meaning) {
        m_rows.push_back({item, textOrNothing(value), meaning});
    }
    void add(const std::string& item, std::size_t value, const std::string& meaning) {
        add(item, std::to_string(value), meaning);
    }
    [[nodiscard]] std::vector<std::vector<Cell>> take() { return std::move(m_rows); }

private:
    std::vector<std::vector<Cell>> m_rows;
};

void addOrigin(AboutRows& rows, const Origin& origin) {
    rows.add("title", origin.title, "Name of the project.");
    rows.add("author", origin.credits.author, "Who answers for the findings, as entered.");
    rows.add("licence", origin.credits.licence, "On what terms the files may be used, as entered.");
    rows.add("cite_as", origin.credits.citeAs, "How to cite them, as entered.");
    rows.add("revision", std::to_string(origin.revision), "Of the project.");
    rows.add("changed", origin.lastChange, "When the project was changed last, UTC.");
    rows.add("program", origin.program, "What computed and wrote the files.");
}

void addJudgement(AboutRows& rows, const findings::Findings& findings) {
    rows.add("noticeable_step_rpm",
             findings.noticeableStep ? report::roundTrip(findings.noticeableStep->rpm) : "",
             "Smallest difference of spin that matters to a player, set by the tester.");
    rows.add("rank_draws", std::to_string(findings.draws),
             "Simulated tables behind ranks and chances.");
    rows.add("rank_seed", std::to_string(findings.seed), "Of the simulation.");
    rows.add("looks", static_cast<std::size_t>(findings.looks) + 1,
             "How often findings were looked at with other readings or settings, this time "
             "included.");
    rows.add("attributes_looked_at", findings.attributes.size(),
             "Attributes that spin was compared with.");
}

void addOrder(AboutRows& rows, const project::Snapshot& snapshot) {
    const auto* record = snapshot.plans.isEmpty() ? nullptr : &*snapshot.plans.begin();
    rows.add("planned_order",
             record != nullptr ? std::string{plan::orderKindName(record->plan.order)} : "",
             "Order of the shots as planned: random; blocked (implement by implement, these in "
             "random order); latin_square or williams (balanced over places and neighbours). "
             "Empty: no plan was kept, so whether the order was random is not known.");
    rows.add("planned_order_seed", record != nullptr ? std::to_string(record->plan.seed) : "",
             "Of that order.");
}

}  // namespace

report::Table bandsTable(const findings::Bands& bands) {
    report::Table table{"bands",
                        said("Bands"),
                        said("One range of spin a row, set by the tester."),
                        {textField("band", said("Its name.")),
                         numberField("low_rpm", "rpm", said("Lower edge, which belongs to it.")),
                         numberField("high_rpm", "rpm", said("Upper edge, which does not."))},
                        {},
                        {"band"}};
    for (const auto& band : bands.all()) {
        table.rows.push_back({band.name, band.low ? Cell{band.low->rpm} : Cell{},
                              band.high ? Cell{band.high->rpm} : Cell{}});
    }
    return table;
}

report::Table aboutTable(const TableInput& input) {
    report::Table table{"about",
                        said("About"),
                        said("One fact of the project and this publication a row."),
                        {textField("item", said("What is stated.")),
                         textField("value", said("Empty: not entered or not known.")),
                         textField("meaning", said("In words."))},
                        {},
                        {"item"}};
    AboutRows rows;
    addOrigin(rows, input.origin);
    addJudgement(rows, input.findings);
    addOrder(rows, input.snapshot);
    using project::ShotStanding;
    rows.add("shots_kept", countOf(input.snapshot, ShotStanding::Kept),
             "Shots that are kept; they count unless shots.csv says why one is left out.");
    rows.add("shots_open", countOf(input.snapshot, ShotStanding::Open), "Shots to read.");
    rows.add("shots_set_aside", countOf(input.snapshot, ShotStanding::SetAside),
             "Shots left out; shots.csv has each with its reason.");
    rows.add("open_doubts_shots", input.doubts ? std::to_string(input.doubts->shots.size()) : "",
             "Shots of which something is doubtful that nobody has settled. Empty: nobody looked.");
    rows.add("open_doubts_cells", input.doubts ? std::to_string(input.doubts->cells.size()) : "",
             "Cells of which something is doubtful as a whole.");
    rows.add("shots_without_pictures_read",
             input.doubts ? std::to_string(input.doubts->withoutPictures) : "",
             "Filmed shots that were read by marks and not yet compared with their pictures.");
    table.rows = rows.take();
    return table;
}

std::vector<report::Table> tablesOf(const TableInput& input) {
    const auto& findings = input.findings;
    std::vector<report::Table> tables{aboutTable(input),
                                      rankingTable(findings, Scope::AllHitters),
                                      pairsTable(findings, Scope::AllHitters),
                                      comparisonsTable(findings),
                                      rankingTable(findings, Scope::EachHitter),
                                      pairsTable(findings, Scope::EachHitter),
                                      conditionsTable(findings),
                                      driftTable(findings),
                                      trendsTable(findings),
                                      bandsTable(findings.bands),
                                      summaryTable(input),
                                      cellPartsTable(findings),
                                      report::implementsTable(findings.summary),
                                      attributesTable(input.snapshot, findings),
                                      hittersTable(input.snapshot),
                                      daysTable(input.snapshot),
                                      shotsTable(input),
                                      readingsTable(input),
                                      sharedPartsTable(input.snapshot)};
    // A table without rows may still be named by another one's keys, or be looked for by name.
    std::erase_if(tables, [](const report::Table& table) {
        const bool isOnlyThere = table.name.ends_with("_by_hitter") || table.name == "conditions" ||
                                 table.name == "trends" || table.name == "bands" ||
                                 table.name == "attributes";
        return isOnlyThere && table.rows.empty();
    });
    return tables;
}

}  // namespace core::publish
