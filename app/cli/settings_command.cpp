#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "app/cli/command.h"
#include "app/cli/credits_options.h"
#include "core/findings/settings.h"
#include "core/intake/planned_cells.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::Result;
using Json = nlohmann::ordered_json;

/// Absent: left as it is; empty: none.
struct SettingsOptions {
    std::string project;
    std::optional<std::string> step;
    std::optional<std::string> bands;
    std::optional<std::string> control;
    CreditsOptions credits;
    bool json{};
};

bool changesAnything(const SettingsOptions& options) {
    return options.step || options.bands || options.control || options.credits.sayAnything();
}

std::string controlOf(const core::plan::Plan& plan) {
    return plan.control ? core::plan::implementLabel(plan, *plan.control) : std::string{};
}

Result<core::plan::Plan> withControl(core::plan::Plan plan, const std::string& name) {
    plan.control.reset();
    if (name.empty()) {
        return plan;
    }
    for (std::size_t i = 0; i < plan.implements.size(); ++i) {
        if (core::plan::implementLabel(plan, i) == name) {
            plan.control = i;
            return plan;
        }
    }
    return core::fail(core::ErrorCode::NotFound,
                      fmt::format("The plan has no implement \"{}\". The control is one of "
                                  "those in the plan: add it to the plan first.",
                                  name));
}

/// All is read before anything is kept, so that a mistake in one leaves the others as they were.
Result<void> change(core::project::Store& store, const SettingsOptions& options) {
    BOOST_OUTCOME_TRY(step, core::findings::parseStep(options.step.value_or("")));
    BOOST_OUTCOME_TRY(bands, core::findings::Bands::parse(options.bands.value_or("")));
    BOOST_OUTCOME_TRY(plan, withControl(planOf(*store.snapshot()), options.control.value_or("")));
    if (options.step) {
        BOOST_OUTCOME_TRY(core::findings::setNoticeableStep(store, step));
    }
    if (options.bands) {
        BOOST_OUTCOME_TRY(core::findings::setBands(store, bands));
    }
    if (options.control) {
        BOOST_OUTCOME_TRY(core::intake::keepPlan(store, plan));
    }
    return core::publish::keepCredits(store, options.credits.over(store));
}

Result<void> print(const core::project::Snapshot& snapshot, bool asJson) {
    BOOST_OUTCOME_TRY(step, core::findings::noticeableStep(snapshot));
    BOOST_OUTCOME_TRY(bands, core::findings::bands(snapshot));
    const std::string control = controlOf(planOf(snapshot));
    const core::publish::Credits credits = core::publish::creditsOf(snapshot);
    if (asJson) {
        Json json{{"noticeable_step_rpm", step ? Json(step->rpm) : Json()},
                  {"bands", bands.text()},
                  {"control", control.empty() ? Json() : Json(control)},
                  {"author", credits.author.empty() ? Json() : Json(credits.author)},
                  {"licence", credits.licence.empty() ? Json() : Json(credits.licence)},
                  {"cite_as", credits.citeAs.empty() ? Json() : Json(credits.citeAs)}};
        printJson(json);
        return core::ok();
    }
    std::cout << "Noticeable step: " << (step ? fmt::format("{} rpm", step->rpm) : "none") << '\n'
              << "Bands: " << (bands.isEmpty() ? "none" : bands.text()) << '\n'
              << "Control: " << (control.empty() ? "none" : control) << '\n'
              << "Author: " << (credits.author.empty() ? "none" : credits.author) << '\n'
              << "Licence: " << (credits.licence.empty() ? "none" : credits.licence) << '\n'
              << "Cite as: " << (credits.citeAs.empty() ? "none" : credits.citeAs) << '\n';
    return core::ok();
}

Result<void> runSettings(const SettingsOptions& options) {
    if (!changesAnything(options)) {
        BOOST_OUTCOME_TRY(store, core::project::Store::openToRead(options.project));
        return print(*store->snapshot(), options.json);
    }
    BOOST_OUTCOME_TRY(store, core::project::Store::open(options.project));
    BOOST_OUTCOME_TRY(change(*store, options));
    return print(*store->snapshot(), options.json);
}

}  // namespace

void addSettings(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<SettingsOptions>();
    CLI::App* command =
        program.add_subcommand("settings",
                               "Sets what the findings rest on and what is said when publishing; "
                               "without an option, shows it. \"\" removes a setting.");
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_option("--step", options->step, "noticeable step, rpm");
    command->add_option("--bands", options->bands,
                        "names and edges in turn, lowest first: \"low 1200 medium 1500 high\"");
    command->add_option("--control", options->control,
                        "implement of the plan that is repeated at start, middle and end");
    addCredits(*command, options->credits);
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runSettings(*options); }; });
}

}  // namespace cli
