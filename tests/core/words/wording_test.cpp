#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/words/findings.h"
#include "core/words/pieces.h"
#include "tests/core/findings/made_project.h"
#include "tests/support/in_german.h"

namespace {

namespace words = core::words;
using ::testing::HasSubstr;
using ::testing::Not;
using tests::MadeProject;
using words::methodSentences;
using words::outlook;
using words::sentence;

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
    EXPECT_EQ(words::pWords(0.0), "p < 0.001");
    EXPECT_EQ(words::pWords(0.0314), "p = 0.031");
    EXPECT_EQ(words::pWords(0.5), "p = 0.50");
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
    EXPECT_THAT(sentence(pair, found.noticeableStep),
                HasSubstr("X gives 100.0 rpm more than Y (95 %: 77.3 to 122.7 rpm"));
    EXPECT_THAT(sentence(pair, found.noticeableStep),
                HasSubstr("at least the noticeable step of 70 rpm"));
    EXPECT_EQ(outlook(pair), "X and Y are told apart already.");
}

TEST(FindingWords, GermanHasItsOrderAndItsDecimalSign) {
    const core::InGerman german;
    EXPECT_EQ(words::pWords(0.0314), "p = 0,031");
    EXPECT_EQ(words::joined({"A", "B", "C"}), "A, B und C");
    auto project = twoImplements(100.0);
    const auto unset = project.findings();
    EXPECT_THAT(sentence(unset.together(), unset.noticeableStep),
                HasSubstr("Legen Sie den merklichen Unterschied fest"));
    project.set("noticeable_step_rpm", "70");
    auto found = project.findings();
    const auto& pair = found.together().pairs.front();
    EXPECT_THAT(sentence(pair, found.noticeableStep),
                HasSubstr("X gibt 100,0 U/min mehr als Y (95 %: 77,3 bis 122,7 U/min"));
    EXPECT_THAT(sentence(pair, found.noticeableStep),
                HasSubstr("Das ist mindestens der merkliche Unterschied von 70 U/min."));
    EXPECT_EQ(outlook(pair), "X und Y sind schon unterschieden.");
}

TEST(FindingWords, GermanCanDoWithoutAdviceToo) {
    const core::InGerman german;
    const auto found = twoImplements(100.0).findings();
    EXPECT_EQ(sentence(found.together(), {}, words::Advice::Without), "X gibt mehr Drall als Y.");
}

TEST(FindingWords, PairNotToldApartSaysWhatMoreFilmingWouldSettle) {
    const auto found = twoImplements(15.0).findings();
    const auto& pair = found.together().pairs.front();
    EXPECT_THAT(sentence(pair, found.noticeableStep), HasSubstr("X and Y cannot be told apart"));
    EXPECT_THAT(sentence(pair, found.noticeableStep), HasSubstr("holds zero"));
    ASSERT_TRUE(pair.moreShots);
    EXPECT_GT(*pair.moreShots, 0);
    EXPECT_THAT(outlook(pair),
                HasSubstr("About " + std::to_string(*pair.moreShots) + " more shot"));
    EXPECT_THAT(outlook(pair), HasSubstr("would separate X and Y"));
}

TEST(FindingWords, NoSentenceCallsAnythingBest) {
    for (const double difference : {0.5, 15.0, 500.0}) {
        const auto found = twoImplements(difference).findings();
        std::vector<std::string> sentences{sentence(found.together(), found.noticeableStep),
                                           words::testSentence(found.together()),
                                           outlook(found.together())};
        for (const auto& row : found.together().ranked) {
            sentences.push_back(sentence(row, found.together()));
        }
        for (const auto& pair : found.together().pairs) {
            sentences.push_back(sentence(pair, found.noticeableStep));
        }
        for (const auto& text : sentences) {
            EXPECT_FALSE(text.empty());
            EXPECT_THAT(text, Not(HasSubstr("best")));
            EXPECT_THAT(text, Not(HasSubstr("nan")));
        }
    }
}

TEST(FindingWords, MethodSaysWhatWasDone) {
    auto project = twoImplements(100.0);
    project.set("bands", "low 1050 high");
    project.setAside({1});
    const auto method = methodSentences(project.findings());
    EXPECT_THAT(method, ::testing::Contains(HasSubstr("5 shots from marks, by reader")));
    EXPECT_THAT(method, ::testing::Contains(HasSubstr("Games and Howell")));
    EXPECT_THAT(method, ::testing::Contains(HasSubstr("Set aside, each with a reason: 1")));
    EXPECT_THAT(method, ::testing::Contains(HasSubstr("low (below 1050 rpm)")));
    EXPECT_THAT(method, ::testing::Contains("No noticeable step is set."));
}

TEST(FindingWords, MethodSaysWhatReadingCost) {
    auto project = twoImplements(100.0);
    const auto shots = project.snapshot().shots.size();
    EXPECT_THAT(methodSentences(project.findings()),
                Not(::testing::Contains(HasSubstr("Reading took"))));
    // Seconds 1, 2, 3 and a second visit of 4 s to the first shot: 5, 2, 3, median 3; 10 in all.
    project.timed({1}, 1.0, 1);
    project.timed({2}, 2.0, 1);
    project.timed({3}, 3.0, 8);
    project.timed({1}, 4.0, 3);
    EXPECT_THAT(methodSentences(project.findings()),
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
    EXPECT_THAT(methodSentences(project.findings()),
                ::testing::Contains(AllOf(
                    HasSubstr(" min of a person's time for " + std::to_string(shots) +
                              " shots (median 100 s and 1 key or click a shot;"),
                    HasSubstr("count); " + std::to_string(shots - 2) +
                              " of them were read with implement and hitter hidden, in shuffled "
                              "order."))));
    project.setAside({1});
    project.setAside({2});
    EXPECT_THAT(methodSentences(project.findings()),
                ::testing::Contains(HasSubstr("; all were read with implement and hitter hidden")));
}

TEST(FindingWords, EveryReasonHasASentence) {
    using Kind = core::findings::WhyNot::Kind;
    for (int kind = 0; kind <= static_cast<int>(Kind::FewBallSpeeds); ++kind) {
        const core::findings::WhyNot why{
            .kind = static_cast<Kind>(kind), .names = {"X", "A", "B"}, .message = "failed"};
        EXPECT_FALSE(words::whyNot(why).empty()) << kind;
        EXPECT_FALSE(words::whyNot(why, words::Advice::Without).empty()) << kind;
    }
}

}  // namespace
