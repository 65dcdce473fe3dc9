#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "core/demo/demo_project.h"

namespace cli {
namespace {

struct DemoOptions {
    std::string folder;
    bool json{};
};

core::Result<void> makeDemo(const DemoOptions& options) {
    BOOST_OUTCOME_TRY(project, core::demo::unpackDemo(options.folder));
    if (options.json) {
        printJson(nlohmann::ordered_json{{"project", project.string()}});
    } else {
        std::cout << "wrote " << project.string() << " and its clips (invented figures)\n";
    }
    return core::ok();
}

}  // namespace

void addDemo(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<DemoOptions>();
    CLI::App* command = program.add_subcommand(
        "demo", "Writes the demo project and its clips; every figure is invented.");
    command->add_option("folder", options->folder, "folder to write into")->required();
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return makeDemo(*options); }; });
}

}  // namespace cli
