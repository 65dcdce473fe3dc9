#include "ui/reading/pictures/picture_reader.h"

#include <gtest/gtest.h>

#include <QTest>

#include "tests/support/must.h"
#include "tests/ui/reading/reading_project.h"

namespace ui::reading {
namespace {

using core::project::ShotId;
using tests::must;

constexpr int kWaitMilliseconds = 60000;  // decoding, tracking and fitting on a busy machine
constexpr int kTries = 20;

bool isCancelled(const PictureProposal& proposal) {
    return !proposal.outcome && proposal.outcome.error().code == core::ErrorCode::Cancelled;
}

/// Two clicks that differ from time to time, so that nothing that was read before will do.
void clickAnew(tests::ReadingProject& project, std::size_t film, int time) {
    auto first = tests::ballOf(0, 0);
    first.xPx += 0.01 * time;
    must(project.store().setClicks(project.shot(film), {first, tests::ballOf(23, 23)}));
}

// It was taken for the new one because it was of the same shot in the same state.
TEST(PictureReader, AReadingThatWasGivenUpIsNotTakenForTheNewOneOfTheShot) {
    tests::ReadingProject project{{{}, {}}};
    bridge::JobRunner jobs{1};
    PictureReader reader{project.store(), jobs};
    int shown = 0;
    QObject::connect(&reader, &PictureReader::changed, &reader, [&](ShotId shot) {
        if (const auto proposal = reader.proposalOf(shot)) {
            ++shown;
            EXPECT_FALSE(isCancelled(*proposal));
        }
    });
    reader.want(project.shot(0));
    reader.want(project.shot(1));
    reader.want(project.shot(0));
    ASSERT_TRUE(QTest::qWaitFor([&] { return jobs.jobs().isEmpty(); }, kWaitMilliseconds));
    EXPECT_EQ(shown, 1);
}

// The window crashed: the job of the next shot let go the frames that a running one was using.
TEST(PictureReader, EveryJobHasItsFramesToTheEnd) {
    tests::ReadingProject project{{{}, {}}};
    bridge::JobRunner jobs{3};
    PictureReader reader{project.store(), jobs};
    for (int k = 0; k < kTries; ++k) {
        clickAnew(project, 0, k);
        clickAnew(project, 1, k);
        for (const std::size_t film : {0U, 1U, 0U}) {
            reader.want(project.shot(film));
        }
        const auto areGivenUpHome = [&] { return jobs.jobs().size() == 1; };
        ASSERT_TRUE(QTest::qWaitFor(areGivenUpHome, kWaitMilliseconds));
        QTest::qWait(5 * k);  // the newest is decoding, following the ball, or fitting
        reader.want(project.shot(1));
    }
    ASSERT_TRUE(QTest::qWaitFor([&] { return jobs.jobs().isEmpty(); }, kWaitMilliseconds));
    const auto proposal = reader.proposalOf(project.shot(1));
    ASSERT_NE(proposal, nullptr);
    EXPECT_FALSE(isCancelled(*proposal));
}

TEST(PictureReader, ReadingAheadThatIsTurnedOffAndOnAtOnceIsOn) {
    tests::ReadingProject project{{{}, {}}};
    bridge::JobRunner jobs{1};
    PictureReader reader{project.store(), jobs};
    for (const bool on : {true, false, true}) {
        reader.setReadingAhead(on);
    }
    ASSERT_TRUE(QTest::qWaitFor([&] { return jobs.jobs().isEmpty(); }, kWaitMilliseconds));
    EXPECT_TRUE(reader.isReadingAhead());
    EXPECT_NE(reader.proposalOf(project.shot(1)), nullptr);
}

}  // namespace
}  // namespace ui::reading
