#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "app/cli/session_option.h"
#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/tallies.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::Result;
using core::intake::AlikeNames;
using core::intake::Tally;
using core::intake::TallyLayout;
using core::intake::TallyRole;
using core::intake::TallySheet;
using core::intake::TallySource;
using Json = nlohmann::ordered_json;

struct TallyOptions {
    std::string project;
    std::string file;
    std::string session;
    std::optional<double> captureRate;
    std::string hitter;
    std::string counted;
    std::string shape;
    std::vector<std::string> columns;
    std::string comma;
    bool leaveOutBadRows{};
    bool acceptImprobable{};
    bool joinAlike{};
    bool keepApart{};
    bool json{};
};

std::string knownRoles() {
    std::string known;
    for (std::size_t i = 0; i < core::intake::kTallyRoles; ++i) {
        known +=
            (i == 0 ? "" : ", ") + std::string{core::intake::roleName(static_cast<TallyRole>(i))};
    }
    return known;
}

/// "hitter=Player" as the column Player for the hitter.
Result<void> applyColumn(const std::string& text, const TallySheet& sheet, TallyLayout& layout) {
    const auto equals = text.find('=');
    const auto role = equals == std::string::npos ? std::nullopt
                                                  : core::intake::roleNamed(text.substr(0, equals));
    if (!role) {
        return core::fail(core::ErrorCode::InvalidInput,
                          "--column \"" + text + "\": give WHAT=NAME with one of: " + knownRoles() +
                              "; NAME is the column's header or its letter.");
    }
    const std::string name = text.substr(equals + 1);
    const auto column = core::intake::columnLabelled(sheet, name);
    if (!column) {
        std::string known;
        for (std::size_t i = 0; i < sheet.headers.size(); ++i) {
            known += (i == 0 ? "" : ", ") + core::intake::columnLabel(sheet, i);
        }
        return core::fail(core::ErrorCode::InvalidInput,
                          "The table has no column \"" + name + "\". It has: " + known + ".");
    }
    core::intake::assignRole(layout, *column, *role);
    return core::ok();
}

/// Of "frames=Count" where one other column was taken for the counts: said goes before guessed.
void forgetGuessedCount(TallyLayout& layout, const TallyOptions& options) {
    const bool isSaid =
        std::any_of(options.columns.begin(), options.columns.end(), [](const std::string& text) {
            const auto role = core::intake::roleNamed(text.substr(0, text.find('=')));
            return role && core::intake::isCount(*role);
        });
    if (isSaid && core::intake::shapeOf(layout) == core::intake::TallyShape::ShotRows) {
        for (auto& column : layout) {
            column.role = core::intake::isCount(column.role) ? TallyRole::LeaveOut : column.role;
        }
    }
}

