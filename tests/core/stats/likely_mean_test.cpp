#include "core/stats/sample/likely_mean.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>
#include <sstream>
#include <vector>

#include "core/stats/sample/sample_likelihood.h"
#include "core/stats/sample/sample_summary.h"
#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using core::Interval;
using tests::ReferenceTable;

constexpr double kFramesPerMinute = 60.0 * 120.0;

ReadingLikelihood nearestOf(double count) {
    return ReadingLikelihood::bounded(
        {kFramesPerMinute / (count + 0.5), kFramesPerMinute / (count - 0.5)}, 1.0);
}

ReadingLikelihood countBy(const std::string& habit, double count) {
    if (habit == "nearest") {
        return nearestOf(count);
    }
    const bool isAfter = habit == "after";
    return ReadingLikelihood::bounded(
        {kFramesPerMinute / (count + (isAfter ? 0.0 : 1.0)), kFramesPerMinute / (count - 1.0)},
        isAfter ? 1.0 : 0.0);
}

std::vector<ReadingLikelihood> normalReadings(const std::vector<double>& values, double sigma) {
    std::vector<ReadingLikelihood> readings;
    for (const double value : values) {
        readings.push_back(ReadingLikelihood::normal(value, sigma));
    }
    return readings;
}

const std::vector<double> kRates{1412.0, 1377.5, 1490.25, 1455.0, 1398.0, 1431.0, 1502.0};

// tests/data/coarse: R's integrate, optimize and uniroot.
TEST(LikelyMeanAgainstR, CountsOfEveryHabit) {
    const auto table = ReferenceTable::load("coarse/likely_means.csv");
    ASSERT_GT(table.rowCount(), 20U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        std::vector<ReadingLikelihood> readings;
        std::istringstream counts{table.text(row, "counts")};
        for (double count = 0.0; counts >> count;) {
            readings.push_back(countBy(table.text(row, "habit"), count));
        }
        const auto mean = likelyMean(readings).value();
        const double low = table.number(row, "low");
        const double high = table.number(row, "high");
        // Straight lines stand for the curve of a triangle of periods; rectangles have none.
        const double tolerance = (table.text(row, "habit") == "both" ? 1e-3 : 1e-5) * (high - low);
        EXPECT_NEAR(mean.interval.low, low, tolerance) << "row " << row;
        EXPECT_NEAR(mean.interval.high, high, tolerance) << "row " << row;
        EXPECT_NEAR(mean.mean, table.number(row, "mean"), 2.0 * tolerance) << "row " << row;
        EXPECT_NEAR(mean.scatter, table.number(row, "scatter"), 5.0 * tolerance) << "row " << row;
    }
}

TEST(LikelyMean, OfExactReadingsIsStudents) {
    const auto student = summarise(kRates).value();
    const auto mean = likelyMean(normalReadings(kRates, 0.0)).value();
    EXPECT_DOUBLE_EQ(mean.mean, student.mean);
    EXPECT_DOUBLE_EQ(mean.standardError, student.spread->standardError);
    EXPECT_DOUBLE_EQ(mean.dof.value, student.spread->dof.value);
    EXPECT_DOUBLE_EQ(mean.interval.low, student.spread->meanInterval.low);
    EXPECT_DOUBLE_EQ(mean.interval.high, student.spread->meanInterval.high);
    EXPECT_DOUBLE_EQ(mean.scatter, student.spread->standardDeviation);
    EXPECT_EQ(mean.commonError, 0.0);
}

