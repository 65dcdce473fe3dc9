#include <chrono>
#include <cstdio>

#include "tests/core/project/project_maker.h"

/// Prints how long opening and editing a project of 10 000 shots take.
namespace {

using namespace core::project;
using Clock = std::chrono::steady_clock;

constexpr int kShots = 10'000;
constexpr int kEdits = 200;

double millisecondsSince(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>{Clock::now() - start}.count();
}

void fillLarge(Store& store, const tests::project::SmallProject& small) {
    std::vector<Shot> shots;
    for (int i = 0; i < kShots; ++i) {
        Shot shot = tests::project::shotOver(small.clip, i % 500, i % 500 + 50);
        shot.clicks = {{shot.firstFrame, 100.5, 200.25, 12.0},
                       {shot.lastFrame, 900.5, 100.75, 11.0}};
        shot.marks = tests::project::startAndReturn(i % 500, i % 500 + 5);
        shots.push_back(std::move(shot));
    }
    auto start = Clock::now();
    const auto ids = store.addShots(shots).value();
    std::printf("add %d shots at once: %.0f ms\n", kShots, millisecondsSince(start));
    start = Clock::now();
    const auto kept = store.together("Kept all.", [&]() -> core::Result<void> {
        for (const ShotId id : ids) {
            BOOST_OUTCOME_TRY(store.keepReading(tests::project::readingOf(id, 1500)));
        }
        return core::ok();
    });
    std::printf("keep %d readings in one step: %.0f ms%s\n", kShots, millisecondsSince(start),
                kept ? "" : " FAILED");
}

}  // namespace

int main() {
    const tests::project::TemporaryFolder folder;
    const auto file = folder.path() / "large.turnmark";
    {
        auto store = Store::create(file).value();
        fillLarge(*store, tests::project::fill(*store));
    }
    auto start = Clock::now();
    auto store = Store::open(file).value();
    std::printf("open (%.1f MB): %.0f ms\n",
                static_cast<double>(std::filesystem::file_size(file)) / 1e6,
                millisecondsSince(start));
    start = Clock::now();
    for (int i = 0; i < kEdits; ++i) {
        const ShotId shot = store->snapshot()->shots.begin()[i * 7].id;
        if (!store->setMarks(shot, tests::project::startAndReturn(3, 9 + i % 5))) {
            return 1;
        }
    }
    std::printf("one edit, with the disk: %.2f ms\n", millisecondsSince(start) / kEdits);
    start = Clock::now();
    const auto faults = store->faults().value();
    std::printf("check: %.0f ms, %zu faults\n", millisecondsSince(start), faults.size());
}