Result<TallyLayout> layoutFor(const TallySheet& sheet, const TallyOptions& options) {
    TallyLayout layout = core::intake::proposeLayout(sheet);
    if (!options.shape.empty()) {
        const auto shape = core::intake::shapeNamed(options.shape);
        if (!shape) {
            std::string known;
            for (const auto each : core::intake::kTallyShapes) {
                known += fmt::format("{}{} ({})", known.empty() ? "" : ", ",
                                     core::intake::shapeName(each), core::intake::shapeWords(each));
            }
            return core::fail(core::ErrorCode::InvalidInput,
                              "--shape \"" + options.shape + "\": give one of " + known + ".");
        }
        layout = core::intake::proposeLayout(sheet, *shape);
    }
    forgetGuessedCount(layout, options);
    for (const auto& column : options.columns) {
        BOOST_OUTCOME_TRY(applyColumn(column, sheet, layout));
    }
    return layout;
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

Result<core::CommaMeaning> commaFrom(const std::string& text) {
    if (text.empty()) {
        return core::CommaMeaning::Ask;
    }
    if (text == "decimal") {
        return core::CommaMeaning::Decimal;
    }
    if (text == "thousands") {
        return core::CommaMeaning::Thousands;
    }
    return core::fail(
        core::ErrorCode::InvalidInput,
        "--comma \"" + text + "\": give decimal (1,000 is 1) or thousands (1,000 is 1000).");
}

Result<TallySource> sourceFrom(const TallyOptions& options) {
    TallySource source;
    BOOST_OUTCOME_TRY(habit, habitFrom(options.counted));
    source.habit = habit;
    BOOST_OUTCOME_TRY(comma, commaFrom(options.comma));
    source.comma = comma;
    if (options.captureRate) {
        BOOST_OUTCOME_TRY(stated, core::timebase::captureRateFromDecimal(*options.captureRate));
        source.rate = stated;
    }
    source.hitter = options.hitter;
    source.leaveOutBadRows = options.leaveOutBadRows;
    source.acceptImprobable = options.acceptImprobable;
    source.alike = options.joinAlike   ? AlikeNames::Join
                   : options.keepApart ? AlikeNames::KeepApart
                                       : AlikeNames::Ask;
    return source;
}

/// What holds the tally up, and the options that decide it.
Result<void> checkNothingHoldsUp(const std::string& file, const Tally& tally,
                                 const TallySource& source) {
    std::string text = core::intake::whatHoldsUp(tally, source);
    if (text.empty()) {
        return core::ok();
    }
    if (!tally.faults.empty() && !source.leaveOutBadRows) {
        text += "\nCorrect these rows, or leave them out with --leave-out-bad-rows.";
    }
    if (tally.hasTwoReadings) {
        text += "\nSay what a comma means with --comma decimal or --comma thousands.";
    }
    if (!tally.improbable.empty() && !source.acceptImprobable) {
        text += "\nCorrect these counts, or take them as they are with --accept-improbable.";
    }
    if (!tally.alike.empty()) {
        text +=
            "\nMake one name of names that are alike with --join-alike, or two with "
            "--keep-apart.";
    }
    return core::fail(
        core::ErrorCode::InvalidInput,
        std::filesystem::path{file}.filename().string() + ": nothing was imported.\n" + text);
}

/// Absent when there is none yet.
Result<std::unique_ptr<core::project::Store>> openIfThere(const std::string& file) {
    std::error_code ignored;  // what cannot be looked at cannot be opened either
    return std::filesystem::exists(file, ignored) ? core::project::Store::open(file)
                                                  : std::unique_ptr<core::project::Store>{};
}

/// How the table was read and what each column was taken for, a line each.
std::string howItWasRead(const TallySheet& sheet, const TallyLayout& layout) {
    std::string text = core::intake::describeSheet(sheet, layout) + '\n';
    for (std::size_t i = 0; i < layout.size(); ++i) {
        text += "  " + core::intake::columnLabel(sheet, i) + ": " +
                std::string{core::intake::roleName(layout[i].role)} +
                (layout[i].hitter.empty() ? "" : " of " + layout[i].hitter) + '\n';
    }
    return text;
}

/// Errors: those of readTally(), with how the table was read.
Result<Tally> tallyOf(const TallySheet& sheet, const TallyLayout& layout,
                      const TallySource& source) {
    auto tally = core::intake::readTally(sheet, layout, source);
    if (!tally) {
        return core::fail(tally.error().code,
                          tally.error().message + '\n' + howItWasRead(sheet, layout) +
                              "Say what a column holds with --column, what a row is with --shape.");
    }
    return tally;
}

Json columnsJson(const TallySheet& sheet, const TallyLayout& layout) {
    Json columns = Json::array();
    for (std::size_t i = 0; i < layout.size(); ++i) {
        Json column{{"column", core::columnLetters(i)},
                    {"header", core::intake::columnLabel(sheet, i)},
                    {"holds", core::intake::roleName(layout[i].role)}};
        if (!layout[i].hitter.empty()) {
            column["hitter"] = layout[i].hitter;
        }
        columns.push_back(std::move(column));
    }
    return columns;
}

Json remarksJson(const std::vector<core::intake::TallyRemark>& remarks) {
    Json list = Json::array();
    for (const auto& remark : remarks) {
        list.push_back(Json{{"row", remark.row}, {"message", remark.message}});
    }
    return list;
}

/// A table that was read, and what became of it.
struct Done {
    TallySheet sheet;
    TallyLayout layout;
    TallySource source;
    Tally tally;
    core::intake::ImportedTally imported;
};

Json jsonOf(const Done& done) {
    return {{"rows", done.tally.shots.size()},
            {"added", done.imported.added},
            {"already_there", done.imported.alreadyThere},
            {"counting_habit", core::spin::habitName(done.source.habit)},
            {"encoding", core::encodingName(done.sheet.encoding)},
            {"separator", core::separatorName(done.sheet.separator)},
            {"shape", core::intake::shapeName(core::intake::shapeOf(done.layout))},
            {"columns", columnsJson(done.sheet, done.layout)},
            {"left_out_rows", remarksJson(done.tally.faults)},
            {"accepted_improbable", remarksJson(done.tally.improbable)},
            {"remarks", done.tally.remarks}};
}

void printText(const Done& done) {
    std::cout << howItWasRead(done.sheet, done.layout);
    for (const auto& remark : done.tally.remarks) {
        std::cout << remark << '\n';
    }
    for (const auto& fault : done.tally.faults) {
        std::cout << "Left out: " << fault.message << '\n';
    }
    for (const auto& odd : done.tally.improbable) {
        std::cout << "Accepted: " << odd.message << '\n';
    }
    std::cout << core::counted(done.imported.added, "shot", "shots") << " added, "
              << done.imported.alreadyThere << " were there already\n";
}

/// day: without an id when it is to be added.
Result<void> importInto(core::project::Store& store, core::project::Session day,
                        const std::string& file, Done& done) {
    return store.together(core::toKeep("Imported frame counts."), [&]() -> Result<void> {
        if (day.id == core::project::SessionId{}) {
            BOOST_OUTCOME_TRY(added, store.addSession(day));
            day.id = added;
        }
        BOOST_OUTCOME_TRY(imported,
                          core::intake::importTally(store, day.id, file, done.tally, done.source));
        done.imported = imported;
        return core::ok();
    });
}

Result<void> runTallies(const TallyOptions& options) {
    Done done;
    BOOST_OUTCOME_TRY(source, sourceFrom(options));
    done.source = source;
    BOOST_OUTCOME_TRY(sheet, core::intake::readTallySheet(options.file));
    done.sheet = std::move(sheet);
    BOOST_OUTCOME_TRY(layout, layoutFor(done.sheet, options));
    done.layout = std::move(layout);
    BOOST_OUTCOME_TRY(store, openIfThere(options.project));
    core::project::Session day;
    day.name = options.session.empty() ? "Frame counts" : options.session;
    if (store) {
        done.source.project = store->snapshot();
        if (const auto known = sessionNamed(*done.source.project, options.session)) {
            day = *done.source.project->sessions.find(known.value());
        }
    }
    done.source.marking = day.marking;
    BOOST_OUTCOME_TRY(tally, tallyOf(done.sheet, done.layout, done.source));
    done.tally = std::move(tally);
    BOOST_OUTCOME_TRY(checkNothingHoldsUp(options.file, done.tally, done.source));
    if (!store) {
        BOOST_OUTCOME_TRY(made, core::project::Store::create(options.project));
        store = std::move(made);
    }
    BOOST_OUTCOME_TRY(importInto(*store, day, options.file, done));
    if (options.json) {
        printJson(jsonOf(done));
    } else {
        printText(done);
    }
    return core::ok();
}

void addDecisions(CLI::App& command, TallyOptions& options) {
    command.add_option("--comma", options.comma,
                       "what a comma before three digits means: decimal (1,000 is 1) or thousands "
                       "(1,000 is 1000)");
    command.add_flag("--leave-out-bad-rows", options.leaveOutBadRows,
                     "leave out rows that cannot be read and take the others");
    command.add_flag("--accept-improbable", options.acceptImprobable,
                     "take counts as they are that can hardly be right");
    auto* join = command.add_flag("--join-alike", options.joinAlike,
                                  "names that differ only in case or spaces are one name");
    command
        .add_flag("--keep-apart", options.keepApart,
                  "names that differ only in case or spaces are different names")
        ->excludes(join);
}

}  // namespace

