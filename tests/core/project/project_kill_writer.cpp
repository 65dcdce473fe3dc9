#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <functional>
#include <random>

#include "tests/core/project/project_maker.h"
#include "tests/core/project/random_edits.h"

namespace {

using core::project::ShotId;
using core::project::Store;

bool say(const std::string& line) {
    return ::write(STDOUT_FILENO, line.data(), line.size()) == static_cast<ssize_t>(line.size());
}

/// What reading ahead and keeping readings write besides the edits: "A" and "V" with the shot and
/// the number that stands in what was written.
bool noteSomething(Store& store, ShotId shot, int number, bool isArchive) {
    const std::string text = std::to_string(number);
    if (isArchive) {
        return !store.noteArchive(shot, {text, std::string(20'000, 'a')}) ||
               say(fmt::format("A {} {}\n", shot.value, number));
    }
    core::project::StoredPicture picture;
    picture.bytes = std::string(30'000, 'v');
    return !store.notePictures(shot, {text, "image/webp", {picture}}) ||
           say(fmt::format("V {} {}\n", shot.value, number));
}

}  // namespace

/// project_kill_writer FILE SEED: opens a project and works on it at random until it is killed:
/// marks, decides, changes, undoes and redoes, and keeps archives and pictures. After each thing
/// that the store has acknowledged it writes one line; after an edit "E", the revision, and a hash
/// of the whole content.
int main(int argc, char** argv) {
    if (argc != 3) {
        return 2;
    }
    auto opened = Store::open(argv[1]);
    if (!opened) {
        std::fprintf(stderr, "%s\n", opened.error().message.c_str());
        return 1;
    }
    Store& store = *opened.value();
    const auto seed = static_cast<unsigned>(std::strtoul(argv[2], nullptr, 10));
    tests::project::RandomEditor editor{store, seed};
    std::mt19937 random{seed};
    for (int number = static_cast<int>(seed) * 1'000'000;; ++number) {
        (void)editor.edit();  // a refusal is no edit, and leaves the content as it was
        const auto snapshot = store.snapshot();
        if (!say(fmt::format("E {} {}\n", snapshot->revision,
                             std::hash<std::string>{}(tests::project::contentOf(*snapshot))))) {
            return 1;
        }
        if (snapshot->shots.isEmpty() || random() % 3 != 0) {
            continue;
        }
        const auto place =
            static_cast<std::ptrdiff_t>(random() % static_cast<unsigned>(snapshot->shots.size()));
        if (!noteSomething(store, snapshot->shots.begin()[place].id, number, random() % 2 == 0)) {
            return 1;
        }
    }
}
