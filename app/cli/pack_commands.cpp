#include <fmt/format.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "core/base/words.h"
#include "core/pack/pack.h"

namespace cli {
namespace {

using core::Result;
using core::pack::Footage;
using Json = nlohmann::ordered_json;

struct PackOptions {
    std::string from;
    std::string to;
    bool all{};
    bool none{};
    bool shots{};
    bool overwrite{};
    bool json{};
};

Result<void> runPack(const PackOptions& options) {
    const Footage footage = options.all     ? Footage::All
                            : options.none  ? Footage::None
                            : options.shots ? Footage::StretchesOfShots
                                            : Footage::OfKeptShots;
    BOOST_OUTCOME_TRY(packed, core::pack::pack(options.from, options.to, footage, {}, {},
                                               existingBy(options.overwrite)));
    if (options.json) {
        printJson(Json{{"file", options.to},
                       {"bytes", packed.bytes},
                       {"clips", packed.clips},
                       {"remarks", packed.remarks}});
        return core::ok();
    }
    std::cout << fmt::format("packed the project and {} into {}, {:.1f} MB\n",
                             core::counted(packed.clips.size(), "clip", "clips"), options.to,
                             static_cast<double>(packed.bytes) / 1e6);
    for (const auto& remark : packed.remarks) {
        std::cout << remark << '\n';
    }
    return core::ok();
}

Result<void> runUnpack(const PackOptions& options) {
    BOOST_OUTCOME_TRY(unpacked, core::pack::unpack(options.from, options.to));
    if (options.json) {
        Json files = Json::array();
        for (const auto& file : unpacked.files) {
            files.push_back(file.string());
        }
        std::cout << Json{{"project", unpacked.project.string()}, {"files", files}}.dump(
                         2, ' ', false, Json::error_handler_t::replace)
                  << '\n';
        return core::ok();
    }
    std::cout << fmt::format("unpacked {}; the project is {}\n",
                             core::counted(unpacked.files.size(), "file", "files"),
                             unpacked.project.string());
    return core::ok();
}

}  // namespace

void addPack(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<PackOptions>();
    CLI::App* command = program.add_subcommand(
        "pack",
        "Packs a project and its clips into one file (a tar archive): every clip that has a kept "
        "shot, whole.");
    command->add_option("project", options->from, "project file (.turnmark)")->required();
    command->add_option("--to", options->to, "file to write")->required();
    addOverwrite(*command, options->overwrite);
    auto* all = command->add_flag("--all-clips", options->all, "also clips without a kept shot");
    auto* none =
        command
            ->add_flag("--without-footage", options->none,
                       "no clips: the ball pictures kept in the project stand in for them (see "
                       "evidence --gather)")
            ->excludes(all);
    command
        ->add_flag("--shots", options->shots,
                   "of each clip only the stretches of shots that are kept or to be read; frames "
                   "and times stay as they are")
        ->excludes(all)
        ->excludes(none);
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runPack(*options); }; });
}

void addUnpack(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<PackOptions>();
    CLI::App* command = program.add_subcommand(
        "unpack", "Unpacks an archive and checks every file; never overwrites.");
    command->add_option("file", options->from, "packed project")->required();
    command->add_option("--to", options->to, "folder, made when it is not there")->required();
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runUnpack(*options); }; });
}

}  // namespace cli
