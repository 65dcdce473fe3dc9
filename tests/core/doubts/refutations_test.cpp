#include "core/doubts/refutations.h"

#include <gtest/gtest.h>

#include "core/intake/clock_evidence.h"
#include "core/intake/day_setup.h"
#include "core/intake/reading_ahead.h"
#include "core/project/clock_refutation.h"
#include "core/publish/material.h"
#include "core/report/summary.h"
#include "tests/core/intake/clip_project.h"
#include "tests/support/must.h"

/// A shot whose flight refutes its clock, kept in a project by a program that did not note it: the
/// clip plays at 30 frames per second and was captured at 240, its ball is 74 mm across
/// (tests/data/footage/slow_240in30_tagged.json).
namespace core::doubts {
namespace {

using tests::must;

class RefutationsTest : public ::testing::Test, public tests::intake::ClipProject {
protected:
    RefutationsTest() {
        auto known = must(intake::setUpOf(*store->snapshot(), record().session));
        known.session.ballDiameterMm = 74.0;
        must(intake::setUpDay(*store, known));
        must(intake::setReviewersWord(*store, clip, {.rate = {}, .areTagsSetAside = true}));
        project::Shot added;
        added.clip = clip;
        added.lastFrame = {record().frameCount - 1};
        const auto shot = must(store->addShots(std::vector{added})).front();
        intake::ReadingAhead ahead{*store, {.begun = {}, .ended = [](const auto&) {}}};
        ahead.queue(shot);
        jobs::workOff(ahead, jobs::Pool::ofProgram(), 1);
        // One turn in six frames, kept on the wrong clock.
        spin::MarkSet marks;
        marks.start = spin::StartMark{{16}, {}};
        marks.returns = {spin::ReturnMark::nearest({22}, 1)};
        must(store->setMarks(shot, marks));
        const auto& marked = *store->snapshot()->shots.find(shot);
        const auto frames = must(store->clipFrames(clip));
        const auto read = must(reading::readMarks(*store->snapshot(), marked, *frames));
        must(store->keepReading(
            reading::makeMarksReading(*store->snapshot(), marked, *frames, read)));
        must(store->noteSetting(project::refutationKey(clip), ""));  // as if nobody had noted it
    }
    static std::size_t leftOut(const project::Snapshot& snapshot) {
        return must(report::summarise(snapshot)).leftOut.size();
    }
};

TEST_F(RefutationsTest, AnOlderProjectLearnsOfThemWhenItIsOpened) {
    ASSERT_EQ(leftOut(*store->snapshot()), 0U);
    const auto step = store->undoText();
    must(learnRefutations(*store));
    EXPECT_EQ(leftOut(*store->snapshot()), 1U);
    EXPECT_TRUE(project::isLeftOut(*store->snapshot(), record()));
    EXPECT_EQ(store->undoText(), step) << "it is no step of undo of its own";
    EXPECT_EQ(must(store->faults()), std::vector<std::string>{});
}

TEST_F(RefutationsTest, WhoOpensItToReadCountsAsIfItHadLearned) {
    EXPECT_EQ(leftOut(*must(withRefutations(*store))), 1U);
    EXPECT_EQ(leftOut(*must(publish::gather(*store, publish::Films::None)).snapshot), 1U);
    EXPECT_EQ(leftOut(*store->snapshot()), 0U) << "nothing is written";
}

TEST_F(RefutationsTest, WhatAPersonSettledSinceIsNotAskedAgain) {
    must(learnRefutations(*store));
    must(intake::setReviewersWord(*store, clip, {.rate = {}, .areTagsSetAside = false}));
    must(learnRefutations(*store));
    EXPECT_EQ(leftOut(*store->snapshot()), 0U);
}

}  // namespace
}  // namespace core::doubts