// The profile of normal readings of one uncertainty is Student's: the same from the likelihood
// itself, which a bounded reading that is as good as normal for its own uncertainty asks for.
TEST(LikelyMean, OfNormalReadingsByTheLikelihoodIsStudents) {
    const auto student = summarise(kRates).value();
    for (const double sigma : {20.0, 200.0}) {
        const auto mean = likelyMean(normalReadings(kRates, sigma)).value();
        EXPECT_TRUE(tests::agrees(mean.mean, student.mean, 12.0));
        EXPECT_TRUE(tests::agrees(mean.interval.low, student.spread->meanInterval.low, 12.0));
    }
    auto readings = normalReadings(kRates, 20.0);
    readings.front() =
        ReadingLikelihood::bounded({kRates.front() - 0.01, kRates.front() + 0.01}, 1.0, 20.0);
    const auto mean = likelyMean(readings).value();
    EXPECT_TRUE(tests::agrees(mean.mean, student.mean, 7.0));
    EXPECT_TRUE(tests::agrees(mean.interval.low, student.spread->meanInterval.low, 7.0));
    EXPECT_TRUE(tests::agrees(mean.interval.high, student.spread->meanInterval.high, 7.0));
    EXPECT_NEAR(mean.scatter,
                std::sqrt(std::pow(student.spread->standardDeviation, 2.0) - 400.0 * 7.0 / 6.0),
                1e-3);
}

// At 120 frames per second ten counts of 5 allow 1309 to 1600 rpm each, and so do they together.
TEST(LikelyMean, OfTenEqualCountsIsNotSurer) {
    const auto mean = likelyMean(std::vector<ReadingLikelihood>(10, nearestOf(5.0))).value();
    EXPECT_NEAR(mean.interval.low, kFramesPerMinute / 5.5, 10.0);
    EXPECT_NEAR(mean.interval.high, kFramesPerMinute / 4.5, 10.0);
    EXPECT_NEAR(mean.mean, 0.5 * (kFramesPerMinute / 5.5 + kFramesPerMinute / 4.5), 0.5);
    EXPECT_TRUE(mean.isScatterHidden);
    EXPECT_GT(mean.commonError, 60.0);
    EXPECT_GT(mean.dof.value, 100.0);
}

// Readings that grow finer beside their scatter pass from the likelihood to Student's interval
// without a jump: between neighbours of this row nothing moves by more than a thousandth of the
// interval.
TEST(LikelyMean, HasNoJumpWhereReadingsBecomeExact) {
    const double width = summarise(kRates).value().spread->meanInterval.high -
                         summarise(kRates).value().spread->meanInterval.low;
    std::optional<LikelyMean> before;
    for (double sigma = 3.0; sigma < 9.0; sigma += 0.05) {
        std::vector<ReadingLikelihood> readings;
        for (const double rate : kRates) {
            readings.push_back(
                ReadingLikelihood::normal(rate, rate == kRates.front() ? 0.0 : sigma));
        }
        const auto now = likelyMean(readings).value();
        if (before) {
            EXPECT_NEAR(now.mean, before->mean, 1e-3 * width) << sigma;
            EXPECT_NEAR(now.interval.low, before->interval.low, 1e-3 * width) << sigma;
            EXPECT_NEAR(now.interval.high, before->interval.high, 1e-3 * width) << sigma;
        }
        before = now;
    }
}

TEST(LikelyMean, WidensByWhatReadingsShare) {
    const auto mean = likelyMean(normalReadings(kRates, 0.0)).value();
    // As a cell's mean with a clock of 1 %: JCGM 100:2008, 5.1.2 and G.4.1.
    const double shared = 0.01 * mean.mean;
    const double total = std::hypot(mean.standardError, shared);
    const double dof = 6.0 * std::pow(total / mean.standardError, 4.0);
    const auto wide = widen(mean, shared);
    EXPECT_NEAR(wide.standardUncertainty, total, 1e-12);
    EXPECT_NEAR(wide.interval.high - mean.mean, StudentT{{dof}}.coverageFactor({}) * total, 1e-9);
}

