#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"

namespace {

using namespace core::words;
using core::findings::Findings;
using ::testing::HasSubstr;
using ::testing::Not;
using tests::MadeProject;

std::string everythingSaid(const Findings& found, Advice advice) {
    std::string all = sentence(found.hitters, advice);
    for (const auto& comparison : found.comparisons) {
        all += sentence(comparison, found.noticeableStep, advice);
        for (const auto& left : comparison.leftOut) {
            all += whyNot(left.whyNot, advice);
        }
    }
    for (const auto& cell : found.hitters.interaction) {
        all += sentence(found.hitters.groupOf(cell), advice);
    }
    for (const auto& shot : found.oddShots()) {
        all += sentence(shot, advice);
    }
    for (const auto& drift : found.drifts) {
        all += sentence(drift, advice);
    }
    for (const auto& text : methodSentences(found, advice)) {
        all += text;
    }
    return all;
}

/// Four implements and two hitters; one cell is far off, one shot is, one implement has one shot.
MadeProject doubtfulProject() {
    MadeProject project;
    for (int i = 0; i < 4; ++i) {
        const auto implement = project.implement("implement " + std::to_string(i + 1));
        for (const char* hitter : {"A", "B"}) {
            for (const double noise : {-11.0, -6.0, -1.0, 2.0, 5.0, 11.0}) {
                const bool isOdd = i == 2 && hitter[0] == 'B';
                project.keep(implement, hitter, 1000.0 + 100.0 * i + noise + (isOdd ? 500.0 : 0.0));
            }
        }
        if (i == 0) {
            project.keep(implement, "A", 1300.0);
        }
    }
    project.keep(project.implement("struck once"), "A", 1000.0);
    return project;
}

// Mean 1002, t of 2 degrees of freedom at 0.975 is 4.302653 (tables), s = 2, so 4.302653 · 2 / √3 =
// 4.97 to each side.
TEST(Comparison, OfOneImplementIsItsMean) {
    MadeProject project;
    const auto only = project.implement("gut");
    for (const double rpm : {1000.0, 1002.0, 1004.0}) {
        project.keep(only, "A", rpm);
    }
    const auto found = project.findings();
    const std::string said = sentence(found.together(), found.noticeableStep, Advice::With);
    EXPECT_THAT(said, HasSubstr("gut: 1002"));
    EXPECT_THAT(said, HasSubstr("from 3 shots (95 %: 997.0 to 1007.0 rpm)."));
    EXPECT_THAT(said, HasSubstr("There is nothing to rank it against yet."));
    EXPECT_THAT(said, Not(HasSubstr("Pairs")));
}

TEST(Advice, IsInWhatTheTesterReadsAndInNothingThatIsPublished) {
    const auto found = doubtfulProject().findings();
    const std::string before = everythingSaid(found, Advice::With);
    for (const char* words :
         {" Set the noticeable step to see which differences a player could notice.",
          " Look at it again; it counts until you decide otherwise.",
          " Film both again before you trust the average.",
          " Look at each hitter alone before you trust the average.", "; keep a second",
          " An implement is a control when the plan says so"}) {
        EXPECT_THAT(before, HasSubstr(words));
    }
    const std::string after = everythingSaid(found, Advice::Without);
    for (const char* words : {"again", "Look at", "Set the", "keep a", "An implement is a control",
                              "in each cell would", "before you trust"}) {
        EXPECT_THAT(after, Not(HasSubstr(words)));
    }
    // What was found stays.
    EXPECT_THAT(after, HasSubstr("With implement 3, hitter A and hitter B differ by"));
    EXPECT_THAT(after, HasSubstr("one kept shot does not show the scatter"));
}

}  // namespace
