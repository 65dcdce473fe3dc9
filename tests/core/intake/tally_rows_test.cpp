#include <gtest/gtest.h>

#include "core/intake/tallies.h"
#include "tests/support/in_german.h"
#include "tests/support/must.h"
#include "tests/support/reference_csv.h"

namespace tests::intake {
namespace {

using namespace core::intake;
using core::timebase::CaptureRate;

constexpr double kArithmetic = 1e-6;  // of a few divisions, relative to some 1000 rpm

TallySource at240() {
    TallySource source;
    source.rate = CaptureRate{{240}};
    return source;
}

Tally tallyOf(std::string_view text, const TallySource& source = at240()) {
    const auto sheet = must(tallySheetFrom(text));
    return must(readTally(sheet, proposeLayout(sheet), source));
}

std::string troubleOf(std::string_view text, const TallySource& source = at240()) {
    const auto sheet = must(tallySheetFrom(text));
    const auto tally = readTally(sheet, proposeLayout(sheet), source);
    EXPECT_FALSE(tally);
    return tally ? std::string{} : tally.error().message;
}

bool says(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

/// A project's values with these implements and hitters.
core::project::SnapshotPtr projectWith(std::vector<core::project::Implement> implements,
                                       std::vector<core::project::Hitter> hitters = {}) {
    auto snapshot = std::make_shared<core::project::Snapshot>();
    std::int64_t id = 0;
    for (auto& implement : implements) {
        implement.id = core::project::ImplementId{++id};
    }
    for (auto& hitter : hitters) {
        hitter.id = core::project::HitterId{++id};
    }
    snapshot->implements = core::project::Entities{std::move(implements)};
    snapshot->hitters = core::project::Entities{std::move(hitters)};
    return snapshot;
}

TEST(TallyRowsTest, FaultsAndHeadersAreSaidInGermanToo) {
    const core::InGerman german;
    EXPECT_EQ(roleWords(TallyRole::FramesPerTurn), "Bilder je Umdrehung");
    EXPECT_EQ(roleName(TallyRole::FramesPerTurn), "frames per turn");
    EXPECT_EQ(roleNamed("Bilder je Umdrehung"), TallyRole::FramesPerTurn);
    EXPECT_EQ(roleNamed("frames per turn"), TallyRole::FramesPerTurn);
    const auto tally = tallyOf("racket,hitter,frames\ngut,,12\ngut,Anna,400\n");
    ASSERT_EQ(tally.faults.size(), 1U);
    EXPECT_EQ(tally.faults.front().message, "Zeile 2, Spalte B: „Spieler“ fehlt.");
    ASSERT_EQ(tally.improbable.size(), 1U);
    EXPECT_EQ(tally.improbable.front().message,
              "Zeile 3, Spalte C: 400 Bilder für 1 Umdrehung bei 240 Bildern je Sekunde sind 36 "
              "U/min; geschlagene Bälle haben 60 bis 15000 U/min.");
}

// 4.8 over 5 turns are 24 frames, 5.25 over 4 are 21, 4.1 over 10 are 41 (README.md there).
TEST(TallyRowsTest, DecimalCommasCountOverSeveralTurns) {
    const auto sheet =
        must(readTallySheet(dataFolder() / "tallies" / "decimal_comma_windows1252.csv"));
    TallySource source;
    source.rate = CaptureRate{{120}};
    const auto tally = must(readTally(sheet, proposeLayout(sheet), source));
    ASSERT_EQ(tally.shots.size(), 3U);
    EXPECT_EQ(tally.shots[0].frames, 24);
    EXPECT_EQ(tally.shots[0].turns, 5);
    EXPECT_EQ(tally.shots[1].frames, 21);
    EXPECT_EQ(tally.shots[2].frames, 41);
    EXPECT_NEAR(tally.shots[2].spin().rpm, 60.0 * 10 * 120 / 41, kArithmetic);
    EXPECT_EQ(tally.attributes.at({"Gut 24 kg", ""}),
              (std::map<std::string, std::string>{{"Mass (g)", "95,5"}}));
}

// "Frames" are those over all turns, unlike "frames per turn".
TEST(TallyRowsTest, FramesAreCountedOverAllTurns) {
    const auto tally = tallyOf("racket,who,frames,turns\ngut,A,24,5\n");
    ASSERT_EQ(tally.shots.size(), 1U);
    EXPECT_EQ(tally.shots[0].frames, 24);
    EXPECT_NEAR(tally.shots[0].spin().rpm, 60.0 * 5 * 240 / 24, kArithmetic);
}

TEST(TallyRowsTest, EveryFaultNamesRowAndColumn) {
    const auto tally = tallyOf(
        "implement,hitter,frames per turn,turns,fps\ngut,A,10,1,240\ngut,,10,1,240\n"
        "gut,A,ten,1,240\ngut,A,4.75,2,240\ngut,A,10,0,240\ngut,A,1,1,240\n,A,10,1,\n",
        {});
    EXPECT_EQ(tally.shots.size(), 1U);
    const std::vector<std::string_view> places{
        "Row 3, column B: the hitter is missing.", "Row 4, column C: \"ten\"",
        "Row 5, column C: 4.75 frames per turn",   "Row 6, column D: 0 cannot be",
        "Row 7, column C: fewer than two frames",  "Row 8, column A: the implement is missing."};
    ASSERT_EQ(tally.faults.size(), places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
        EXPECT_TRUE(tally.faults[i].message.starts_with(places[i])) << tally.faults[i].message;
    }
    EXPECT_TRUE(says(whatHoldsUp(tally, {}), "Row 8"));
    TallySource leavingOut;
    leavingOut.leaveOutBadRows = true;
    EXPECT_EQ(whatHoldsUp(tally, leavingOut), "");
}

// An empty count in a row of several is a shot that was not made; a wrong one takes the row along.
TEST(TallyRowsTest, AWideRowIsLeftOutAsAWhole) {
    const auto tally = tallyOf("racket,who,1,2,3\ngut,A,5,,6\ngut,B,5,x,6\npoly,A,,,\n");
    EXPECT_EQ(tally.shots.size(), 2U);
    ASSERT_EQ(tally.faults.size(), 1U);
    EXPECT_TRUE(says(tally.faults[0].message, "Row 3, column D: \"x\""));
    EXPECT_EQ(tally.remarks, std::vector<std::string>{"1 row has no count and adds no shot."});
}

TEST(TallyRowsTest, AFieldInAColumnWithoutANameIsTold) {
    EXPECT_EQ(tallyOf("racket,who,frames\ngut,A,5\ngut,A,5,extra\n").remarks,
              std::vector<std::string>{
                  "Column D has no name and is left out; row 3 has \"extra\" there."});
}

// "1,000" frames a second once became 1: 12 rpm in the place of 12000.
TEST(TallyRowsTest, ANumberWithTwoReadingsIsAskedAbout) {
    const std::string_view text = "implement;hitter;frames;fps\ngut;A;5;1,000\n";
    TallySource source;
    const auto asked = tallyOf(text, source);
    EXPECT_TRUE(asked.hasTwoReadings);
    ASSERT_EQ(asked.faults.size(), 1U);
    EXPECT_TRUE(says(asked.faults[0].message, "Row 2, column D: \"1,000\" can mean 1000 or 1.000"));
    source.comma = core::CommaMeaning::Thousands;
    EXPECT_NEAR(tallyOf(text, source).shots.at(0).spin().rpm, 12000.0, kArithmetic);
    source.comma = core::CommaMeaning::Decimal;
    const auto slow = tallyOf(text, source);
    EXPECT_FALSE(slow.hasTwoReadings);
    ASSERT_EQ(slow.improbable.size(), 1U);
    EXPECT_TRUE(says(slow.improbable[0].message, "are 12 rpm; struck balls have 60 to 15000 rpm"));
}

// 60·240/5 = 2880 and 60·240/55 = 262 rpm, a factor 11 (the median of three 5s and a 55 is a 5);
// 14 frames are a factor 2.8 and pass, 15 are a factor 3 and do not.
TEST(TallyRowsTest, ACountFarFromItsCellIsHeldUp) {
    const auto tally =
        tallyOf("racket,who,1,2,3,4\ngut,A,5,5,55,5\ngut,B,5,5,5,14\ngut,C,5,5,15,5\n");
    ASSERT_EQ(tally.improbable.size(), 2U);
    EXPECT_EQ(tally.improbable[0].message,
              "Row 2, column E: 55 frames over 1 turn at 240 per second are 262 rpm; the median of "
              "gut with A is 2880 rpm, a factor 11.0 apart.");
    EXPECT_TRUE(says(tally.improbable[1].message, "Row 4, column E"));
    EXPECT_TRUE(says(whatHoldsUp(tally, at240()), "Row 2, column E"));
    TallySource accepting = at240();
    accepting.acceptImprobable = true;
    EXPECT_EQ(whatHoldsUp(tally, accepting), "");
}

// Cells of one or two counts are seen among those of the implement, these among the whole table.
TEST(TallyRowsTest, SmallCellsAreSeenWithTheImplementOrTheTable) {
    const auto byImplement = tallyOf("racket,who,frames\ngut,A,5\ngut,B,55\ngut,C,6\n");
    ASSERT_EQ(byImplement.improbable.size(), 1U);
    EXPECT_TRUE(says(byImplement.improbable[0].message, "the median of gut is 2400 rpm"));
    const auto byTable = tallyOf("racket,who,frames\ngut,A,5\npoly,A,55\nrope,A,6\n");
    ASSERT_EQ(byTable.improbable.size(), 1U);
    EXPECT_TRUE(says(byTable.improbable[0].message, "the median of the table is 2400 rpm"));
    EXPECT_TRUE(tallyOf("racket,who,frames\ngut,A,5\npoly,A,55\n").improbable.empty());
}

TEST(TallyRowsTest, AlikeNamesAreAskedAbout) {
    const std::string_view text =
        "racket,who,frames\nSet 3,Zo\u00EB,5\nset  3,ZO\u00CB,6\nSet 4,A,6\n";
    const auto asked = tallyOf(text);
    ASSERT_EQ(asked.alike.size(), 2U);
    EXPECT_EQ(asked.alike[0].names, (std::vector<std::string>{"Set 3", "set  3"}));
    EXPECT_EQ(asked.alike[1].kind, "hitter");
    EXPECT_TRUE(says(whatHoldsUp(asked, at240()), "\"Set 3\" and \"set  3\""));
    TallySource source = at240();
    source.alike = AlikeNames::Join;
    const auto joined = tallyOf(text, source);
    EXPECT_TRUE(joined.alike.empty());
    EXPECT_EQ(joined.shots[1].implement, "Set 3");
    EXPECT_EQ(joined.shots[1].hitter, "Zo\u00EB");
    source.alike = AlikeNames::KeepApart;
    EXPECT_EQ(tallyOf(text, source).shots[1].implement, "set  3");
}

TEST(TallyRowsTest, TheProjectsSpellingGoesFirst) {
    TallySource source = at240();
    source.project =
        projectWith({{{}, "SET 3", "new", {}}, {{}, "Gut", "", {}}, {{}, "gut", "", {}}});
    const auto asked = tallyOf("racket,who,frames\nSet 3,A,5\ngut,A,5\n", source);
    ASSERT_EQ(asked.alike.size(), 1U) << "gut is spelled as the project has it";
    EXPECT_EQ(asked.alike[0].names.front(), "SET 3");
    source.alike = AlikeNames::Join;
    const auto joined = tallyOf("racket,who,frames\nSet 3,A,5\ngut,A,5\n", source);
    EXPECT_EQ(joined.shots[0].implement, "SET 3");
    EXPECT_EQ(joined.shots[0].condition, "new");
    EXPECT_EQ(joined.shots[1].implement, "gut");
}

TEST(TallyRowsTest, WithoutAConditionTheOnlyOneIsTaken) {
    TallySource source = at240();
    source.project = projectWith({{{}, "gut", "new", {}},
                                  {{}, "poly", "new", {}},
                                  {{}, "poly", "worn", {}},
                                  {{}, "rope", "", {}},
                                  {{}, "rope", "old", {}}});
    const auto tally = tallyOf("racket,who,frames\ngut,A,5\npoly,A,5\nrope,A,5\n", source);
    EXPECT_EQ(tally.shots[0].condition, "new");
    EXPECT_EQ(tally.shots[1].condition, "");
    EXPECT_EQ(tally.shots[2].condition, "");
    EXPECT_EQ(tally.remarks,
              (std::vector<std::string>{"gut without a condition is taken for gut (new).",
                                        "poly without a condition is an implement of its own, "
                                        "beside those that are new, worn."}));
    // Whatever the order of the rows.
    const auto within = tallyOf("racket,condition,who,frames\ngut,,A,5\ngut,new,A,5\n");
    EXPECT_EQ(within.shots[0].condition, "new");
}

TEST(TallyRowsTest, AnAttributeHasOneValue) {
    TallySource source = at240();
    source.project = projectWith({{{}, "gut", "", {{"mass", "95"}}}});
    const auto sheet = must(tallySheetFrom(
        "racket,who,frames,mass\ngut,A,5,95\ngut,A,5,90\npoly,A,5,97\npoly,A,5,\npoly,A,5,98\n"));
    auto layout = proposeLayout(sheet);
    EXPECT_EQ(layout[3].role, TallyRole::LeaveOut);
    layout[3].role = TallyRole::Attribute;
    const auto tally = must(readTally(sheet, layout, source));
    ASSERT_EQ(tally.faults.size(), 2U);
    EXPECT_EQ(tally.faults[0].message,
              "Row 3, column D: mass of gut is 90 here and 95 in the project. Make them equal, or "
              "leave the column out.");
    EXPECT_TRUE(says(tally.faults[1].message, "98 here and 97 in row 4"));
    EXPECT_EQ(tally.shots.size(), 3U);
    EXPECT_EQ(tally.attributes.size(), 1U) << "the project knows that of gut";
}

TEST(TallyRowsTest, WhatIsMissingInTheLayoutIsSaid) {
    EXPECT_TRUE(says(troubleOf("a,b\n1,5\n"), "No column is known to hold the implement"));
    EXPECT_TRUE(says(troubleOf("racket,frames\ngut,5\n"), "the hitter"));
    EXPECT_TRUE(says(troubleOf("racket,who\ngut,A\n"), "hold the counts"));
    EXPECT_TRUE(says(troubleOf("racket,who,frames\ngut,A,5\n", {}), "frames per second"));
    TallySource source = at240();
    source.hitter = "A";
    EXPECT_EQ(tallyOf("racket,frames\ngut,5\n", source).shots.at(0).hitter, "A");
}

TEST(TallyRowsTest, ALayoutThatContradictsItselfIsRefused) {
    const auto sheet = must(tallySheetFrom("racket,who,frames,a,b\ngut,A,5,x,y\n"));
    const auto trouble = [&sheet](std::size_t column, TallyRole role) {
        auto layout = proposeLayout(sheet);
        layout[column] = {role, {}};
        const auto tally = readTally(sheet, layout, at240());
        EXPECT_FALSE(tally);
        return tally ? std::string{} : tally.error().message;
    };
    EXPECT_TRUE(says(trouble(3, TallyRole::Hitter), "The columns B and D are both"));
    EXPECT_TRUE(says(trouble(3, TallyRole::StartFrame), "start frame"));
    EXPECT_TRUE(says(trouble(3, TallyRole::FramesPerTurn), "frames per turn"));
    EXPECT_EQ(readTally(sheet, {}, at240()).error().code, core::ErrorCode::InvalidInput);
}

}  // namespace
}  // namespace tests::intake
