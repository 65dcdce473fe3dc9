#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "core/project/store.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

namespace {

using nlohmann::json;

/// The command tallies on a new project.
class TalliesCommand : public ::testing::Test {
protected:
    tests::Finished run(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), TURNMARK_CLI);
        return tests::runProgram(arguments);
    }
    /// At 240 frames per second, with further options.
    tests::Finished import(const std::string& file,
                           const std::vector<std::string>& more = {}) const {
        std::vector<std::string> arguments{"tallies", project, file, "--capture-rate", "240"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return run(arguments);
    }
    [[nodiscard]] std::string write(const std::string& text) const {
        std::ofstream{folder.file("t.csv")} << text;
        return folder.file("t.csv");
    }
    static bool says(const std::string& text, std::string_view part) {
        return text.find(part) != std::string::npos;
    }
    [[nodiscard]] std::size_t shots() const {
        return std::filesystem::exists(project)
                   ? core::project::Store::open(project).value()->snapshot()->shots.size()
                   : 0;
    }

    tests::TemporaryFolder folder;
    std::string project{folder.file("p.turnmark")};
};

// 60·240/11 and 60·240/9: limits of ten whole frames counted at 240 a second.
TEST_F(TalliesCommand, TalliesAreTakenOnce) {
    std::ofstream{folder.file("t.csv")} << "Racket,Player,Count\ngut,A,10\n";
    const std::vector<std::string> arguments{"tallies",        project, folder.file("t.csv"),
                                             "--capture-rate", "240",   "--session",
                                             "notes",          "--json"};
    const auto first = run(arguments);
    ASSERT_EQ(first.status, 0) << first.errors;
    EXPECT_EQ(json::parse(first.output)["added"], 1);
    const auto second = run(arguments);
    EXPECT_EQ(json::parse(second.output)["added"], 0);
    EXPECT_EQ(json::parse(second.output)["already_there"], 1);
    const auto store = core::project::Store::open(project).value();
    const auto& reading = *store->snapshot()->readings.begin();
    constexpr double kArithmetic = 1e-6;
    EXPECT_NEAR(reading.bounds->low.rpm, 14400.0 / 11.0, kArithmetic);
    EXPECT_NEAR(reading.bounds->high.rpm, 1600.0, kArithmetic);
}

// 14400/10 and 14400/9: ten frames at 240 a second, the last one at or past the turn.
TEST_F(TalliesCommand, TalliesMakeTheProjectAndKeepHowWasCounted) {
    std::ofstream{folder.file("t.csv")} << "Racket,Player,Count\ngut,A,10\n";
    const std::string made = folder.file("new.turnmark");
    const auto wrong =
        run({"tallies", made, folder.file("t.csv"), "--capture-rate", "240", "--counted", "exact"});
    EXPECT_EQ(wrong.status, 1);
    EXPECT_NE(wrong.errors.find("nearest"), std::string::npos) << wrong.errors;
    EXPECT_FALSE(std::filesystem::exists(made));
    const auto done =
        run({"tallies", made, folder.file("t.csv"), "--capture-rate", "240", "--counted", "after"});
    ASSERT_EQ(done.status, 0) << done.errors;
    const auto store = core::project::Store::open(made).value();
    const auto& reading = *store->snapshot()->readings.begin();
    EXPECT_EQ(reading.habit, core::spin::CountingHabit::After);
    EXPECT_NEAR(reading.bounds->low.rpm, 1440.0, 1e-6);
    EXPECT_NEAR(reading.bounds->high.rpm, 1600.0, 1e-6);
}

