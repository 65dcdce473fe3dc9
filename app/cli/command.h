#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "core/base/files.h"

namespace core::project {
class Store;
}

namespace cli {

/// What a command does when its options are parsed: prints its answer on standard output.
using Action = std::function<core::Result<void>()>;

/// Adds one command with its options to the program. Each sets `chosen` when it is given.
void addRate(CLI::App& program, Action& chosen);
void addInspect(CLI::App& program, Action& chosen);
void addRead(CLI::App& program, Action& chosen);
void addTestClip(CLI::App& program, Action& chosen);
void addAccuracy(CLI::App& program, Action& chosen);
void addDemo(CLI::App& program, Action& chosen);
void addSummary(CLI::App& program, Action& chosen);
void addExport(CLI::App& program, Action& chosen);
void addPublish(CLI::App& program, Action& chosen);
void addPlan(CLI::App& program, Action& chosen);
void addSettings(CLI::App& program, Action& chosen);
void addAssign(CLI::App& program, Action& chosen);
void addIntake(CLI::App& program, Action& chosen);
void addTallies(CLI::App& program, Action& chosen);
void addDoubts(CLI::App& program, Action& chosen);
void addBackups(CLI::App& program, Action& chosen);
void addRestore(CLI::App& program, Action& chosen);
void addRescue(CLI::App& program, Action& chosen);
void addPack(CLI::App& program, Action& chosen);
void addUnpack(CLI::App& program, Action& chosen);
void addHistory(CLI::App& program, Action& chosen);
void addEvidence(CLI::App& program, Action& chosen);
void addClock(CLI::App& program, Action& chosen);
void addCheck(CLI::App& program, Action& chosen);
void addGuide(CLI::App& program, Action& chosen);

/// The flag --overwrite of every command that writes files.
void addOverwrite(CLI::App& command, bool& overwrite);
/// What that flag says of files that are there.
[[nodiscard]] core::Existing existingBy(bool overwrite);
/// The same where a project is at hand: it and its films stay.
[[nodiscard]] core::WriteRule writeRule(bool overwrite, const core::project::Store& store);

/// An answer as JSON, indented, with a newline at the end; bytes that are no UTF-8 are replaced.
[[nodiscard]] std::string jsonText(const nlohmann::ordered_json& answer);
/// The same on standard output.
void printJson(const nlohmann::ordered_json& answer);

/// Parses and runs; a failure, thrown ones too, goes to standard error with exit status 1, wrong
/// options with 2.
int run(CLI::App& program, int argc, char** argv, const Action& chosen);

}  // namespace cli