TEST(LikelyMean, RefusesWhatIsNoSample) {
    EXPECT_EQ(likelyMean(normalReadings({1.0}, 0.1)).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(likelyMean(normalReadings({1.0, 2.0}, -0.1)).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(likelyMean(normalReadings({1.0, std::nan("")}, 0.0)).error().code,
              ErrorCode::NotFinite);
    EXPECT_EQ(likelyMean(normalReadings({1.0, 2.0}, 0.0), {1.0}).error().code,
              ErrorCode::OutOfRange);
}

// The derivatives that the search rests on, against differences.
TEST(SampleLikelihood, DerivativesAreThoseOfItsValue) {
    const std::vector<ReadingLikelihood> readings{
        countBy("both", 5.0), countBy("nearest", 6.0), ReadingLikelihood::normal(1450.0, 30.0),
        ReadingLikelihood::bounded({1300.0, 1700.0}, 0.4, 25.0)};
    const SampleLikelihood sample{readings};
    for (const double mean : {1100.0, 1350.0, 1500.0, 1800.0}) {
        for (const double deviation : {40.0, 120.0}) {
            const double step = 1e-4;
            const auto at = sample.under({mean, deviation});
            const double byMean = (sample.under({mean + step, deviation}).value -
                                   sample.under({mean - step, deviation}).value) /
                                  (2.0 * step);
            const double byDeviation = (sample.under({mean, deviation + step}).value -
                                        sample.under({mean, deviation - step}).value) /
                                       (2.0 * step);
            EXPECT_NEAR(at.byMean, byMean, 1e-5 * (1.0 + std::abs(byMean)));
            EXPECT_NEAR(at.byDeviation, byDeviation, 1e-5 * (1.0 + std::abs(byDeviation)));
        }
    }
}

// Simulated beforehand by another program, 80 to 120 cells a line, ten shots at 120 frames per
// second and means from 1010 to 1780 rpm: share of intervals that hold the true mean, and half
// width.
struct SimulatedLine {
    const char* habit;
    double deviation;
    double halfWidth;
};

class LikelyMeanSimulated : public testing::TestWithParam<SimulatedLine> {};

TEST_P(LikelyMeanSimulated, HoldsTheTruthWithAWidthLikeThatOfAnotherProgram) {
    constexpr int kCells = 400;
    std::mt19937_64 generator{20261129};
    std::uniform_real_distribution<double> anyMean{1010.0, 1780.0};
    std::uniform_real_distribution<double> offset{-0.5, 0.5};
    const std::string habit = GetParam().habit;
    int held = 0;
    double halfWidths = 0.0;
    for (int cell = 0; cell < kCells; ++cell) {
        const double truth = anyMean(generator);
        std::normal_distribution<double> shot{truth, GetParam().deviation};
        std::vector<ReadingLikelihood> readings;
        for (int i = 0; i < 10; ++i) {
            const double start = habit == "both" ? offset(generator) : 0.0;
            readings.push_back(
                countBy(habit, std::round(kFramesPerMinute / shot(generator) + start)));
        }
        const auto mean = likelyMean(readings).value();
        held += mean.interval.low <= truth && truth <= mean.interval.high ? 1 : 0;
        halfWidths += 0.5 * (mean.interval.high - mean.interval.low) / kCells;
    }
    EXPECT_GE(held, 0.93 * kCells);  // 95 % less two standard errors
    // The widths of 100 cells differ by some 40 rpm, so their mean is known to 4 rpm.
    EXPECT_NEAR(halfWidths, GetParam().halfWidth, 12.0);
}

INSTANTIATE_TEST_SUITE_P(
    Lines, LikelyMeanSimulated,
    testing::Values(SimulatedLine{"nearest", 30.0, 134.0}, SimulatedLine{"nearest", 60.0, 117.0},
                    SimulatedLine{"nearest", 100.0, 114.0}, SimulatedLine{"nearest", 150.0, 126.0},
                    SimulatedLine{"both", 30.0, 81.0}, SimulatedLine{"both", 100.0, 104.0}));

// A rectangular period between a and b: E(1/T) under a flat density of the rate is the middle.
TEST(ReadingLikelihood, OfARectangleStandsInTheMiddle) {
    const auto reading = ReadingLikelihood::bounded({1200.0, 1800.0}, 1.0);
    EXPECT_NEAR(reading.value, 1500.0, 1e-9);
    EXPECT_NEAR(reading.spread(), 600.0 / std::sqrt(12.0), 1e-9);
}

}  // namespace
