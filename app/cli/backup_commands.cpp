#include <fmt/format.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "core/base/words.h"
#include "core/project/backups.h"
#include "core/project/rescue.h"

namespace cli {
namespace {

using core::Result;
using core::project::BackupPreview;
using Json = nlohmann::ordered_json;

struct BackupOptions {
    std::string project;
    std::string from;
    bool now{};
    bool json{};
};

Json previewJson(const BackupPreview& preview) {
    Json json{{"file", preview.backup.file.string()},
              {"made_at", preview.backup.madeAt},
              {"bytes", preview.backup.bytes}};
    if (!preview.trouble.empty()) {
        json["trouble"] = preview.trouble;
        return json;
    }
    json["shots"] = preview.shots;
    json["kept"] = preview.kept;
    json["readings"] = preview.readings;
    json["last_line"] = preview.lastLine ? Json(preview.lastLine->what) : Json();
    return json;
}

void print(const BackupPreview& preview) {
    std::cout << fmt::format("{}  {:.1f} kB  ", preview.backup.madeAt,
                             static_cast<double>(preview.backup.bytes) / 1000.0);
    if (!preview.trouble.empty()) {
        std::cout << preview.trouble << '\n';
    } else {
        std::cout << fmt::format("{}, {} kept, {}; last change: {}\n",
                                 core::counted(preview.shots, "shot", "shots"), preview.kept,
                                 core::counted(preview.readings, "reading", "readings"),
                                 preview.lastLine ? preview.lastLine->what : "nothing");
    }
    std::cout << "    " << preview.backup.file.string() << '\n';
}

Result<void> listBackups(const BackupOptions& options) {
    if (options.now) {
        BOOST_OUTCOME_TRY(core::project::makeBackup(options.project));
    }
    Json list = Json::array();
    for (const auto& backup : core::project::backupsOf(options.project)) {
        const BackupPreview preview = core::project::previewOf(backup);
        if (options.json) {
            list.push_back(previewJson(preview));
        } else {
            print(preview);
        }
    }
    if (options.json) {
        printJson(Json{{"copies", list}});
    } else if (core::project::backupsOf(options.project).empty()) {
        std::cout << fmt::format("no copies in {}; --now makes one\n",
                                 core::project::backupFolder(options.project).string());
    }
    return core::ok();
}

Result<void> restore(const BackupOptions& options) {
    BOOST_OUTCOME_TRY(aside, core::project::restoreBackup(options.project, options.from));
    if (options.json) {
        printJson(Json{{"restored", options.project},
                       {"from", options.from},
                       {"before", aside.empty() ? Json() : Json(aside.string())}});
        return core::ok();
    }
    std::cout << fmt::format("restored {} from {}\n", options.project, options.from);
    if (!aside.empty()) {
        std::cout << "as it was before: " << aside.string() << '\n';
    }
    return core::ok();
}

struct RescueOptions {
    std::string project;
    std::string to;
    bool json{};
};

core::Result<void> rescue(const RescueOptions& options) {
    BOOST_OUTCOME_TRY(saved, core::project::rescueProject(options.project, options.to));
    if (options.json) {
        Json kinds = Json::array();
        for (const auto& kind : saved.kinds) {
            kinds.push_back({{"kind", kind.name}, {"saved", kind.saved}, {"lost", kind.lost}});
        }
        printJson(Json{{"rescued", options.project}, {"to", options.to}, {"kinds", kinds}});
        return core::ok();
    }
    std::cout << fmt::format("saved what can be read of {} in {}\n", options.project, options.to);
    for (const auto& kind : saved.kinds) {
        std::cout << fmt::format("  {:<16} {} saved\n", kind.name, kind.saved);
        for (const auto& lost : kind.lost) {
            std::cout << "    lost: " << lost << '\n';
        }
    }
    std::cout << (saved.lostCount() == 0 ? "nothing is lost except the steps to undo\n"
                                         : "the steps to undo were not taken along\n");
    return core::ok();
}

}  // namespace

void addRescue(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<RescueOptions>();
    CLI::App* command = program.add_subcommand(
        "rescue",
        "Saves what can be read of a damaged project into a new one, and lists what "
        "cannot. A copy, where there is one, is better: see `copies`.");
    command->add_option("project", options->project, "project file (.turnmark), stays as it is")
        ->required();
    command->add_option("--to", options->to, "project file to make")->required();
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return rescue(*options); }; });
}

void addBackups(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<BackupOptions>();
    CLI::App* command = program.add_subcommand(
        "copies", "Lists the copies of a project that were made while you worked, newest first.");
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_flag("--now", options->now, "first make one, if something has changed");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return listBackups(*options); }; });
}

void addRestore(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<BackupOptions>();
    CLI::App* command = program.add_subcommand(
        "restore", "Restores a copy; the present project is kept under another name.");
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_option("--from", options->from, "the copy, as `copies` lists it")->required();
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return restore(*options); }; });
}

}  // namespace cli
