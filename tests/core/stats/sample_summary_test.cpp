#include "core/stats/sample/sample_summary.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

// Digits asked of the standard deviation of a NIST StRD univariate set. NumAcc3 and NumAcc4 shift
// data of spread 0.1 to 1e6 and 1e7: rounding the data to double alone costs all but 9.4 and 8.2
// digits, whatever the method.
double digitsPossible(const std::string& dataset) {
    if (dataset == "NumAcc3") {
        return 9.4;
    }
    if (dataset == "NumAcc4") {
        return 8.2;
    }
    return dataset == "Mavro" || dataset == "Michelso" ? 12.5 : 14.0;
}

class StrdUnivariate : public testing::TestWithParam<std::size_t> {};

// National Institute of Standards and Technology, Statistical Reference Datasets, certified values.
TEST_P(StrdUnivariate, MeanAndDeviationHaveTheCertifiedDigits) {
    const auto certified = ReferenceTable::load("strd/certified_univariate.csv");
    const std::string name = certified.text(GetParam(), "dataset");
    const auto values = ReferenceTable::load("strd/univariate_" + name + ".csv").numbers("y");
    const auto summary = summarise(values);
    ASSERT_TRUE(summary.has_value()) << summary.error().message;
    EXPECT_EQ(summary.value().count, static_cast<std::size_t>(certified.number(GetParam(), "n")));
    EXPECT_TRUE(agrees(summary.value().mean, certified.number(GetParam(), "mean"), 14.0)) << name;
    EXPECT_TRUE(agrees(summary.value().spread->standardDeviation,
                       certified.number(GetParam(), "sd"), digitsPossible(name)))
        << name;
}

INSTANTIATE_TEST_SUITE_P(AllSets, StrdUnivariate, testing::Range<std::size_t>(0, 9));

// Student 1908, Biometrika 6:1-25, extra hours of sleep with drug 2; R 4.2.2 t.test.
TEST(SampleSummary, StudentsSleepIntervalIsThatOfR) {
    const std::vector<double> drug2{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
    const auto table = ReferenceTable::load("tables/t_tests_sleep.csv");
    ASSERT_EQ(table.text(0, "test"), "one-sample drug 2");
    const auto summary = summarise(drug2).value();
    EXPECT_TRUE(agrees(summary.mean, table.number(0, "estimate"), 15.0));
    EXPECT_TRUE(agrees(summary.spread->meanInterval.low, table.number(0, "ci95_low"), 11.0));
    EXPECT_TRUE(agrees(summary.spread->meanInterval.high, table.number(0, "ci95_high"), 11.0));
}

// Same source: paired t interval of drug 1 minus drug 2.
TEST(SampleSummary, StudentsPairedIntervalIsThatOfR) {
    const std::vector<double> differences{-1.2, -2.4, -1.3, -1.3, 0.0,
                                          -1.0, -1.8, -0.8, -4.6, -1.4};
    const auto table = ReferenceTable::load("tables/t_tests_sleep.csv");
    ASSERT_EQ(table.text(1, "test"), "paired 1-2");
    const auto summary = summarise(differences).value();
    EXPECT_TRUE(agrees(summary.spread->meanInterval.low, table.number(1, "ci95_low"), 11.0));
    EXPECT_TRUE(agrees(summary.spread->meanInterval.high, table.number(1, "ci95_high"), 11.0));
}

TEST(SampleSummary, MedianOfAnEvenCountIsTheMeanOfTheMiddlePair) {
    const std::vector<double> four{9.0, 1.0, 4.0, 2.0};
    const std::vector<double> five{9.0, 1.0, 4.0, 2.0, 3.0};
    EXPECT_DOUBLE_EQ(median(four), 3.0);
    EXPECT_DOUBLE_EQ(median(five), 3.0);
}

TEST(SampleSummary, OneValueHasNoSpread) {
    const std::vector<double> one{1500.0};
    const auto summary = summarise(one).value();
    EXPECT_EQ(summary.count, 1U);
    EXPECT_DOUBLE_EQ(summary.mean, 1500.0);
    EXPECT_FALSE(summary.spread.has_value());
}

TEST(SampleSummary, BadInputIsNamed) {
    const std::vector<double> none;
    EXPECT_EQ(summarise(none).error().code, ErrorCode::InvalidInput);
    const std::vector<double> broken{1.0, std::numeric_limits<double>::quiet_NaN()};
    const auto result = summarise(broken);
    EXPECT_EQ(result.error().code, ErrorCode::NotFinite);
    EXPECT_NE(result.error().message.find("value 2"), std::string::npos);
    const std::vector<double> two{1.0, 2.0};
    EXPECT_EQ(summarise(two, {1.0}).error().code, ErrorCode::OutOfRange);
}

}  // namespace
