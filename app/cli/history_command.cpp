#include <fmt/format.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "core/project/store.h"
#include "core/report/history_table.h"

namespace cli {
namespace {

using core::Result;
using core::project::HistoryEntry;
using Json = nlohmann::ordered_json;

struct HistoryOptions {
    std::string project;
    std::string shot;
    std::string csv;
    bool overwrite{};
    bool json{};
};

Json linesJson(const std::vector<HistoryEntry>& lines) {
    Json list = Json::array();
    for (const auto& line : lines) {
        list.push_back({{"at", line.at}, {"reader", line.reader}, {"what", line.what}});
    }
    return list;
}

Result<std::vector<HistoryEntry>> linesOf(const core::project::Store& store,
                                          const std::string& shot) {
    if (shot.empty()) {
        return store.history();
    }
    BOOST_OUTCOME_TRY(id, core::report::shotNamed(*store.snapshot(), shot));
    return store.historyOf(id);
}

Result<void> runHistory(const HistoryOptions& options) {
    BOOST_OUTCOME_TRY(store, core::project::Store::openToRead(options.project));
    BOOST_OUTCOME_TRY(lines, linesOf(*store, options.shot));
    if (!options.csv.empty()) {
        const auto table = core::report::historyTable(lines, *store->snapshot());
        BOOST_OUTCOME_TRY(core::writeFile(options.csv, core::report::csvOf(table),
                                          writeRule(options.overwrite, *store)));
    }
    if (options.json) {
        printJson(Json{{"history", linesJson(lines)}});
    } else if (options.csv.empty()) {
        for (const auto& line : lines) {
            std::cout << fmt::format("{}  {}  {}\n", line.at,
                                     line.reader.empty() ? "not named" : line.reader, line.what);
        }
    } else {
        std::cout << "wrote " << options.csv << '\n';
    }
    return core::ok();
}

}  // namespace

void addHistory(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<HistoryOptions>();
    CLI::App* command =
        program.add_subcommand("history", "Lists who did what and when, oldest first.");
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_option("--shot", options->shot,
                        "lines about one shot, as \"shot 3 of clip b.mp4\"");
    command->add_option("--csv", options->csv, "write the lines there as a table");
    addOverwrite(*command, options->overwrite);
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runHistory(*options); }; });
}

}  // namespace cli
