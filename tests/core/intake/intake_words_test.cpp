#include "core/intake/intake_words.h"

#include <gtest/gtest.h>

#include "core/intake/test_clip.h"
#include "tests/support/in_german.h"

namespace core::intake {
namespace {

TEST(IntakeWords, TimesAreAsFineAsTheyMayBeBelieved) {
    EXPECT_EQ(durationWords(0.4), "0 s");
    EXPECT_EQ(durationWords(59.6), "1 min 0 s");
    EXPECT_EQ(durationWords(125.0), "2 min 5 s");
    EXPECT_EQ(durationWords(4325.0), "1 h 12 min");
    EXPECT_EQ(durationWords(-3.0), "0 s");
}

TEST(IntakeWords, OnlyWhatWasWantedIsReported) {
    TakeInReport report;
    report.added = 1;
    report.alreadyThere = 2;
    report.searched = 3;
    report.shotsFound = 1;
    EXPECT_EQ(reportLines(report, {}),
              (std::vector<std::string>{"1 clip added, 2 already there, 0 other files skipped"}));
    report.cards = AssignmentReport{.assigned = 4, .leftOpen = 5, .remarks = {"Look here."}};
    EXPECT_EQ(reportLines(report, {.findShots = true, .readCards = true, .readPictures = true}),
              (std::vector<std::string>{
                  "1 clip added, 2 already there, 0 other files skipped",
                  "3 clips searched, 1 shot found", "4 shots assigned by slate cards, 5 left open",
                  "Look here.", "0 shots read from their pictures, 0 cannot be read so"}));
}

TEST(IntakeWords, AreSaidInGermanToo) {
    const InGerman german;
    TakeInReport report;
    report.added = 1;
    report.alreadyThere = 2;
    report.foundAgain = 1;
    EXPECT_EQ(reportLines(report, {}),
              (std::vector<std::string>{"1 Clip hinzugefügt, 2 schon da, 0 andere Dateien "
                                        "übergangen",
                                        "1 Clip am neuen Ort wiedergefunden"}));
    EXPECT_EQ(phaseWords(TakeInProgress::Phase::FindShots), "Schläge finden");
    EXPECT_EQ(titleOf(TestPoint::Kind::Readout), "Auslesezeit");
    EXPECT_EQ(nameOf(TestPoint::Kind::Readout), "readout");
    EXPECT_EQ(verdictSentence({}), "So kann gefilmt werden.");
}

}  // namespace
}  // namespace core::intake
