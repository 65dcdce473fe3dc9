#include "core/stats/comparison/cochran.h"

#include <gtest/gtest.h>

#include <random>
#include <vector>

#include "core/stats/sample/moments.h"

namespace {

using namespace core::stats;
using core::ErrorCode;

// Variances of which the first has a share c in the sum.
std::vector<ScatterOfCell> withShare(double c, int cells, int values) {
    std::vector<ScatterOfCell> all;
    for (int i = 0; i < cells; ++i) {
        all.push_back({i == 0 ? c : (1.0 - c) / (cells - 1), {values - 1.0}, 0.0});
    }
    return all;
}

struct Critical {
    int cells;
    int values;
    double onePercent;
    double fivePercent;
};

// ISO 5725-2:1994, table 4, critical values of Cochran's test, printed to three places.
TEST(CochranTest, HasTheCriticalValuesOfTheStandard) {
    for (const Critical& c :
         {Critical{5, 2, 0.928, 0.841}, Critical{5, 3, 0.788, 0.684}, Critical{5, 4, 0.696, 0.598},
          Critical{5, 5, 0.633, 0.544}, Critical{5, 6, 0.588, 0.506}, Critical{10, 2, 0.718, 0.602},
          Critical{10, 3, 0.536, 0.445}}) {
        constexpr double kPrinted = 0.001;
        const auto word = [&c](double share) {
            return cochranTest(withShare(share, c.cells, c.values)).value().word;
        };
        EXPECT_EQ(word(c.fivePercent - kPrinted), OutlierWord::Ordinary) << c.cells << c.values;
        EXPECT_EQ(word(c.fivePercent + kPrinted), OutlierWord::Straggler) << c.cells << c.values;
        EXPECT_EQ(word(c.onePercent - kPrinted), OutlierWord::Straggler) << c.cells << c.values;
        EXPECT_EQ(word(c.onePercent + kPrinted), OutlierWord::Outlier) << c.cells << c.values;
    }
}

TEST(CochranTest, OthersScatterByWhatRoundingMakesAtLeast) {
    std::vector<ScatterOfCell> cells(6, {0.0, {9.0}, 100.0});
    cells[2].variance = 110.0;
    EXPECT_EQ(cochranTest(cells).value().word, OutlierWord::Ordinary);
    cells[2].variance = 1000.0;
    EXPECT_EQ(cochranTest(cells).value().word, OutlierWord::Outlier);
    EXPECT_EQ(cochranTest(cells).value().index, 2U);
}

TEST(CochranTest, RefusesWhatCannotBeCompared) {
    EXPECT_EQ(cochranTest(withShare(0.5, 2, 5)).value().word, OutlierWord::Ordinary);
    EXPECT_EQ(cochranTest(std::vector<ScatterOfCell>{{1.0, {3.0}, 0.0}}).error().code,
              ErrorCode::InvalidInput);
    EXPECT_EQ(
        cochranTest(std::vector<ScatterOfCell>{{1.0, {0.0}, 0.0}, {1.0, {2.0}, 0.0}}).error().code,
        ErrorCode::OutOfRange);
    EXPECT_EQ(
        cochranTest(std::vector<ScatterOfCell>{{-1.0, {2.0}, 0.0}, {1.0, {2.0}, 0.0}}).error().code,
        ErrorCode::OutOfRange);
}

}  // namespace