TEST_F(TalliesCommand, TallyTroubleNamesRowAndColumn) {
    std::ofstream{folder.file("t.csv")} << "Racket,Player,Count\ngut,A,10\ngut,,11\n";
    const auto done = run({"tallies", project, folder.file("t.csv"), "--capture-rate", "240"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("Row 3, column B"), std::string::npos) << done.errors;
    const auto column = run({"tallies", project, folder.file("t.csv"), "--capture-rate", "240",
                             "--column", "hitter=Nobody"});
    EXPECT_EQ(column.status, 1);
    EXPECT_NE(column.errors.find("Nobody"), std::string::npos) << column.errors;
    EXPECT_FALSE(std::filesystem::exists(project)) << "nothing was left half done";
}

// tests/data/tallies/README.md: twelve counts in each file.
TEST_F(TalliesCommand, EveryShapeAndEncodingComesInAndThatIsSaid) {
    const auto data = tests::dataFolder() / "tallies";
    const auto done = import((data / "blocks_two_headers_utf16be_mark.txt").string());
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_TRUE(says(done.output,
                     "Read as UTF-16 (big-endian), separated by tabs: one row for each "
                     "implement, the hitters side by side."))
        << done.output;
    EXPECT_TRUE(says(done.output, "Zo\u00EB 3: frames of Zo\u00EB")) << done.output;
    EXPECT_TRUE(says(done.output, "12 shots added")) << done.output;
    const auto wide = import((data / "cells_unnamed_windows1252.csv").string(), {"--json"});
    ASSERT_EQ(wide.status, 0) << wide.errors;
    const json answer = json::parse(wide.output);
    EXPECT_EQ(answer["encoding"], "Windows-1252");
    EXPECT_EQ(answer["separator"], "semicolon");
    EXPECT_EQ(answer["shape"], "cells");
    EXPECT_EQ(answer["columns"][4]["holds"], "frames");
    EXPECT_EQ(answer["added"], 12);
    EXPECT_EQ(shots(), 24U);
}

TEST_F(TalliesCommand, BadRowsAreListedOrLeftOut) {
    const auto file = write("Racket,Player,Count\ngut,A,10\ngut,,11\ngut,A,ten\n");
    const auto listed = import(file);
    EXPECT_EQ(listed.status, 1);
    EXPECT_TRUE(says(listed.errors, "Row 3, column B: the hitter is missing.")) << listed.errors;
    EXPECT_TRUE(says(listed.errors, "Row 4, column C")) << listed.errors;
    EXPECT_TRUE(says(listed.errors, "--leave-out-bad-rows")) << listed.errors;
    EXPECT_EQ(shots(), 0U);
    const auto rest = import(file, {"--leave-out-bad-rows"});
    ASSERT_EQ(rest.status, 0) << rest.errors;
    EXPECT_TRUE(says(rest.output, "Left out: Row 3, column B")) << rest.output;
    EXPECT_TRUE(says(rest.output, "1 shot added")) << rest.output;
    EXPECT_EQ(shots(), 1U);
}

// 60·240/55 = 262 rpm is a factor 11 below the 2880 rpm of five frames.
TEST_F(TalliesCommand, ImprobableCountsAreHeldUpUntilAccepted) {
    const auto file = write("Racket,Player,1,2,3,4\ngut,A,5,5,55,5\n");
    const auto held = import(file);
    EXPECT_EQ(held.status, 1);
    EXPECT_TRUE(says(held.errors, "Row 2, column E: 55 frames")) << held.errors;
    EXPECT_TRUE(says(held.errors, "--accept-improbable")) << held.errors;
    const auto done = import(file, {"--accept-improbable"});
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_EQ(shots(), 4U);
}

TEST_F(TalliesCommand, AlikeNamesAreJoinedOrKeptApart) {
    const auto file = write("Racket,Player,Count\nSet 3,A,10\nset  3,A,11\n");
    const auto asked = import(file);
    EXPECT_EQ(asked.status, 1);
    EXPECT_TRUE(says(asked.errors, "\"Set 3\" and \"set  3\"")) << asked.errors;
    EXPECT_TRUE(says(asked.errors, "--join-alike")) << asked.errors;
    EXPECT_EQ(import(file, {"--join-alike", "--keep-apart"}).status, 2);
    ASSERT_EQ(import(file, {"--join-alike"}).status, 0);
    const auto store = core::project::Store::open(project).value();
    ASSERT_EQ(store->snapshot()->implements.size(), 1U);
    EXPECT_EQ(store->snapshot()->implements.begin()->name, "Set 3");
}

TEST_F(TalliesCommand, NamesAreKeptApartWhenAsked) {
    const auto file = write("Racket,Player,Count\nSet 3,A,10\nset 3,A,11\n");
    ASSERT_EQ(import(file, {"--keep-apart"}).status, 0);
    EXPECT_EQ(core::project::Store::open(project).value()->snapshot()->implements.size(), 2U);
}

// At 1000 frames per second 5 frames are 12000 rpm, at 1 they are 12.
TEST_F(TalliesCommand, WhatACommaMeansIsAskedAndCanBeSaid) {
    const auto file = write("Racket;Player;Count;fps\ngut;A;5;1,000\n");
    const auto asked = import(file);
    EXPECT_EQ(asked.status, 1);
    EXPECT_TRUE(says(asked.errors, "can mean 1000 or 1.000")) << asked.errors;
    EXPECT_TRUE(says(asked.errors, "--comma thousands")) << asked.errors;
    EXPECT_TRUE(says(import(file, {"--comma", "decimal"}).errors, "are 12 rpm"));
    ASSERT_EQ(import(file, {"--comma", "thousands"}).status, 0);
    EXPECT_EQ(import(file, {"--comma", "maybe"}).status, 1);
}

TEST_F(TalliesCommand, ColumnsShapeAndHitterCanBeSaid) {
    const auto file = write("Saite;x;Nr. I;Nr. II\ngut;95;10;11\n");
    const auto unknown = import(file, {"--hitter", "A"});
    EXPECT_EQ(unknown.status, 1);
    EXPECT_TRUE(says(unknown.errors, "hold the counts")) << unknown.errors;
    EXPECT_TRUE(says(unknown.errors, "Saite: implement")) << unknown.errors;
    const auto done = import(file, {"--hitter", "A", "--column", "frames=Nr. I", "--column",
                                    "frames=D", "--column", "attribute=x", "--json"});
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_EQ(json::parse(done.output)["shape"], "cells");
    const auto store = core::project::Store::open(project).value();
    EXPECT_EQ(store->snapshot()->shots.size(), 2U);
    EXPECT_EQ(store->snapshot()->hitters.begin()->name, "A");
    EXPECT_EQ(store->snapshot()->implements.begin()->attributes.at("x"), "95");
}

TEST_F(TalliesCommand, ACountThatIsSaidGoesBeforeOneThatWasGuessed) {
    const auto file = write("Racket,Player,Frames,Second look\ngut,A,10,12\n");
    const auto done = import(file, {"--column", "frames=Second look"});
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_TRUE(says(done.output, "Frames: leave out")) << done.output;
    EXPECT_EQ(shots(), 1U);
}

TEST_F(TalliesCommand, AShapeThatIsNotSeenCanBeSaid) {
    const auto file = write("Racket,Anna,Ben\ngut,10,11\n");
    EXPECT_EQ(import(file).status, 1);
    const auto wrong = import(file, {"--shape", "round"});
    EXPECT_EQ(wrong.status, 1);
    EXPECT_TRUE(says(wrong.errors, "hitters (one row for each implement")) << wrong.errors;
    const auto done = import(file, {"--shape", "hitters"});
    ASSERT_EQ(done.status, 0) << done.errors;
    EXPECT_TRUE(says(done.output, "Anna: frames of Anna")) << done.output;
    EXPECT_EQ(import(file, {"--column", "colour=Anna"}).status, 1);
}

}  // namespace
