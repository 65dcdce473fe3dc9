#include <fmt/format.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "core/base/words.h"
#include "core/doubts/refutations.h"
#include "core/evidence/kept_faults.h"
#include "core/intake/find_clip.h"
#include "core/project/store.h"
#include "core/publish/export.h"
#include "core/report/export.h"
#include "core/report/summary.h"

namespace cli {
namespace {

using core::Result;
using Json = nlohmann::ordered_json;

struct ProjectOptions {
    std::string project;
    std::string folder;
    bool overwrite{};
    bool json{};
};

Result<void> printSummary(const ProjectOptions& options) {
    BOOST_OUTCOME_TRY(store, core::project::Store::openToRead(options.project));
    BOOST_OUTCOME_TRY(snapshot, core::doubts::withRefutations(*store));
    BOOST_OUTCOME_TRY(summary, core::report::summarise(*snapshot));
    std::cout << (options.json ? core::report::summaryJson(summary)
                               : core::report::summaryText(summary));
    return core::ok();
}

Result<void> exportTo(const ProjectOptions& options) {
    BOOST_OUTCOME_TRY(store, core::project::Store::openToRead(options.project));
    BOOST_OUTCOME_TRY(snapshot, core::doubts::withRefutations(*store));
    BOOST_OUTCOME_TRY(done, core::publish::exportProject(*snapshot, options.folder,
                                                         writeRule(options.overwrite, *store)));
    Json written = Json::array();
    for (const auto& file : done.files) {
        written.push_back(file.string());
        if (!options.json) {
            std::cout << "wrote " << file.string() << '\n';
        }
    }
    if (options.json) {
        printJson(Json{{"files", written}});
    }
    return core::ok();
}

Result<void> check(const ProjectOptions& options) {
    BOOST_OUTCOME_TRY(store, core::project::Store::openToRead(options.project));
    BOOST_OUTCOME_TRY(faults, store->faults());
    BOOST_OUTCOME_TRY(keptFaults, core::evidence::faultsOfKept(*store));
    faults.insert(faults.end(), keptFaults.begin(), keptFaults.end());
    const auto missing = core::intake::missingClips(*store->snapshot(), store->file());
    if (options.json) {
        printJson(Json{{"project", options.project},
                       {"faults", faults},
                       {"missing_clips", missing},
                       {"sound", faults.empty() && missing.empty()}});
    } else {
        const auto snapshot = store->snapshot();
        std::cout << fmt::format("{}: {}, {}, {}\n", options.project,
                                 core::counted(snapshot->clips.size(), "clip", "clips"),
                                 core::counted(snapshot->shots.size(), "shot", "shots"),
                                 core::counted(snapshot->readings.size(), "reading", "readings"));
    }
    std::string report;
    for (const auto& fault : faults) {
        report += fault + '\n';
    }
    for (const auto& clip : missing) {
        report += "Clip " + clip +
                  " is neither at its place nor anywhere under the project's folder. Put it back, "
                  "or show "
                  "where it is in the Footage screen.\n";
    }
    if (!report.empty()) {
        report.pop_back();
        return core::fail(core::ErrorCode::Damaged, report);
    }
    if (!options.json) {
        std::cout << "sound\n";
    }
    return core::ok();
}

CLI::App* addProjectCommand(CLI::App& program, const char* name, const char* help,
                            const std::shared_ptr<ProjectOptions>& options) {
    CLI::App* command = program.add_subcommand(name, help);
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_flag("--json", options->json, "answer as JSON");
    return command;
}

}  // namespace

void addSummary(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<ProjectOptions>();
    addProjectCommand(program, "summary", "Shows the spin per implement and hitter.", options)
        ->callback([options, &chosen] { chosen = [options] { return printSummary(*options); }; });
}

void addExport(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<ProjectOptions>();
    CLI::App* command =
        addProjectCommand(program, "export", "Writes shots and summary as CSV and JSON.", options);
    command->add_option("--to", options->folder, "folder to write into")->required();
    addOverwrite(*command, options->overwrite);
    command->callback([options, &chosen] { chosen = [options] { return exportTo(*options); }; });
}

void addCheck(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<ProjectOptions>();
    addProjectCommand(program, "check",
                      "Checks whether the project file is sound and its clips are there.", options)
        ->callback([options, &chosen] { chosen = [options] { return check(*options); }; });
}

}  // namespace cli
