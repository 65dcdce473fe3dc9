#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/findings/advice.h"
#include "core/findings/words.h"
#include "tests/core/findings/made_project.h"
#include "tests/support/in_german.h"

namespace {

using namespace core::findings;
using ::testing::HasSubstr;
using ::testing::Not;
using tests::MadeProject;

TEST(FindingWords, DigitsFollowTheUncertainty) {
    EXPECT_EQ(words::rpm(1441.37, 83.2), "1441 rpm");
    EXPECT_EQ(words::rpm(1441.37, 0.56), "1441.37 rpm");
    EXPECT_EQ(words::between({1302.4, 1588.1}, 83.2), "1302 to 1588 rpm");
}

TEST(FindingWords, Lists) {
    EXPECT_EQ(words::joined({}), "");
    EXPECT_EQ(words::joined({"A"}), "A");
    EXPECT_EQ(words::joined({"A", "B", "C"}), "A, B and C");
}

TEST(FindingWords, ProbabilitiesAreNeverZero) {
    EXPECT_EQ(words::p(0.0), "p < 0.001");
    EXPECT_EQ(words::p(0.0314), "p = 0.031");
    EXPECT_EQ(words::p(0.5), "p = 0.50");
}

MadeProject twoImplements(double differenceRpm) {
    MadeProject project;
    const auto x = project.implement("X");
    const auto y = project.implement("Y");
    for (const double noise : {-10.0, 0.0, 10.0}) {
        project.keep(x, "A", 1000.0 + differenceRpm + noise);
        project.keep(y, "A", 1000.0 + noise);
    }
    return project;
}

TEST(FindingWords, PairThatDiffersNamesTheHigherFirst) {
    auto project = twoImplements(100.0);
    project.set("noticeable_step_rpm", "70");
    const auto found = project.findings();
    const auto& pair = found.together().pairs.front();
    // Standard error 8.165 (one decimal), t(0.975, 4) = 2.7764: 100 -+ 22.67.
    EXPECT_THAT(pair.sentence, HasSubstr("X gives 100.0 rpm more than Y (95 %: 77.3 to 122.7 rpm"));
    EXPECT_THAT(pair.sentence, HasSubstr("at least the noticeable step of 70 rpm"));
    EXPECT_EQ(pair.outlook, "X and Y are told apart already.");
}

TEST(FindingWords, GermanHasItsOrderAndItsDecimalSign) {
    const core::InGerman german;
    EXPECT_EQ(words::p(0.0314), "p = 0,031");
    EXPECT_EQ(words::joined({"A", "B", "C"}), "A, B und C");
    auto project = twoImplements(100.0);
    const auto unset = project.findings();
    EXPECT_THAT(unset.together().sentence, HasSubstr("Legen Sie den merklichen Unterschied fest"));
    project.set("noticeable_step_rpm", "70");
    auto found = project.findings();
    const auto& pair = found.together().pairs.front();
    EXPECT_THAT(pair.sentence,
                HasSubstr("X gibt 100,0 U/min mehr als Y (95 %: 77,3 bis 122,7 U/min"));
    EXPECT_THAT(pair.sentence,
                HasSubstr("Das ist mindestens der merkliche Unterschied von 70 U/min."));
    EXPECT_EQ(pair.outlook, "X und Y sind schon unterschieden.");
}

TEST(FindingWords, GermanAdviceIsTakenAwayToo) {
    const core::InGerman german;
    auto found = twoImplements(100.0).findings();
    dropAdvice(found);
    EXPECT_EQ(found.together().sentence, "X gibt mehr Drall als Y.");
}

TEST(FindingWords, PairNotToldApartSaysWhatMoreFilmingWouldSettle) {
    const auto found = twoImplements(15.0).findings();
    const auto& pair = found.together().pairs.front();
    EXPECT_THAT(pair.sentence, HasSubstr("X and Y cannot be told apart"));
    EXPECT_THAT(pair.sentence, HasSubstr("holds zero"));
    ASSERT_TRUE(pair.moreShots);
    EXPECT_GT(*pair.moreShots, 0);
    EXPECT_THAT(pair.outlook, HasSubstr("About " + std::to_string(*pair.moreShots) + " more shot"));
    EXPECT_THAT(pair.outlook, HasSubstr("would separate X and Y"));
}

TEST(FindingWords, NoSentenceCallsAnythingBest) {
    for (const double difference : {0.5, 15.0, 500.0}) {
        const auto found = twoImplements(difference).findings();
        std::vector<std::string> sentences{found.together().sentence,
                                           found.together().welchSentence,
                                           found.together().outlookSentence};
        for (const auto& row : found.together().ranked) {
            sentences.push_back(row.sentence);
        }
        for (const auto& pair : found.together().pairs) {
            sentences.push_back(pair.sentence);
        }
        for (const auto& sentence : sentences) {
            EXPECT_FALSE(sentence.empty());
            EXPECT_THAT(sentence, Not(HasSubstr("best")));
            EXPECT_THAT(sentence, Not(HasSubstr("nan")));
        }
    }
}

TEST(FindingWords, MethodSaysWhatWasDone) {
    auto project = twoImplements(100.0);
    project.set("bands", "low 1050 high");
    project.setAside({1});
    const auto found = project.findings();
    EXPECT_THAT(found.method, ::testing::Contains(HasSubstr("5 shots from marks, by reader")));
    EXPECT_THAT(found.method, ::testing::Contains(HasSubstr("Games and Howell")));
    EXPECT_THAT(found.method, ::testing::Contains(HasSubstr("Set aside, each with a reason: 1")));
    EXPECT_THAT(found.method, ::testing::Contains(HasSubstr("low (below 1050 rpm)")));
    EXPECT_THAT(found.method, ::testing::Contains("No noticeable step is set."));
}

TEST(FindingWords, MethodSaysWhatReadingCost) {
    auto project = twoImplements(100.0);
    const auto shots = project.snapshot().shots.size();
    EXPECT_THAT(project.findings().method, Not(::testing::Contains(HasSubstr("Reading took"))));
    // Seconds 1, 2, 3 and a second visit of 4 s to the first shot: 5, 2, 3, median 3; 10 in all.
    project.timed({1}, 1.0, 1);
    project.timed({2}, 2.0, 1);
    project.timed({3}, 3.0, 8);
    project.timed({1}, 4.0, 3);
    EXPECT_THAT(project.findings().method,
                ::testing::Contains(
                    "Reading took 10 s of a person's time for 3 of the " + std::to_string(shots) +
                    " kept shots, the others were not timed (median 3.0 s and 4 keys or clicks a "
                    "shot; of a pause at most 10 s count)."));
}

TEST(FindingWords, MethodSaysHowManyWereReadWithoutTheNames) {
    auto project = twoImplements(100.0);
    const auto shots = static_cast<std::int64_t>(project.snapshot().shots.size());
    for (std::int64_t shot = 1; shot <= shots; ++shot) {
        project.timed({shot}, 100.0, 1, shot > 2);
    }
    EXPECT_THAT(project.findings().method,
                ::testing::Contains(AllOf(
                    HasSubstr(" min of a person's time for " + std::to_string(shots) +
                              " shots (median 100 s and 1 key or click a shot;"),
                    HasSubstr("count); " + std::to_string(shots - 2) +
                              " of them were read with implement and hitter hidden, in shuffled "
                              "order."))));
    project.setAside({1});
    project.setAside({2});
    EXPECT_THAT(project.findings().method,
                ::testing::Contains(HasSubstr("; all were read with implement and hitter hidden")));
}

}  // namespace
