#include "core/words/doubts.h"

#include "tests/support/in_german.h"

#include <gtest/gtest.h>

namespace core::words {
namespace {

using doubts::Doubt;
using doubts::Grade;
using doubts::Reason;

std::string said(Reason reason, doubts::Facts facts = {}) {
    return sentence(Doubt{reason, Grade::Grave, 1.0, std::move(facts)});
}

TEST(DoubtWords, TurnsAreSaidByMarksAndByPictures) {
    const doubts::MarksAgainstPictures rates{{960.0}, {1440.0}};
    EXPECT_EQ(
        said(Reason::Miscount, doubts::TurnsOff{rates, 1, 0.5, {25}}),
        "The marks count 1 turn to frame 25 and give 960 rpm; by the pictures it is 1.5 turns "
        "and 1440 rpm. Half a turn was taken for a whole one.");
    const std::string whole = said(Reason::Miscount, doubts::TurnsOff{rates, 2, -1.0, {25}});
    EXPECT_TRUE(whole.ends_with(" One turn too many or too few was counted.")) << whole;
}

TEST(DoubtWords, AReasonWithoutFactsIsSaidByItself) {
    EXPECT_EQ(said(Reason::Marked), "A reader has marked this shot as doubtful.");
    EXPECT_TRUE(said(Reason::ClockUnchecked).starts_with("Nothing checks the capture rate:"));
}

TEST(DoubtWords, CountsAndNamesFollowTheirFacts) {
    EXPECT_TRUE(said(Reason::FramesDropped, doubts::MissingFrames{2, {300}, true})
                    .starts_with("2 frames are missing after frame 300, inside the reading. The "
                                 "clock of this clip counts frames"));
    EXPECT_TRUE(said(Reason::FramesDropped, doubts::MissingFrames{1, {300}, false})
                    .starts_with("1 frame is missing after frame 300"));
    EXPECT_EQ(said(Reason::ReadingsDiffer, doubts::RepeatedReading{{1700.0}, "first", {1500.0}}),
              "This shot was also read as 1700 rpm by first; 1500 rpm counts. The intervals do not "
              "overlap.");
    EXPECT_TRUE(said(Reason::NotConfirmed, doubts::SilentPictures{"The marking hardly tells."})
                    .find("contradict it: The marking hardly tells. Check whether") !=
                std::string::npos);
}

TEST(DoubtWords, WhatIsKeptOfAFlightIsSaidInGerman) {
    const InGerman german;
    const std::string words =
        said(Reason::ClockRefuted,
             doubts::FlightAgainstClock{"The flight fits a capture rate of 120, not 239.76."});
    EXPECT_TRUE(
        words.starts_with("Der Flug passt zu einer Aufnahmerate von 120, nicht 239,76. "
                          "Jede Drehzahl dieses Clips ist um denselben Faktor falsch"))
        << words;
    EXPECT_EQ(reasonWords(Reason::ClockRefuted), "Flug passt nicht zur Aufnahmerate");
}

}  // namespace
}  // namespace core::words
