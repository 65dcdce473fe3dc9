#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <functional>

#include "tests/core/project/project_maker.h"
#include "tests/core/project/random_edits.h"

/// project_kill_writer FILE SEED: opens a project and edits it at random until it is killed. After
/// each edit that the store has acknowledged it writes one line: the revision, and a hash of the
/// whole content.
int main(int argc, char** argv) {
    if (argc != 3) {
        return 2;
    }
    auto store = core::project::Store::open(argv[1]);
    if (!store) {
        std::fprintf(stderr, "%s\n", store.error().message.c_str());
        return 1;
    }
    tests::project::RandomEditor editor{*store.value(), std::strtoull(argv[2], nullptr, 10)};
    for (;;) {
        (void)editor.edit();  // a refusal is no edit, and leaves the content as it was
        const auto snapshot = store.value()->snapshot();
        char line[64];
        const int length = std::snprintf(
            line, sizeof line, "%lld %zu\n", static_cast<long long>(snapshot->revision),
            std::hash<std::string>{}(tests::project::contentOf(*snapshot)));
        if (::write(STDOUT_FILENO, line, static_cast<std::size_t>(length)) != length) {
            return 1;
        }
    }
}
