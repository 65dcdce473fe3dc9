#include <iostream>

#include "app/cli/command.h"
#include "core/base/guarded.h"
#include "core/project/clip_location.h"

namespace cli {

void addOverwrite(CLI::App& command, bool& overwrite) {
    command.add_flag("--overwrite", overwrite,
                     "write over files that are there and that Turnmark did not write; a project "
                     "and the films at hand always stay");
}

core::Existing existingBy(bool overwrite) {
    return overwrite ? core::Existing::Overwrite : core::Existing::Keep;
}

core::WriteRule writeRule(bool overwrite, const core::project::Store& store) {
    return {existingBy(overwrite), core::project::filesInUse(store.file(), *store.snapshot())};
}

int run(CLI::App& program, int argc, char** argv, const Action& chosen) {
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& problem) {
        const int status = program.exit(problem);
        return status == 0 ? 0 : 2;
    }
    const auto done = core::guarded(chosen);
    if (!done) {
        std::cout.flush();
        std::cerr << done.error().message << '\n';
        return 1;
    }
    return 0;
}

}  // namespace cli
