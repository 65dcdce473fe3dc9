#include "core/findings/advice.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"

namespace {

using namespace core::findings;
using ::testing::HasSubstr;
using ::testing::Not;
using tests::MadeProject;

std::string everythingSaid(const Findings& found) {
    std::string all = found.hitters.sentence + found.looksSentence;
    for (const auto& comparison : found.comparisons) {
        all += comparison.sentence + comparison.outlookSentence + comparison.whyNoPairs;
        for (const auto& left : comparison.leftOut) {
            all += left.whyNot;
        }
    }
    for (const auto& cell : found.hitters.interaction) {
        all += cell.sentence;
    }
    for (const auto& shot : found.oddShots()) {
        all += shot.sentence;
    }
    for (const auto& drift : found.drifts) {
        all += core::words::sentence(drift);
    }
    for (const auto& sentence : found.method) {
        all += sentence;
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

TEST(Advice, IsInWhatTheTesterReadsAndInNothingThatIsPublished) {
    const auto found = doubtfulProject().findings();
    const std::string before = everythingSaid(found);
    for (const std::string_view sentence :
         {advice::kSetStep, advice::kLookAtShot, advice::kFilmBoth, advice::kEachHitter,
          advice::kKeepSecond, advice::kNameControl}) {
        EXPECT_THAT(before, HasSubstr(std::string{sentence}));
    }
    auto published = found;
    dropAdvice(published);
    const std::string after = everythingSaid(published);
    for (const char* words : {"again", "Look at", "Set the", "keep a", "An implement is a control",
                              "in each cell would", "before you trust"}) {
        EXPECT_THAT(after, Not(HasSubstr(words)));
    }
    // What was found stays.
    EXPECT_THAT(after, HasSubstr("With implement 3, hitter A and hitter B differ by"));
    EXPECT_THAT(after, HasSubstr("one kept shot says nothing of the scatter"));
}

}  // namespace
