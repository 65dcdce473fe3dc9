#include <filesystem>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "app/cli/session_option.h"
#include "core/intake/tallies.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::Result;
using core::intake::TallyColumn;
using Json = nlohmann::ordered_json;

struct TallyOptions {
    std::string project;
    std::string file;
    std::string session;
    std::optional<double> captureRate;
    std::string counted;
    std::vector<std::string> columns;
    bool json{};
};

/// "hitter=Player" as the column Player for the hitter.
Result<void> applyColumn(const std::string& text, const core::TextTable& table,
                         core::intake::TallyMapping& mapping) {
    const auto equals = text.find('=');
    const std::string what = text.substr(0, equals);
    for (std::size_t i = 0; i < core::intake::kTallyColumns; ++i) {
        const auto column = static_cast<TallyColumn>(i);
        if (equals == std::string::npos || what != core::intake::tallyColumnName(column)) {
            continue;
        }
        const auto position = table.column(text.substr(equals + 1));
        if (!position) {
            return core::fail(core::ErrorCode::InvalidInput,
                              "The table has no column \"" + text.substr(equals + 1) + "\".");
        }
        mapping.set(column, position);
        return core::ok();
    }
    std::string known;
    for (std::size_t i = 0; i < core::intake::kTallyColumns; ++i) {
        known += (i == 0 ? "" : ", ") +
                 std::string{core::intake::tallyColumnName(static_cast<TallyColumn>(i))};
    }
    return core::fail(core::ErrorCode::InvalidInput,
                      "--column \"" + text + "\": give WHAT=NAME with one of: " + known + ".");
}

Result<core::spin::CountingHabit> habitFrom(const std::string& text) {
    using core::spin::CountingHabit;
    if (text.empty()) {
        return CountingHabit::Unknown;
    }
    if (const auto habit = core::spin::habitNamed(text)) {
        return *habit;
    }
    return core::fail(
        core::ErrorCode::InvalidInput,
        "--counted \"" + text +
            "\": give nearest (start exact, nearest return), both (both ends rounded), after "
            "(first frame at or past the turn) or unknown.");
}

/// The project, made when there is none.
Result<std::unique_ptr<core::project::Store>> openOrCreate(const std::string& file) {
    std::error_code ignored;  // what cannot be looked at cannot be opened either
    return std::filesystem::exists(file, ignored) ? core::project::Store::open(file)
                                                  : core::project::Store::create(file);
}

Result<core::project::SessionId> sessionForTally(core::project::Store& store,
                                                 const std::string& name) {
    const auto snapshot = store.snapshot();
    if (auto known = sessionNamed(*snapshot, name);
        known || (name.empty() && !snapshot->sessions.isEmpty())) {
        return known;
    }
    core::project::Session session;
    session.name = name.empty() ? "Tallies" : name;
    return store.addSession(session);
}

Result<void> runTallies(const TallyOptions& options) {
    core::intake::TallySource source;
    BOOST_OUTCOME_TRY(habit, habitFrom(options.counted));
    source.habit = habit;
    BOOST_OUTCOME_TRY(table, core::intake::readTableFile(options.file));
    auto mapping = core::intake::proposeMapping(table);
    for (const auto& column : options.columns) {
        BOOST_OUTCOME_TRY(applyColumn(column, table, mapping));
    }
    if (options.captureRate) {
        BOOST_OUTCOME_TRY(stated, core::timebase::captureRateFromDecimal(*options.captureRate));
        source.rate = stated;
    }
    BOOST_OUTCOME_TRY(tally, core::intake::readTally(table, mapping, source.rate));
    BOOST_OUTCOME_TRY(store, openOrCreate(options.project));
    core::intake::ImportedTally imported;
    BOOST_OUTCOME_TRY(store->together("Imported a tally.", [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(session, sessionForTally(*store, options.session));
        BOOST_OUTCOME_TRY(
            done, core::intake::importTally(*store, session, options.file, table, mapping, source));
        imported = done;
        return core::ok();
    }));
    if (options.json) {
        printJson(Json{{"rows", tally.shots.size()},
                       {"added", imported.added},
                       {"already_there", imported.alreadyThere},
                       {"counting_habit", core::spin::habitName(source.habit)}});
    } else {
        std::cout << imported.added << " shots added, " << imported.alreadyThere
                  << " were there already\n";
    }
    return core::ok();
}

}  // namespace

void addTallies(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<TallyOptions>();
    CLI::App* command = program.add_subcommand(
        "tallies",
        "Takes frame counts made elsewhere (CSV) into a project, as shots without film.");
    command
        ->add_option("project", options->project,
                     "project file (.turnmark), made when there is none")
        ->required();
    command->add_option("file", options->file, "table with a header row (CSV or TSV)")->required();
    command->add_option("--session", options->session,
                        "name of the session, made when there is none; else the last one");
    command->add_option("--capture-rate", options->captureRate,
                        "frames per second, for rows that do not say it");
    command->add_option("--counted", options->counted,
                        "how the frames were counted: nearest (start exact, nearest return), both "
                        "(both ends rounded), after (first frame at or past the turn), or unknown, "
                        "which is the least sure");
    command->add_option("--column", options->columns,
                        "what a column holds, as \"hitter=Player\"; may be repeated");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runTallies(*options); }; });
}

}  // namespace cli
