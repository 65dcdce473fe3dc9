#include <fmt/format.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "core/base/words.h"
#include "core/doubts/find_doubts.h"
#include "core/doubts/refutations.h"
#include "core/words/doubts.h"

namespace cli {
namespace {

using core::Result;
using Json = nlohmann::ordered_json;

struct DoubtsOptions {
    std::string project;
    bool isJson{};
    bool settledToo{};
};

std::string nameOf(const core::project::Snapshot& snapshot, const core::doubts::Doubted& item) {
    if (!item.shot) {
        return core::project::cellName(snapshot, item.cell.value_or(core::project::CellId{}));
    }
    const auto* shot = snapshot.shots.find(*item.shot);
    return shot != nullptr ? core::project::shotName(snapshot, *shot) : std::string{"a shot"};
}

Json jsonOf(const core::project::Snapshot& snapshot, const core::doubts::Doubted& item) {
    Json reasons = Json::array();
    for (const auto& doubt : item.doubts) {
        reasons.push_back({{"reason", core::doubts::reasonName(doubt.reason)},
                           {"grade", static_cast<int>(doubt.grade)},
                           {"sentence", core::words::sentence(doubt)}});
    }
    return {{"name", nameOf(snapshot, item)},
            {"shot_id", item.shot ? Json(item.shot->value) : Json()},
            {"cell", item.cell ? Json(core::project::cellName(snapshot, *item.cell)) : Json()},
            {"settled", item.isSettled},
            {"severity", item.severity()},
            {"reasons", reasons}};
}

Result<void> tellDoubts(const DoubtsOptions& options) {
    BOOST_OUTCOME_TRY(store, core::project::Store::openToRead(options.project));
    BOOST_OUTCOME_TRY(material, core::doubts::gatherAll(*store));
    material.snapshot = core::doubts::withRefutations(material);
    BOOST_OUTCOME_TRY(findings, core::findings::findCellsAndHitters(*material.snapshot));
    const auto doubts = core::doubts::findDoubts(material, findings);
    Json items = Json::array();
    for (const auto& item : doubts.items) {
        if (item.isSettled && !options.settledToo) {
            continue;
        }
        if (options.isJson) {
            items.push_back(jsonOf(*material.snapshot, item));
            continue;
        }
        std::cout << nameOf(*material.snapshot, item) << (item.isSettled ? " (settled)" : "")
                  << '\n';
        for (const auto& doubt : item.doubts) {
            std::cout << fmt::format("  {}: {}\n", core::words::reasonWords(doubt.reason),
                                     core::words::sentence(doubt));
        }
    }
    if (options.isJson) {
        printJson(Json{{"kept_shots", doubts.keptShots},
                       {"shots_without_pictures_read", doubts.withoutPictures},
                       {"doubts", items}});
    } else {
        std::cout << fmt::format(
            "{} to check, among {}; the pictures of {} were not read.\n", doubts.unsettled(),
            core::counted(doubts.keptShots, "kept shot", "kept shots"), doubts.withoutPictures);
    }
    return core::ok();
}

}  // namespace

void addDoubts(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<DoubtsOptions>();
    CLI::App* command = program.add_subcommand(
        "doubts",
        "Lists the shots and cells that deserve a second look, worst first, with the reasons.");
    command->add_option("project", options->project, "project file")->required();
    command->add_flag("--settled", options->settledToo, "also those that were looked at and kept");
    command->add_flag("--json", options->isJson, "as JSON");
    command->callback([options, &chosen] { chosen = [options] { return tellDoubts(*options); }; });
}

}  // namespace cli
