#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <random>

#include "tests/support/demo_copy.h"

// The scripts that are published with the tables compute every number anew, in R and in Python,
// without the program.
namespace {

struct Season {
    std::vector<std::string> implements;  ///< "name,condition"
    std::string hitters;
    int shots{};
    double captureRateFps{};
    int turns{1};
};

/// A spreadsheet of whole-frame counts, seeded: implement k of the alphabet gives 900 + 60 k rpm,
/// hitter B 40 rpm more, shots scatter by 60 rpm.
void writeCounts(const std::string& file, const Season& season, unsigned seed) {
    std::mt19937 generator{seed};
    std::normal_distribution<double> shot{0.0, 60.0};
    std::ofstream out{file};
    out << "implement,condition,hitter,frames,turns,fps\n";
    for (const auto& implement : season.implements) {
        for (const char hitter : season.hitters) {
            for (int i = 0; i < season.shots; ++i) {
                const double rpm = 900.0 + 60.0 * (implement.front() - 'a') +
                                   (hitter == 'B' ? 40.0 : 0.0) + shot(generator);
                out << implement << ',' << hitter << ','
                    << std::lround(60.0 * season.captureRateFps * season.turns / rpm) << ','
                    << season.turns << ',' << season.captureRateFps << '\n';
            }
        }
    }
}

class Recompute : public ::testing::Test {
protected:
    void count(const Season& season, const std::string& habit, const std::string& day) {
        const std::string file = folder.file(day + ".csv");
        writeCounts(file, season, static_cast<unsigned>(day.size()));
        const auto done = tests::runProgram(
            {TURNMARK_CLI, "tallies", project(), file, "--counted", habit, "--session", day});
        ASSERT_EQ(done.status, 0) << done.errors;
    }
    [[nodiscard]] std::string project() const { return folder.file("counts.turnmark"); }

    void publishAndRecompute(const std::string& file) {
        const std::string out = folder.file("out");
        const auto done = tests::runProgram({TURNMARK_CLI, "publish", file, "--to", out, "--json"});
        ASSERT_EQ(done.status, 0) << done.errors;
        const auto python = tests::runProgram({"python3", out + "/recompute.py", out});
        EXPECT_EQ(python.status, 0) << python.output << python.errors;
        if (tests::runProgram({"sh", "-c", "command -v Rscript"}).status == 0) {
            const auto r = tests::runProgram({"Rscript", out + "/recompute.R", out});
            EXPECT_EQ(r.status, 0) << r.output << r.errors;
        }
        said = python.output;
    }
    tests::TemporaryFolder folder;
    std::string said;
};

TEST_F(Recompute, TheDemo) {
    const tests::DemoCopy demo;
    publishAndRecompute(demo.project().string());
    for (const char* table : {"readings", "summary", "implements", "ranking", "pairs",
                              "pairs_by_hitter", "drift", "trends"}) {
        EXPECT_NE(said.find(table), std::string::npos) << table << " is not in " << said;
    }
}

TEST_F(Recompute, ASeasonOfWholeFrameCounts) {
    Season season{{}, "AB", 10, 120.0};
    for (char name = 'a'; name < 'k'; ++name) {
        season.implements.push_back(std::string{name} + ",new");
    }
    count(season, "nearest", "season");
    publishAndRecompute(project());
}

// Two days, another habit and another camera on each, that share two implements; one of them is
// also there worn.
TEST_F(Recompute, TwoLinkedDays) {
    count({{"a,new", "b,new", "c,new", "c,worn", "d,new"}, "AB", 8, 240.0, 2}, "both", "day one");
    count({{"c,new", "d,new", "e,new", "f,new"}, "A", 8, 120.0}, "unknown", "the day after");
    publishAndRecompute(project());
    EXPECT_NE(said.find("conditions"), std::string::npos) << said;
    EXPECT_NE(tests::bytesOf(folder.path() / "out" / "comparisons.csv").find("additive"),
              std::string::npos);
}

}  // namespace
