#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "app/cli/language_option.h"
#include "core/findings/advice_facts.h"
#include "core/intake/planned_cells.h"
#include "core/intake/tally_sheet.h"
#include "core/plan/advice.h"
#include "core/plan/implement_table.h"
#include "core/plan/print.h"
#include "core/plan/schedule.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::Result;
using Json = nlohmann::ordered_json;

struct PlanOptions {
    std::string project;
    std::string implements;
    std::vector<std::string> hitters;
    std::string shotList;
    std::string cards;
    std::string language{"en"};
    bool overwrite{};
    bool json{};
};

/// Shot list and slate cards, as far as they are asked for.
Result<void> writePages(const core::plan::Plan& plan, const PlanOptions& options,
                        const core::WriteRule& rule) {
    const auto write = [&](const std::string& file, const auto& pdfOf) -> Result<void> {
        if (file.empty()) {
            return core::ok();
        }
        const auto pdf = [&] {
            const InLanguage spoken{options.language};
            return pdfOf(plan);
        }();
        BOOST_OUTCOME_TRY(content, pdf);
        return core::writeFile(file, content, rule);
    };
    BOOST_OUTCOME_TRY(write(options.shotList, core::plan::shotListPdf));
    return write(options.cards, core::plan::slateCardsPdf);
}

/// What the command line adds to the plan. Returns how the table of implements was read, if any.
Result<std::optional<core::TextEncoding>> changePlan(core::project::Store& store,
                                                     const PlanOptions& options) {
    core::plan::Plan plan = planOf(*store.snapshot());
    std::optional<core::TextEncoding> encoding;
    if (!options.implements.empty()) {
        BOOST_OUTCOME_TRY(text, core::intake::readTextFile(options.implements));
        const auto table = core::plan::implementsFromText(text);
        if (!table) {
            return core::fail(table.error().code,
                              options.implements + ": " + table.error().message);
        }
        core::plan::addToPlan(plan, table.value());
        encoding = table.value().encoding;
    }
    for (const auto& hitter : options.hitters) {
        if (std::find(plan.hitters.begin(), plan.hitters.end(), hitter) == plan.hitters.end()) {
            plan.hitters.push_back(hitter);
        }
    }
    if (plan != planOf(*store.snapshot())) {
        BOOST_OUTCOME_TRY(core::intake::keepPlan(store, plan));
    }
    return encoding;
}

Result<core::plan::Advice> adviceOf(const core::project::Snapshot& snapshot) {
    BOOST_OUTCOME_TRY(facts, core::findings::adviceFacts(snapshot));
    return core::plan::adviceFor(planOf(snapshot), facts);
}

Json visitJson(const core::plan::Plan& plan, const core::plan::Visit& visit) {
    if (visit.kind == core::plan::Visit::Kind::Rest) {
        return {{"rest_minutes", plan.restMinutes}, {"hitter", plan.hitters[visit.hitter]}};
    }
    return {{"first_shot", visit.firstShot},
            {"shots", visit.shots},
            {"hitter", plan.hitters[visit.hitter]},
            {"implement", core::plan::implementLabel(plan, visit.implement)},
            {"control", visit.isControl}};
}

void printText(const core::plan::Plan& plan, const core::plan::Schedule& schedule,
               const core::plan::Advice& advice) {
    for (const auto& visit : schedule.visits) {
        if (visit.kind == core::plan::Visit::Kind::Rest) {
            std::cout << "rest  " << plan.hitters[visit.hitter] << ", " << plan.restMinutes
                      << " min\n";
        } else {
            std::cout << visit.firstShot << '-' << visit.firstShot + visit.shots - 1 << "  "
                      << plan.hitters[visit.hitter] << "  "
                      << core::plan::implementLabel(plan, visit.implement)
                      << (visit.isControl ? "  control" : "") << '\n';
        }
    }
    for (const auto& remark : schedule.remarks) {
        std::cout << remark << '\n';
    }
    for (const auto& line : advice.lines) {
        std::cout << (line.isWarning ? "! " : "") << line.text << '\n';
    }
}

Result<void> runPlan(const PlanOptions& options) {
    const bool looksOnly = options.implements.empty() && options.hitters.empty();
    BOOST_OUTCOME_TRY(store, looksOnly ? core::project::Store::openToRead(options.project)
                                       : core::project::Store::open(options.project));
    BOOST_OUTCOME_TRY(encoding, changePlan(*store, options));
    const auto snapshot = store->snapshot();
    const core::plan::Plan& plan = planOf(*snapshot);
    BOOST_OUTCOME_TRY(schedule, core::plan::scheduleOf(plan));
    BOOST_OUTCOME_TRY(advice, adviceOf(*snapshot));
    BOOST_OUTCOME_TRY(writePages(plan, options, writeRule(options.overwrite, *store)));
    if (!options.json) {
        if (encoding) {
            std::cout << "Implements read as " << core::encodingName(*encoding) << ".\n";
        }
        printText(plan, schedule, advice);
        return core::ok();
    }
    Json json{{"plan", Json::parse(core::plan::planToJson(plan))},
              {"shots", schedule.shots},
              {"visits", Json::array()},
              {"remarks", schedule.remarks},
              {"advice", Json::array()}};
    if (encoding) {
        json["implements_encoding"] = core::encodingName(*encoding);
    }
    if (advice.smallestStepAsPlannedRpm) {
        json["smallest_difference_rpm"] = *advice.smallestStepAsPlannedRpm;
    }
    for (const auto& visit : schedule.visits) {
        json["visits"].push_back(visitJson(plan, visit));
    }
    for (const auto& line : advice.lines) {
        json["advice"].push_back(Json{{"text", line.text}, {"warning", line.isWarning}});
    }
    printJson(json);
    return core::ok();
}

}  // namespace

void addPlan(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<PlanOptions>();
    CLI::App* command = program.add_subcommand(
        "plan",
        "Shows and changes the plan of the filming day; writes the shot list and the slate cards.");
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_option("--implements", options->implements,
                        "add the implements of this table (CSV or TSV with a header) to the plan");
    command->add_option("--hitter", options->hitters, "add a hitter to the plan; may be repeated");
    command->add_option("--pdf", options->shotList, "write the shot list to this PDF");
    command->add_option("--cards", options->cards, "write one slate card a cell to this PDF");
    addLanguage(*command, options->language);
    addOverwrite(*command, options->overwrite);
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runPlan(*options); }; });
}

}  // namespace cli
