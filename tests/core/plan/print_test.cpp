#include "core/plan/print.h"
#include "core/plan/sheet.h"

#include <gtest/gtest.h>

#include <fstream>

#include "core/plan/schedule.h"
#include "core/plan/slate.h"
#include "tests/core/plan/plans.h"
#include "tests/support/in_german.h"
#include "tests/support/process.h"

namespace core::plan {
namespace {

Plan printedPlan() {
    Plan plan = tests::plan::planOf(6, 2);
    plan.implements[1] = {"Darm & Söhne <1,25>", "worn", {}};
    plan.implements[2].name = std::string(70, 'W');
    plan.hitters[1] = "Zoë";
    plan.control = 3;
    return plan;
}

/// The words of a PDF, read by pdftotext.
std::string wordsOf(const Result<std::string>& pdf) {
    if (!pdf) {
        ADD_FAILURE() << pdf.error().message;
        return {};
    }
    const tests::TemporaryFolder folder;
    std::ofstream{folder.file("a.pdf"), std::ios::binary} << pdf.value();
    const auto done =
        tests::runProgram({"pdftotext", "-layout", folder.file("a.pdf"), folder.file("a.txt")});
    EXPECT_EQ(done.status, 0) << done.errors;
    return tests::bytesOf(folder.file("a.txt"));
}

std::size_t countOf(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++count;
    }
    return count;
}

TEST(PrintTest, ShotListHasEveryNameAndTheCautions) {
    const Plan plan = printedPlan();
    const std::string words = wordsOf(shotListPdf(plan));
    for (const char* part :
         {"Bench day", "Darm & Söhne <1,25> (worn)", "face 4 (new), control", "Zoë", "seed 1",
          "138 shots", "pain means stop", "line of flight", "three quarters dark"}) {
        EXPECT_NE(words.find(part), std::string::npos) << part;
    }
    std::size_t rests = 0;
    const auto schedule = scheduleOf(plan).value();
    for (const Visit& visit : schedule.visits) {
        rests += visit.kind == Visit::Kind::Rest ? 1U : 0U;
    }
    EXPECT_GT(rests, 0U);
    EXPECT_EQ(countOf(words, "rests for 5 minutes"), rests);
    EXPECT_NE(words.find("136–138"), std::string::npos) << "the last control shots";
}

TEST(PrintTest, SlateCardsHaveTheirWordsOnTheirPages) {
    const Plan plan = printedPlan();
    const std::string words = wordsOf(slateCardsPdf(plan));
    EXPECT_EQ(countOf(words, "\f"), 12U) << "a page a card";
    EXPECT_EQ(countOf(words, "hitter: Zoë"), 6U);
    EXPECT_EQ(countOf(words, "Darm & Söhne <1,25>"), 2U);
}

TEST(PrintTest, ASheetHasItsRowsAndTheCautions) {
    const std::string words = wordsOf(sheetPdf(
        {"Test clip: a.mp4",
         "Good to film like this.",
         {},
         {{"check", "Blur", "20° of turn", "More light."}, {"good", "Shots", "3 found", ""}}}));
    for (const char* each : {"Test clip: a.mp4", "Good to film like this.", "check", "Blur",
                             "20° of turn", "More light.", "3 found", "Before anybody swings"}) {
        EXPECT_NE(words.find(each), std::string::npos) << each;
    }
}

TEST(PrintTest, ListAndCardsSpeakGermanAndTheCodeDoesNot) {
    const Plan plan = printedPlan();
    const SlateCard card = slateCards(plan).front();
    const std::string code = slateText(card);
    const InGerman german;
    const std::string list = wordsOf(shotListPdf(plan));
    for (const char* part :
         {"Schlagliste: Bench day", "6 Geräte, 2 Spieler, 10 Schläge pro Zelle", "Bevor jemand",
          "Schmerz heißt aufhören", "macht 5 Minuten Pause", "face 4 (new), Kontrolle"}) {
        EXPECT_NE(list.find(part), std::string::npos) << part;
    }
    EXPECT_EQ(countOf(wordsOf(slateCardsPdf(plan)), "Spieler: Zoë"), 6U);
    EXPECT_EQ(slateText(card), code) << "cards are read in every language";
    EXPECT_EQ(shotListPdf(Plan{}).error().message,
              "Der Plan hat noch kein Gerät. Fügen Sie eines hinzu, fügen Sie eine Liste ein oder "
              "lesen Sie eine Tabelle ein.");
}

TEST(PrintTest, UnfinishedPlanIsSaid) {
    EXPECT_EQ(shotListPdf(Plan{}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(slateCardsPdf(Plan{}).error().code, ErrorCode::InvalidInput);
    Plan plan = printedPlan();
    plan.implements[0].name = std::string(2400, 'x');
    EXPECT_EQ(slateCardsPdf(plan).error().code, ErrorCode::InvalidInput);
}

}  // namespace
}  // namespace core::plan
