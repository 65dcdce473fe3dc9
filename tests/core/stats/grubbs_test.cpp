#include "core/stats/sample/grubbs.h"

#include <gtest/gtest.h>

#include <limits>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

TEST(Grubbs, CriticalValuesAreThoseOfTheFormula) {  // Grubbs 1969, evaluated with R 4.2.2
    const auto table = ReferenceTable::load("tables/grubbs_critical.csv");
    ASSERT_EQ(table.rowCount(), 28U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const auto n = static_cast<std::size_t>(table.number(row, "n"));
        EXPECT_TRUE(agrees(grubbsCritical(n, {0.05}), table.number(row, "two_sided_0.05"), 10.5));
        EXPECT_TRUE(agrees(grubbsCritical(n, {0.01}), table.number(row, "two_sided_0.01"), 10.5));
        EXPECT_TRUE(agrees(grubbsCritical(n, {0.10}), table.number(row, "one_sided_0.05"), 10.5));
    }
}

// Grubbs and Beck 1972, Technometrics 14:847-854, table 1, as printed to three decimals; the 2.5 %
// and 0.5 % columns are also table 5 of ISO 5725-2:1994. Not every cell is printed.
TEST(Grubbs, CriticalValuesMatchThePrintedTable) {
    constexpr double kLastPrintedDigit = 0.001;  // the table rounds and truncates
    struct Column {
        const char* name;
        double twoSided;
    };
    constexpr Column kColumns[] = {{"one_sided_0.05", 0.10},
                                   {"one_sided_0.01", 0.02},
                                   {"one_sided_0.025", 0.05},
                                   {"one_sided_0.005", 0.01}};
    const auto table = ReferenceTable::load("tables/grubbs_published.csv");
    int printed = 0;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const auto n = static_cast<std::size_t>(table.number(row, "n"));
        for (const auto& [name, twoSided] : kColumns) {
            if (!table.text(row, name).empty()) {
                EXPECT_NEAR(grubbsCritical(n, {twoSided}), table.number(row, name),
                            kLastPrintedDigit)
                    << n << ' ' << name;
                ++printed;
            }
        }
    }
    EXPECT_EQ(printed, 92);
}

// NIST/SEMATECH e-Handbook 1.3.5.17.1: G = 2.4687 (data and figure from memory, matched).
TEST(Grubbs, HandbookExampleIsAnOutlier) {
    const std::vector<double> masses{199.31, 199.53, 200.19, 200.82,
                                     201.92, 201.95, 202.18, 245.57};
    const auto result = grubbsTest(masses).value();
    const auto expected = ReferenceTable::load("tables/grubbs_example.csv");
    ASSERT_EQ(expected.text(3, "quantity"), "G max");
    EXPECT_EQ(result.index, 7U);
    EXPECT_TRUE(agrees(result.statistic, expected.number(3, "computed"), 11.0));
    EXPECT_EQ(result.word, OutlierWord::Outlier);
}

// n = 5: 5 % critical 1.715, 1 % critical 1.764. Values 0, 0, 1, 1 and x = 6: mean 1.6, s = 2.51,
// G = 1.753; with x = 2.5: mean 0.9, s = 1.02, G = 1.56; with x = 20: G = 1.78.
TEST(Grubbs, WordsFollowTheTwoLevels) {
    const auto wordFor = [](double last) {
        const std::vector<double> values{0.0, 0.0, 1.0, 1.0, last};
        return grubbsTest(values).value().word;
    };
    EXPECT_EQ(wordFor(2.5), OutlierWord::Ordinary);
    EXPECT_EQ(wordFor(6.0), OutlierWord::Straggler);
    EXPECT_EQ(wordFor(20.0), OutlierWord::Outlier);
    EXPECT_EQ(wordFor(-19.0), OutlierWord::Outlier);  // the low side counts as well
}

ReadingLikelihood countOf(double frames) {
    return ReadingLikelihood::bounded({7200.0 / (frames + 0.5), 7200.0 / (frames - 0.5)}, 1.0);
}

TEST(GrubbsOfReadings, IsGrubbsTestForExactOnes) {
    std::vector<double> values{1412.0, 1377.5, 1490.25, 1455.0, 1398.0, 2431.0};
    std::vector<ReadingLikelihood> readings;
    for (const double value : values) {
        readings.push_back(ReadingLikelihood::normal(value, 0.0));
    }
    const double expected = grubbsTest(values).value().statistic;
    EXPECT_EQ(grubbsTest(readings).value().statistic, expected);
    // The same by the gain in likelihood, which one uncertain reading asks for.
    readings.front().sigma = 1e-3;
    EXPECT_NEAR(grubbsTest(readings).value().statistic, expected, 1e-4);
    EXPECT_EQ(grubbsTest(readings).value().index, 5U);
}

// Five counts of 5 and one of 6: of the rounded rates Grubbs' test calls the one an outlier.
TEST(GrubbsOfReadings, ANeighbouringCountIsNoOutlier) {
    for (const std::size_t count : {5U, 9U, 19U, 99U}) {
        std::vector<ReadingLikelihood> readings(count, countOf(5.0));
        readings.push_back(countOf(6.0));
        std::vector<double> rates;
        for (const auto& reading : readings) {
            rates.push_back(reading.value);
        }
        EXPECT_EQ(grubbsTest(rates).value().word, OutlierWord::Outlier) << count;
        EXPECT_EQ(grubbsTest(readings).value().word, OutlierWord::Ordinary) << count;
    }
    std::vector<ReadingLikelihood> readings(19, countOf(5.0));
    readings.push_back(countOf(9.0));
    EXPECT_EQ(grubbsTest(readings).value().word, OutlierWord::Outlier);
    EXPECT_EQ(grubbsTest(readings).value().index, 19U);
}

TEST(Grubbs, EqualValuesHaveNoOutlier) {
    const std::vector<double> equal(5, 1440.0);
    EXPECT_EQ(grubbsTest(equal).value().word, OutlierWord::Ordinary);
}

TEST(Grubbs, BadInputIsNamed) {
    const std::vector<double> two{1.0, 2.0};
    const std::vector<double> broken{1.0, 2.0, std::numeric_limits<double>::quiet_NaN()};
    EXPECT_EQ(grubbsTest(two).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(grubbsTest(broken).error().code, ErrorCode::NotFinite);
}

}  // namespace
