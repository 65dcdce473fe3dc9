#include <fmt/chrono.h>
#include <fmt/format.h>

#include <cmath>
#include <ctime>
#include <iostream>
#include <memory>
#include <thread>

#include "app/cli/command.h"
#include "app/cli/session_option.h"
#include "core/intake/take_in.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::Result;
using core::intake::TakeInProgress;
using core::intake::TakeInReport;

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

/// The session of a name, which is added when there is none; without a name the last one.
Result<core::project::SessionId> sessionFor(core::project::Store& store, const std::string& name) {
    const auto snapshot = store.snapshot();
    if (const auto known = sessionNamed(*snapshot, name)) {
        return known.value();
    }
    core::project::Session session;
    session.date = fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
    session.name = name.empty() ? "Session of " + session.date : name;
    return store.addSession(session);
}

const char* phaseName(TakeInProgress::Phase phase) {
    switch (phase) {
        case TakeInProgress::Phase::Add:
            return "adding clips";
        case TakeInProgress::Phase::FindShots:
            return "finding shots";
        case TakeInProgress::Phase::ReadCards:
            return "reading slate cards";
        case TakeInProgress::Phase::ReadPictures:
            return "reading shots";
    }
    return "";
}

void tell(const TakeInProgress& progress) {
    const double kMinute = 60.0;
    std::string left;
    if (progress.secondsLeft && progress.done < progress.of) {
        left =
            fmt::format(", {:.0f} min {:02.0f} s left", std::floor(*progress.secondsLeft / kMinute),
                        std::floor(std::fmod(*progress.secondsLeft, kMinute)));
    }
    std::cerr << fmt::format("{} {} of {} ({:.0f} %{}): {}\n", phaseName(progress.phase),
                             progress.done, progress.of, 100.0 * progress.share, left,
                             progress.what);
}

void printReport(const TakeInReport& report, const core::intake::TakeInOptions& steps) {
    std::cout << report.added << " clips added, " << report.alreadyThere << " there already, "
              << report.passedOver << " other files passed over\n";
    if (steps.findShots) {
        std::cout << report.searched << " clips searched, " << report.shotsFound
                  << " shots found\n";
    }
    if (report.cards) {
        std::cout << report.cards->assigned << " shots assigned by slate cards, "
                  << report.cards->leftOpen << " left open\n";
        for (const auto& remark : report.cards->remarks) {
            std::cout << remark << '\n';
        }
    }
    if (steps.readPictures) {
        std::cout << report.shotsRead << " shots read from their pictures, " << report.shotsUnread
                  << " cannot be read so\n";
    }
}

Result<void> runIntake(const IntakeOptions& options) {
    BOOST_OUTCOME_TRY(store, openOrCreate(options.project));
    BOOST_OUTCOME_TRY(session, sessionFor(*store, options.session));
    core::intake::TakeIn work{
        *store, session, {options.sources.begin(), options.sources.end()}, options.steps};
    const auto report = core::intake::takeIn(work, std::thread::hardware_concurrency(), {}, tell);
    printReport(report, options.steps);
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
                        "name of the session, added when absent; else the last one");
    command->add_flag("--find-shots", options->steps.findShots,
                      "find the shots of clips that were not searched before");
    command->add_flag("--cards", options->steps.readCards,
                      "say whose the shots are by the slate cards in the clips");
    command->add_flag("--read", options->steps.readPictures,
                      "read the open shots from their pictures, for the review");
    command->callback([options, &chosen] { chosen = [options] { return runIntake(*options); }; });
}

}  // namespace cli
