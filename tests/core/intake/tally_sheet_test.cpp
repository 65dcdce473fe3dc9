#include "core/intake/tally_sheet.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <tuple>

#include "core/intake/tallies.h"
#include "tests/support/must.h"
#include "tests/support/reference_csv.h"

namespace tests::intake {
namespace {

using namespace core::intake;
using core::TextEncoding;
using core::timebase::CaptureRate;
using Counted = std::tuple<std::string, std::string, std::int64_t>;

/// A file of tests/data/tallies, and what is to be recognised of it.
struct Fixture {
    const char* file;
    TextEncoding encoding;
    char separator;
    TallyShape shape;
};

// The names of the files say how they were made, see README.md beside them.
const std::vector<Fixture>& fixtures() {
    using enum TextEncoding;
    using enum TallyShape;
    static const std::vector<Fixture> kFixtures{
        {"shots_utf8.csv", Utf8, ',', ShotRows},
        {"shots_utf8_mark_semicolon.csv", Utf8, ';', ShotRows},
        {"shots_windows1252_semicolon.csv", Windows1252, ';', ShotRows},
        {"cells_utf16le_mark_tab.txt", Utf16LittleEndian, '\t', CellRows},
        {"cells_utf16le_semicolon.csv", Utf16LittleEndian, ';', CellRows},
        {"cells_unnamed_windows1252.csv", Windows1252, ';', CellRows},
        {"blocks_two_headers_utf16be_mark.txt", Utf16BigEndian, '\t', HitterBlocks},
        {"blocks_numbered_utf16be.txt", Utf16BigEndian, '\t', HitterBlocks},
        {"blocks_unnamed_utf8.txt", Utf8, '\t', HitterBlocks},
        {"blocks_repeated_windows1252.txt", Windows1252, '\t', HitterBlocks}};
    return kFixtures;
}

TallySheet sheetIn(const std::string& file) {
    return must(readTallySheet(dataFolder() / "tallies" / file));
}

TallySheet sheetOf(std::string_view text) {
    return must(tallySheetFrom(text));
}

std::vector<TallyRole> rolesOf(const TallyLayout& layout) {
    std::vector<TallyRole> roles;
    for (const auto& column : layout) {
        roles.push_back(column.role);
    }
    return roles;
}

std::vector<TallyRole> guessed(std::string_view text) {
    return rolesOf(proposeLayout(sheetOf(text)));
}

TEST(TallySheetTest, EveryShapeAndEncodingHoldsTheSameShots) {
    std::vector<Counted> expected;
    for (const auto& [implement, hitter, counts] :
         {std::tuple{"Gut 24 kg", "A", std::array{5, 5, 6}},
          std::tuple{"Gut 24 kg", "Zo\u00EB", std::array{4, 5, 5}},
          std::tuple{"Poly bl\u00E9", "A", std::array{6, 6, 7}},
          std::tuple{"Poly bl\u00E9", "Zo\u00EB", std::array{5, 6, 6}}}) {
        for (const int frames : counts) {
            expected.emplace_back(implement, hitter, frames);
        }
    }
    for (const Fixture& fixture : fixtures()) {
        const TallySheet sheet = sheetIn(fixture.file);
        EXPECT_EQ(sheet.encoding, fixture.encoding) << fixture.file;
        EXPECT_EQ(sheet.separator, fixture.separator) << fixture.file;
        const TallyLayout layout = proposeLayout(sheet);
        EXPECT_EQ(shapeOf(layout), fixture.shape) << fixture.file;
        TallySource source;
        source.rate = CaptureRate{{120}};
        std::vector<Counted> shots;
        for (const TallyShot& shot : must(readTally(sheet, layout, source)).shots) {
            shots.emplace_back(shot.implement, shot.hitter, shot.frames);
        }
        std::sort(shots.begin(), shots.end());
        EXPECT_EQ(shots, expected) << fixture.file;
    }
}

TEST(TallySheetTest, HowItWasReadIsSaid) {
    const TallySheet sheet = sheetIn("blocks_numbered_utf16be.txt");
    EXPECT_EQ(
        describeSheet(sheet, proposeLayout(sheet)),
        "Read as UTF-16 (big-endian), separated by tabs: one row for each implement, the hitters "
        "side by side.");
}

TEST(TallySheetTest, HeadersAreGuessedByTheirWords) {
    using enum TallyRole;
    EXPECT_EQ(guessed("Player\tRacquet\tstart\tend\tCapture rate\tx\nA\tgut\t1\t9\t240\t\n"),
              (std::vector{Hitter, Implement, StartFrame, ReturnFrame, CaptureRate, LeaveOut}));
    EXPECT_EQ(guessed("Nr,bat,condition,who,frames/turn,turns,fps\n1,x,new,A,4.8,5,120\n"),
              (std::vector{Shot, Implement, Condition, Hitter, FramesPerTurn, Turns, CaptureRate}));
    EXPECT_EQ(guessed("name,implement,player,frames\na,b,c,5\n"),
              (std::vector{Attribute, Implement, Hitter, Frames}))
        << "the better word";
    EXPECT_EQ(guessed("racket,who,frames,start,end\ngut,A,10,5,15\n"),
              (std::vector{Implement, Hitter, Frames, LeaveOut, LeaveOut}))
        << "one kind of counts";
    EXPECT_EQ(guessed("Raqueta;hitter;frames\ngut;A;5\n"), (std::vector{Implement, Hitter, Frames}))
        << "the first column of words";
}

// Mass is one for each racket; the temperature is not, and a mean is made from the counts.
// Whatever the person speaks: a table is in the language of whoever made it.
TEST(TallySheetTest, HeadersAreGuessedByGermanWordsToo) {
    using enum TallyRole;
    EXPECT_EQ(guessed("Schläger;Zustand;Spieler;Schlag;Bilder je Umdrehung;Umdrehungen;Bildrate;"
                      "Drehzahl\nDarm;neu;Anna;1;4,8;5;120;1500\n"),
              (std::vector{Implement, Condition, Hitter, Shot, FramesPerTurn, Turns, CaptureRate,
                           LeaveOut}));
    EXPECT_EQ(guessed("Gerät,Spieler,Startbild,Wiederkehrbild\nDarm,Anna,3,12\n"),
              (std::vector{Implement, Hitter, StartFrame, ReturnFrame}));
    EXPECT_EQ(guessed("Besaitung,Spieler,Schlag 1,Schlag 2\nDarm,Anna,9,12\n"),
              (std::vector{Implement, Hitter, Frames, Frames}));
}

TEST(TallySheetTest, AFurtherColumnIsAnAttributeWhenEveryImplementHasOneValue) {
    using enum TallyRole;
    EXPECT_EQ(guessed("racket,hitter,mass,frames,temperature,mean\n"
                      "gut,A,95,5,20,5\ngut,B,95,6,21,6\npoly,A,,5,20,5\n"),
              (std::vector{Implement, Hitter, Attribute, Frames, LeaveOut, LeaveOut}));
}

TEST(TallySheetTest, NumberedUnnamedAndRepeatedColumnsAreCounts) {
    using enum TallyRole;
    const std::vector wide{Implement, Hitter, Frames, Frames};
    for (const char* header :
         {"racket,who,1,2", "racket,who,Shot 1,Shot 2", "racket,who,#1,#2",
          "racket,who,frames 1,frames 2", "racket,who,,", "racket,who,Hit no. 1,Hit no. 2",
          "racket,who,(1),(2)", "racket,who,\"Shot\n1\",\"Shot\n2\"", "racket,who,frames,",
          "racket,who,frames,frames"}) {
        EXPECT_EQ(guessed(std::string{header} + "\ngut,A,5,6\n"), wide) << header;
    }
    EXPECT_EQ(guessed("racket,who,mass,,\ngut,A,95,5,6\n"),
              (std::vector{Implement, Hitter, Attribute, Frames, Frames}));
}

TEST(TallySheetTest, NumberedNamesAreHitters) {
    const auto layout =
        proposeLayout(sheetOf("racket,Anna 1,Anna 2,\"Ben, shot 1\",Ben (2)\ngut,5,6,7,8\n"));
    ASSERT_EQ(shapeOf(layout), TallyShape::HitterBlocks);
    EXPECT_EQ(layout[2].hitter, "Anna");
    EXPECT_EQ(layout[3].hitter, "Ben");
    EXPECT_EQ(layout[4].hitter, "Ben");
}

TEST(TallySheetTest, ATitleIsPassedOverAndATableWithoutHeaderKeepsItsFirstRow) {
    const TallySheet titled = sheetOf("Counts\nof May\n\nracket;who;1;2\ngut;A;5;6\n");
    EXPECT_EQ(titled.headers, (std::vector<std::string>{"racket", "who", "1", "2"}));
    ASSERT_EQ(titled.rows.size(), 1U);
    EXPECT_EQ(titled.rows[0].number, 5U);
    const TallySheet blocks = sheetOf("racket\n;1;2\ngut;5;6\n");
    EXPECT_EQ(blocks.headers, (std::vector<std::string>{"racket", "1", "2"}))
        << "a word alone above numbers of shots is no title";
    const TallySheet bare = sheetOf("gut,A,10\npoly,A,11\n");
    EXPECT_EQ(bare.rows.size(), 2U);
    EXPECT_EQ(columnLabel(bare, 2), "column C");
    EXPECT_EQ(columnLabelled(bare, "C"), std::optional<std::size_t>{2});
    EXPECT_EQ(tallySheetFrom("\n\n").error().code, core::ErrorCode::InvalidInput);
}

TEST(TallySheetTest, AShapeCanBeChosen) {
    const TallySheet sheet = sheetOf("racket,Anna,Ben\ngut,5,6\npoly,6,7\n");
    EXPECT_EQ(shapeOf(proposeLayout(sheet)), TallyShape::ShotRows);
    const TallyLayout blocks = proposeLayout(sheet, TallyShape::HitterBlocks);
    ASSERT_EQ(shapeOf(blocks), TallyShape::HitterBlocks);
    EXPECT_EQ(blocks[1].hitter, "Anna");
    EXPECT_EQ(blocks[2].hitter, "Ben");
    EXPECT_EQ(shapeOf(proposeLayout(sheet, TallyShape::CellRows)), TallyShape::CellRows);
    for (const TallyShape shape : kTallyShapes) {
        EXPECT_EQ(shapeNamed(shapeName(shape)), shape);
    }
    EXPECT_EQ(shapeNamed("round"), std::nullopt);
}

TEST(TallySheetTest, AColumnTakesARoleFromAnother) {
    using enum TallyRole;
    const std::vector<TallyColumn> start{{Implement, {}}, {Hitter, {}}, {Frames, {}}, {Frames, {}}};
    const auto assigned = [&start](std::size_t column, TallyRole role) {
        TallyLayout layout = start;
        assignRole(layout, column, role);
        return rolesOf(layout);
    };
    EXPECT_EQ(assigned(0, Hitter), (std::vector{Hitter, LeaveOut, Frames, Frames}));
    EXPECT_EQ(assigned(3, FramesPerTurn),
              (std::vector{Implement, Hitter, FramesPerTurn, FramesPerTurn}));
    EXPECT_EQ(assigned(3, StartFrame), (std::vector{Implement, Hitter, LeaveOut, StartFrame}));
    EXPECT_EQ(assigned(3, Attribute), (std::vector{Implement, Hitter, Frames, Attribute}));
    TallyLayout block{{Implement, {}}, {Frames, "Anna"}};
    assignRole(block, 1, Attribute);
    EXPECT_EQ(block[1].hitter, "");
}

TEST(TallySheetTest, RolesAndColumnsAreFoundByName) {
    EXPECT_EQ(roleNamed("Frames per turn"), TallyRole::FramesPerTurn);
    EXPECT_EQ(roleNamed("leave out"), TallyRole::LeaveOut);
    EXPECT_EQ(roleNamed("colour"), std::nullopt);
    const TallySheet sheet = sheetIn("blocks_two_headers_utf16be_mark.txt");
    EXPECT_EQ(columnLabelled(sheet, "zo\u00CB 2"), std::optional<std::size_t>{5});
    EXPECT_EQ(columnLabelled(sheet, "B 2"), std::nullopt);
}

TEST(TallySheetTest, FilesThatAreNotThereOrNoTableAreNamed) {
    EXPECT_EQ(readTallySheet(dataFolder() / "none.csv").error().code, core::ErrorCode::NotFound);
    const auto film = readTallySheet(dataFolder() / "footage" / "slow_240in30_tagged.mp4");
    ASSERT_FALSE(film);
    EXPECT_EQ(film.error().code, core::ErrorCode::InvalidInput);
    EXPECT_NE(film.error().message.find("slow_240in30_tagged.mp4"), std::string::npos);
}

}  // namespace
}  // namespace tests::intake
