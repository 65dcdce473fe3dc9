#include <iostream>

#include "app/cli/command.h"
#include "core/base/guarded.h"

namespace cli {

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
