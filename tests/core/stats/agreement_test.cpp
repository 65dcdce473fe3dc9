#include "core/stats/readers/agreement.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

// Peak flow with two meters, 17 subjects: Bland and Altman 1986, Lancet 327:307-310, table 1.
class FlowMeters : public testing::Test {
protected:
    ReferenceTable m_data = ReferenceTable::load("agreement/pefr.csv");
    ReferenceTable m_expected = ReferenceTable::load("agreement/pefr_expected.csv");
    std::vector<double> m_wright = m_data.numbers("wright1");
    std::vector<double> m_mini = m_data.numbers("mini1");

    [[nodiscard]] double computed(const std::string& quantity) const {
        for (std::size_t row = 0; row < m_expected.rowCount(); ++row) {
            if (m_expected.text(row, "quantity") == quantity) {
                return m_expected.number(row, "computed");
            }
        }
        throw std::out_of_range(quantity);
    }
};

TEST_F(FlowMeters, LimitsOfThePaperWithTwoDeviations) {  // R 4.2.2 on the same data
    const auto limits = limitsOfAgreement({m_wright, m_mini}, {.reach = 2.0}).value();
    EXPECT_EQ(limits.count, 17U);
    EXPECT_TRUE(agrees(limits.meanDifference,
                       computed("mean difference Wright-mini (first readings)"), 11.0));
    EXPECT_TRUE(agrees(limits.differenceDeviation, computed("SD of differences"), 11.0));
    EXPECT_TRUE(agrees(limits.lower.value, computed("limit low, d-2s"), 11.0));
    EXPECT_TRUE(agrees(limits.upper.value, computed("limit high, d+2s"), 11.0));
    EXPECT_TRUE(agrees(limits.meanInterval.low, computed("95 % CI of d low"), 11.0));
    EXPECT_TRUE(agrees(limits.meanInterval.high, computed("95 % CI of d high"), 11.0));
}

// The paper prints -79.7 and 75.5, made of rounded figures (-2.1 and 38.8): a tenth is allowed.
TEST_F(FlowMeters, LimitsAsPrinted) {
    const auto limits = limitsOfAgreement({m_wright, m_mini}, {.reach = 2.0}).value();
    EXPECT_NEAR(limits.meanDifference, -2.1, 0.05);
    EXPECT_NEAR(limits.differenceDeviation, 38.8, 0.05);
    EXPECT_NEAR(limits.lower.value, -79.7, 0.1);
    EXPECT_NEAR(limits.upper.value, 75.5, 0.1);
}

// The 1986 paper takes sqrt(3 s^2 / n) for the error of a limit and prints -114.3 to -45.1 and 40.9
// to 110.1; the exact form of the 1999 paper is 0.7 % wider here: about 0.25 at either end, and 0.1
// for the rounded figures.
TEST_F(FlowMeters, IntervalsOfTheLimits) {
    constexpr double kFormAndRounding = 0.4;
    const auto limits = limitsOfAgreement({m_wright, m_mini}, {.reach = 1.96}).value();
    EXPECT_TRUE(
        agrees(limits.limitError, computed("SE of a limit, exact form (1999 paper)"), 11.0));
    EXPECT_TRUE(agrees(limits.lower.value, computed("limit low, d-1.96s"), 11.0));
    EXPECT_TRUE(agrees(limits.upper.value, computed("limit high, d+1.96s"), 11.0));
    const auto printed = limitsOfAgreement({m_wright, m_mini}, {.reach = 2.0}).value();
    EXPECT_NEAR(printed.lower.interval.high - printed.lower.value, -45.1 + 79.7, 1.0);
    EXPECT_NEAR(limits.upper.interval.high - limits.upper.value, 110.1 - 75.5, kFormAndRounding);
}

TEST_F(FlowMeters, RepeatabilityOfEachMeter) {  // R 4.2.2; the paper: 43.2 and 56.4 for 2 rms
    const auto wright2 = m_data.numbers("wright2");
    const auto mini2 = m_data.numbers("mini2");
    const auto wright = repeatabilityOfPairs({m_wright, wright2}).value();
    const auto mini = repeatabilityOfPairs({m_mini, mini2}).value();
    EXPECT_TRUE(agrees(wright.withinDeviation,
                       computed("within-subject s, Wright = sqrt(mean(diff^2)/2)"), 11.0));
    EXPECT_TRUE(agrees(mini.withinDeviation, computed("within-subject s, mini"), 11.0));
    EXPECT_TRUE(
        agrees(wright.limit, 0.98 * computed("repeatability 2 rms, Wright"), 11.0));  // 1.96 for 2
}

TEST(Agreement,
     ATrendOfTheBiasIsSeen) {  // second method reads 10 % more, differences -10, -20, ...
    const std::vector<double> first{100.0, 200.0, 300.0, 400.0, 500.0};
    const std::vector<double> second{111.0, 219.0, 331.0, 439.0, 551.0};
    const auto limits = limitsOfAgreement({first, second}).value();
    ASSERT_TRUE(limits.trend.has_value());
    EXPECT_NEAR(limits.trend->estimate, -0.095, 0.005);  // -10 in 105 of the mean
    EXPECT_LT(limits.trend->interval.high, 0.0);
}

TEST(Agreement, BadInputIsNamed) {
    const std::vector<double> two{1.0, 2.0};
    const std::vector<double> three{1.0, 2.0, 3.0};
    EXPECT_EQ(limitsOfAgreement({two, two}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(limitsOfAgreement({three, two}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(limitsOfAgreement({three, three}, {.reach = 0.0}).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(repeatabilityOfPairs({}).error().code, ErrorCode::InvalidInput);
}

}  // namespace
