#include <fmt/chrono.h>
#include <fmt/format.h>

#include <ctime>
#include <iostream>
#include <memory>
#include <thread>

#include "app/cli/command.h"
#include "core/intake/intake_words.h"
#include "core/intake/session_for.h"
#include "core/intake/take_in.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::Result;
using core::intake::TakeInProgress;

struct IntakeOptions {
    std::string project;
    std::vector<std::string> sources;
    std::string session;
    core::intake::TakeInOptions steps;
};

Result<std::unique_ptr<core::project::Store>> openOrCreate(const std::string& file) {
    if (std::filesystem::exists(file)) {
        return core::project::Store::open(file);
    }
    return core::project::Store::create(file);
}

void tell(const TakeInProgress& progress) {
    std::string left;
    if (progress.secondsLeft && progress.done < progress.of) {
        left = ", " + core::intake::durationWords(*progress.secondsLeft) + " left";
    }
    std::cerr << fmt::format("{} {} of {} ({:.0f} %{}): {}\n",
                             core::intake::phaseWords(progress.phase), progress.done, progress.of,
                             100.0 * progress.share, left, progress.what);
}

Result<void> runIntake(const IntakeOptions& options) {
    BOOST_OUTCOME_TRY(store, openOrCreate(options.project));
    const auto today = fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
    BOOST_OUTCOME_TRY(session, core::intake::sessionFor(*store, options.session, today));
    core::intake::TakeIn work{
        *store, session, {options.sources.begin(), options.sources.end()}, options.steps};
    const auto report = core::intake::takeIn(work, std::thread::hardware_concurrency(), {}, tell);
    for (const auto& line : core::intake::reportLines(report, options.steps)) {
        std::cout << line << '\n';
    }
    if (report.refused.empty()) {
        return core::ok();
    }
    std::string refused = "Not done:";
    for (const auto& each : report.refused) {
        refused += "\n" + each.what + ": " + each.reason;
    }
    return core::fail(core::ErrorCode::Unreadable, refused);
}

}  // namespace

void addIntake(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<IntakeOptions>();
    CLI::App* command = program.add_subcommand(
        "intake",
        "Takes clips and folders of clips into a project. Stopped and started again it goes on.");
    command->add_option("project", options->project, "project file (.turnmark); made when absent")
        ->required();
    command->add_option("sources", options->sources, "files and folders")->required();
    command->add_option("--session", options->session,
                        "name of the filming day, added when absent; else the last one");
    command->add_flag("--find-shots", options->steps.findShots,
                      "find the shots of clips that were not searched before");
    command->add_flag("--cards", options->steps.readCards,
                      "assign the shots by the slate cards in the clips");
    command->add_flag("--read", options->steps.readPictures,
                      "read the shots that are to read from their pictures");
    command->callback([options, &chosen] { chosen = [options] { return runIntake(*options); }; });
}

}  // namespace cli