void addTallies(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<TallyOptions>();
    CLI::App* command = program.add_subcommand(
        "tallies",
        "Takes frame counts made elsewhere (CSV) into a project, as shots without a clip.");
    command
        ->add_option("project", options->project,
                     "project file (.turnmark), made when there is none")
        ->required();
    command->add_option("file", options->file, "table with a header (CSV or TSV)")->required();
    command->add_option("--session", options->session,
                        "name of the filming day, made when there is none; else the last one");
    command->add_option("--capture-rate", options->captureRate,
                        "frames per second, for rows that do not say it");
    command->add_option("--hitter", options->hitter, "who hit, for rows that do not say it");
    command->add_option("--counted", options->counted,
                        "how the frames were counted: nearest (start exact, nearest return), both "
                        "(both ends rounded), after (first frame at or past the turn), or unknown, "
                        "which is the least sure");
    command->add_option("--shape", options->shape,
                        "what a row is, where it is not recognised: shots (one row for each "
                        "shot), cells (one row for each implement and hitter, one column for each "
                        "shot) or hitters (one row for each implement, the hitters side by side)");
    command->add_option("--column", options->columns,
                        "what a column holds, as \"hitter=Player\" or, by its letter, "
                        "\"frames=C\"; may be repeated. One of: " +
                            knownRoles());
    addDecisions(*command, *options);
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runTallies(*options); }; });
}

}  // namespace cli
