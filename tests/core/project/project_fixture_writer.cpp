#include <cstdio>

#include "tests/core/project/project_maker.h"

namespace {

core::Result<void> setStrokeOfDay(core::project::Store& store, core::project::SessionId session) {
    auto day = *store.snapshot()->sessions.find(session);
    day.stroke = core::project::Stroke::Topspin;
    return store.changeSession(day);
}

}  // namespace

/// project_fixture_writer FILE: writes the fixture described in tests/data/project/README.md.
int main(int argc, char** argv) {
    if (argc != 2) {
        return 2;
    }
    auto created = core::project::Store::create(argv[1]);
    if (!created) {
        std::fprintf(stderr, "%s\n", created.error().message.c_str());
        return 1;
    }
    core::project::Store& store = *created.value();
    const tests::project::SmallProject small = tests::project::fill(store);
    auto reading = tests::project::readingOf(small.shots[0], 1490.25);
    reading.habit = core::spin::CountingHabit::After;
    reading.viewRelativeSigma = 0.0025;
    const auto cell = store.cellFor(small.session, small.implement, small.hitter);
    const bool isDone =
        cell && store.setReader("R. Reader") && store.setSetting("noticeable_step_rpm", "300") &&
        store.assignShots(small.shots, cell.value()) &&
        store.setMarks(small.shots[0], tests::project::startAndReturn(12, 17)) &&
        store.keepReading(reading) && store.setAside(small.shots[1], "mishit") &&
        store.setDoubtful(small.shots[2], true) && store.undo() &&
        store.setPlan(tests::project::smallPlan()) &&
        store.addSecondLook(small.shots[0], "stroboscope") &&
        store.orderSecondReadings(std::vector{small.shots[0]}) &&
        store.noteArchive(small.shots[2], tests::project::smallArchive()) &&
        store.noteEfforts(std::vector{tests::project::smallEffort(small.shots[0])}) &&
        store.setClipClock(small.clip, {}, tests::project::clipNamed("", {}, 1).clock,
                           {{"stamps_not_used", {}, "The time stamps are not used."}}) &&
        store.setSearchedForShots(small.clip) &&
        store.setShotNote(small.shots[0], "the ball touched the net") &&
        store.setShotStroke(std::vector{small.shots[0]}, core::project::Stroke::Backspin) &&
        setStrokeOfDay(store, small.session) && store.turnClips(std::vector{small.clip}, 180);
    return isDone ? 0 : 1;
}
