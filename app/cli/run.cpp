#include <fmt/format.h>

#include <iostream>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "core/base/guarded.h"
#include "core/base/number.h"
#include "core/project/clip_location.h"
#include "core/project/store.h"

namespace cli {

void addOverwrite(CLI::App& command, bool& overwrite) {
    command.add_flag("--overwrite", overwrite,
                     "overwrite files that Turnmark did not write; a project and its clips are "
                     "never overwritten");
}

core::Existing existingBy(bool overwrite) {
    return overwrite ? core::Existing::Overwrite : core::Existing::Keep;
}

core::WriteRule writeRule(bool overwrite, const core::project::Store& store) {
    return {existingBy(overwrite), core::project::filesInUse(store.file(), *store.snapshot())};
}

std::string jsonText(const nlohmann::ordered_json& answer) {
    using Handler = nlohmann::ordered_json::error_handler_t;
    return answer.dump(2, ' ', false, Handler::replace) + "\n";
}

void printJson(const nlohmann::ordered_json& answer) {
    std::cout << jsonText(answer);
}

namespace {

/// Numbers of all commands are read by core::numberFrom(), where CLI11 would say only "invalid".
void readNumbersOurWay(CLI::App& program) {
    const CLI::Validator number{[](std::string& text) {
                                    const auto read = core::numberFrom(text);
                                    text = read ? fmt::format("{}", read.value()) : text;
                                    return read ? std::string{} : read.error().message;
                                },
                                ""};
    for (CLI::App* command : program.get_subcommands({})) {
        for (CLI::Option* option : command->get_options()) {
            if (option->get_type_name().starts_with("FLOAT")) {
                option->transform(number);
            }
        }
    }
}

/// What was printed and did not get there must not look like an answer.
int statusOfOutput() {
    if (std::cout.flush()) {
        return 0;
    }
    std::cerr
        << "What was to be printed could not be written in full: the disk is full, or whoever "
           "read it has stopped. What was to be done is done.\n";
    return 1;
}

}  // namespace

int run(CLI::App& program, int argc, char** argv, const Action& chosen) {
    readNumbersOurWay(program);
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& problem) {
        const int status = program.exit(problem);
        return status == 0 ? statusOfOutput() : 2;
    }
    const auto done = core::guarded(chosen);
    if (!done) {
        std::cout.flush();
        std::cerr << done.error().message << '\n';
        return 1;
    }
    return statusOfOutput();
}

}  // namespace cli
