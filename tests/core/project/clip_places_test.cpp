#include <gtest/gtest.h>

#include <cmath>

#include "core/project/clock_refutation.h"
#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;

class ClipPlaces : public ::testing::Test {
protected:
    [[nodiscard]] Clip clip() const { return *store->snapshot()->clips.find(small.clip); }
    [[nodiscard]] Shot shot(std::size_t at = 0) const {
        return *store->snapshot()->shots.find(small.shots[at]);
    }
    SessionId otherDay() {
        Session day;
        day.name = "Bench 2";
        return store->addSession(day).value();
    }
    void reopen() {
        store.reset();
        store = Store::open(file).value();
    }

    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
};

TEST_F(ClipPlaces, ANoteAndAStrokeComeBackAndCanBeUndone) {
    ASSERT_TRUE(store->setShotNote(small.shots[0], "  the ball touched the net  "));
    ASSERT_TRUE(store->setShotStroke(std::vector{small.shots[0]}, Stroke::Backspin));
    reopen();
    EXPECT_EQ(shot().note, "the ball touched the net");
    EXPECT_EQ(shot().stroke, Stroke::Backspin);
    Session day = *store->snapshot()->sessions.find(small.session);
    EXPECT_EQ(strokeOf(day, shot(1)), Stroke::NotKnown);
    day.stroke = Stroke::Topspin;
    ASSERT_TRUE(store->changeSession(day));
    EXPECT_EQ(strokeOf(day, shot(1)), Stroke::Topspin);
    EXPECT_EQ(strokeOf(day, shot(0)), Stroke::Backspin) << "it says otherwise";
    for (int i = 0; i < 3; ++i) {
        ASSERT_TRUE(store->undo());
    }
    EXPECT_EQ(shot().note, "");
    EXPECT_FALSE(shot().stroke);
    EXPECT_EQ(store->setShotNote(small.shots[0], "\xff").error().code, ErrorCode::InvalidInput);
}

// A point of a picture of 1280 x 720 turned clockwise by a quarter lies at (720 - y, x); angles
// count counter-clockwise, so a mark's becomes smaller by the turn.
TEST_F(ClipPlaces, ATurnTakesAlongWhatWasPointedAtAndMarked) {
    core::spin::MarkSet marks;
    marks.angles = {{.frame = {12}, .angle = {0.5}, .turns = {}},
                    {.frame = {14}, .angle = {1.0}, .turns = 2}};
    ASSERT_TRUE(store->setMarks(small.shots[0], marks));
    ASSERT_TRUE(store->setClicks(small.shots[0], {{{12}, 100.0, 200.0, 9.0}}));
    ASSERT_TRUE(store->turnClips(std::vector{small.clip}, 90));
    EXPECT_EQ(clip().width, 720);
    EXPECT_EQ(clip().height, 1280);
    EXPECT_EQ(clip().rotationDegrees, 90);
    EXPECT_EQ(clip().turnedDegrees, 90);
    EXPECT_EQ(shot().clicks.front(), (BallClick{{12}, 520.0, 100.0, 9.0}));
    EXPECT_NEAR(shot().marks.angles[0].angle.radians, 0.5 - std::acos(0.0), 1e-12);
    EXPECT_NEAR(shot().marks.angles[1].angle.radians, 1.0 - std::acos(0.0), 1e-12);
    EXPECT_EQ(shot().marks.angles[1].turns, 2);
    ASSERT_TRUE(store->turnClips(std::vector{small.clip}, 270));
    EXPECT_EQ(clip().rotationDegrees, 270) << "from what the file says, not from the turn before";
    EXPECT_EQ(shot().clicks.front(), (BallClick{{12}, 200.0, 1180.0, 9.0}));
    ASSERT_TRUE(store->turnClips(std::vector{small.clip}, 0));
    EXPECT_EQ(shot().clicks.front(), (BallClick{{12}, 100.0, 200.0, 9.0}));
    EXPECT_EQ(clip().width, 1280);
    EXPECT_EQ(store->turnClips(std::vector{small.clip}, 45).error().code, ErrorCode::OutOfRange);
}

