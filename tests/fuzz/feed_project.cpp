#include <array>
#include <fstream>

#include "core/project/rescue.h"
#include "core/project/store.h"
#include "tests/core/project/project_maker.h"
#include "tests/fuzz/planted_values.h"
#include "tests/fuzz/promise.h"

namespace tests::fuzz {
namespace {

using namespace core::project;
namespace fs = std::filesystem;

/// Sound projects of every format.
const std::string& soundProject(std::size_t number) {
    static const std::array kNames{"v6_habit", "v5_tally", "v4_effort",    "v3_second",
                                   "v2_plan",  "v1_small", "v5_clip_facts"};
    static std::array<std::string, kNames.size()> projects;
    const std::size_t which = number % kNames.size();
    if (projects[which].empty()) {
        projects[which] = tests::bytesOf(fs::path{TESTS_DATA_FOLDER} / "project" /
                                         (std::string{kNames[which]} + ".turnmark"));
        promise(!projects[which].empty(), "the fixtures are there");
    }
    return projects[which];
}

/// Bytes laid over others: where, and what.
std::string overlaid(std::string bytes, Taken& taken) {
    while (!taken.isEmpty()) {
        const std::size_t at = taken.number(3) % bytes.size();
        const std::string piece = taken.text();
        bytes.replace(at, std::min(piece.size(), bytes.size() - at), piece, 0,
                      std::min(piece.size(), bytes.size() - at));
    }
    return bytes;
}

void write(const fs::path& file, const std::string& bytes) {
    std::ofstream{file, std::ios::binary | std::ios::trunc} << bytes;
}

void lookThrough(Store& store) {
    const auto snapshot = store.snapshot();
    for (const Clip& clip : snapshot->clips) {
        static_cast<void>(store.clipFrames(clip.id));
    }
    for (const Shot& shot : snapshot->shots) {
        static_cast<void>(store.archiveOf(shot.id));
        static_cast<void>(store.picturesOf(shot.id));
        static_cast<void>(store.historyOf(shot.id));
    }
    promise(!tests::project::contentOf(*snapshot).empty(), "a project has content");
}

void moveAboutAndReopen(std::unique_ptr<Store> store, const fs::path& file) {
    for (int step = 0; step < 3 && store->undo(); ++step) {
    }
    static_cast<void>(store->redo());
    const std::string content = tests::project::contentOf(*store->snapshot());
    store.reset();
    const auto again = Store::open(file);
    promise(again.has_value(), "a project that was opened opens again: " +
                                   (again ? std::string{} : again.error().message));
    promise(tests::project::contentOf(*again.value()->snapshot()) == content,
            "a project says the same after opening it again");
}

void rescue(const fs::path& from, const fs::path& to) {
    const auto rescued = rescueProject(from, to);
    if (!rescued) {
        promiseWords(rescued.error());
        promise(!fs::exists(to), "a rescue that failed leaves no file");
        return;
    }
    const auto store = Store::open(to);
    promise(store.has_value(),
            "what was rescued opens: " + (store ? std::string{} : store.error().message));
    const auto faults = store.value()->faults();
    promise(faults.has_value() && faults.value().empty(),
            "what was rescued is sound: " +
                (faults && !faults.value().empty() ? faults.value().front() : std::string{}));
}

}  // namespace

void feedProject(Bytes bytes) {
    Taken taken{bytes};
    const unsigned choice = taken.byte();
    const tests::project::TemporaryFolder folder;
    const fs::path file = folder.path() / "p.turnmark";
    const std::string& sound = soundProject(choice >> 2U);
    if ((choice & 1U) == 0) {
        write(file, overlaid(sound, taken));
    } else {
        write(file, sound);
        plantValues(file, taken);
    }
    const std::string before = tests::bytesOf(file);
    if ((choice & 2U) != 0) {
        rescue(file, folder.path() / "rescued.turnmark");
        promise(tests::bytesOf(file) == before, "a rescue leaves the damaged file as it is");
    }
    auto store = Store::open(file);
    if (!store) {
        promiseWords(store.error());
        promise(tests::bytesOf(file) == before,
                "a file that is refused stays as it is: " + store.error().message);
        return;
    }
    lookThrough(*store.value());
    if (const auto faults = store.value()->faults(); !faults) {
        promiseWords(faults.error());
    }
    moveAboutAndReopen(std::move(store).value(), file);
}

}  // namespace tests::fuzz