TEST_F(ClipPlaces, ShotsMoveWithTheirClipAndWhatTheyAreAssignedTo) {
    const CellId cell = store->cellFor(small.session, small.implement, small.hitter).value();
    ASSERT_TRUE(store->assignShots(std::vector{small.shots[0]}, cell));
    const SessionId day = otherDay();
    ASSERT_TRUE(store->moveClips(std::vector{small.clip}, day));
    EXPECT_EQ(clip().session, day);
    const Cell moved = *store->snapshot()->cells.find(*shot().cell);
    EXPECT_EQ(moved.session, day);
    EXPECT_EQ(moved.implement, small.implement);
    EXPECT_EQ(moved.hitter, small.hitter);
    EXPECT_FALSE(shot(1).cell);
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(clip().session, small.session);
    EXPECT_EQ(shot().cell, cell);
    EXPECT_EQ(store->moveClips(std::vector{small.clip}, {99}).error().code, ErrorCode::NotFound);
}

/// Moved, renamed, turned, removed; back to the empty project and all the way forth.
TEST_F(ClipPlaces, TheProjectIsSoundAtEachStepBackAndForth) {
    ASSERT_TRUE(store->keepReading(readingOf(small.shots[0], 1490.0)));
    ASSERT_TRUE(store->moveClips(std::vector{small.clip}, otherDay()));
    ASSERT_TRUE(store->setClipPath(small.clip, "clips/renamed.mp4"));
    ASSERT_TRUE(store->turnClips(std::vector{small.clip}, 180));
    ASSERT_TRUE(store->setShotNote(small.shots[1], "wind"));
    ASSERT_TRUE(store->removeClips(std::vector{small.clip}));
    std::vector<std::string> states{contentOf(*store->snapshot())};
    while (store->undoText()) {
        ASSERT_TRUE(store->undo());
        EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
        states.push_back(contentOf(*store->snapshot()));
    }
    EXPECT_TRUE(store->snapshot()->clips.isEmpty());
    for (auto state = states.rbegin() + 1; state != states.rend(); ++state) {
        ASSERT_TRUE(store->redo());
        EXPECT_EQ(contentOf(*store->snapshot()), *state);
        EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
    }
    EXPECT_FALSE(store->redoText());
}

class Refutation : public ClipPlaces {
protected:
    Refutation() {
        Session day = *store->snapshot()->sessions.find(small.session);
        day.ballDiameterMm = 67.0;
        EXPECT_TRUE(store->changeSession(day));
    }
    [[nodiscard]] bool isOut() const { return isLeftOut(*store->snapshot(), clip()); }
};

TEST_F(Refutation, HoldsForTheClockAndTheBallThatItWasSeenWith) {
    EXPECT_FALSE(isOut());
    int told = 0;
    const auto listening = store->listen([&told](const Store::Change&) { ++told; });
    const auto undoBefore = store->undoText();
    ASSERT_TRUE(store->noteRefutation(small.shots[0], "It falls too slowly."));
    EXPECT_EQ(told, 1);
    EXPECT_EQ(store->undoText(), undoBefore) << "nobody did it, so nobody undoes it";
    EXPECT_TRUE(isOut());
    reopen();
    EXPECT_TRUE(isOut());
    EXPECT_EQ(refutationOf(*store->snapshot(), clip())->statement, "It falls too slowly.");
    const auto clock = clip().clock;
    ClockSetting other = *clock;
    other.counted = core::timebase::CaptureRate{{480}};
    ASSERT_TRUE(store->setClipClock(small.clip, {}, other, {}));
    EXPECT_FALSE(isOut()) << "the clock was settled anew";
    ASSERT_TRUE(store->undo());
    EXPECT_TRUE(isOut());
    Session day = *store->snapshot()->sessions.find(small.session);
    day.ballDiameterMm = 27.0;
    ASSERT_TRUE(store->changeSession(day));
    EXPECT_FALSE(isOut()) << "it was held against another ball";
}

TEST_F(Refutation, GoesWhenItsShotIsReadOtherwiseAndWhenAPersonOverrulesIt) {
    ASSERT_TRUE(store->noteRefutation(small.shots[0], "It falls too slowly."));
    ASSERT_TRUE(store->noteRefutation(small.shots[1], {}));
    EXPECT_TRUE(isOut()) << "another shot says nothing for the first";
    ASSERT_TRUE(store->setSetting(overruledKey(small.clip),
                                  overruledValue(*store->snapshot(), clip(), "blown upwards")));
    EXPECT_FALSE(isOut());
    EXPECT_EQ(refutationOf(*store->snapshot(), clip())->overruled, "blown upwards");
    ASSERT_TRUE(store->undo());
    EXPECT_TRUE(isOut());
    ASSERT_TRUE(store->noteRefutation(small.shots[0], {}));
    EXPECT_FALSE(isOut());
}

}  // namespace
}  // namespace tests::project
