#include "core/report/summary.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "tests/core/report/small_project.h"

namespace core::report {
namespace {

constexpr double kSamePlace = 1e-9;  // sums of a dozen numbers near 2000

// The sleep data (Student 1908, Biometrika 6:1; R data set `sleep`, group 1) as if they were spin
// rates: R 4.2.2, t.test(sleep$extra[1:10]): mean 0.75, 95 % interval -0.5297804 to 2.0297804.
TEST(Summary, CellIntervalIsStudents) {
    const std::vector<double> extra{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
    const auto summary = summarise(*tests::cellOf(extra, 0.0));
    ASSERT_TRUE(summary.has_value()) << summary.error().message;
    ASSERT_EQ(summary.value().cells.size(), 1U);
    const auto& mean = summary.value().cells.front().mean;
    ASSERT_TRUE(mean.has_value() && mean->interval95.has_value());
    constexpr double kPrintedByR = 5e-8;
    EXPECT_NEAR(mean->meanRpm, 0.75, kPrintedByR);
    EXPECT_NEAR(mean->interval95->low.rpm, -0.5297804, kPrintedByR);
    EXPECT_NEAR(mean->interval95->high.rpm, 2.0297804, kPrintedByR);
}

// The same data: sd(sleep$extra[1:10]) = 1.789010, and one cell is pooled with no other.
TEST(Summary, MeasuredScatterIsThatOfTheCells) {
    const std::vector<double> extra{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
    const auto summary = summarise(*tests::cellOf(extra, 0.0)).value();
    EXPECT_NEAR(measuredScatterRpm(summary).value(), 1.789010, 5e-7);
    const auto same = summarise(*tests::cellOf(std::vector(5, 2000.0), 0.001)).value();
    EXPECT_FALSE(measuredScatterRpm(same).has_value());
}

TEST(Summary, SharedClockDoesNotShrinkWithTheCount) {
    const std::vector<double> same(100, 2000.0);
    const auto summary = summarise(*tests::cellOf(same, 0.001));
    ASSERT_TRUE(summary.has_value()) << summary.error().message;
    // No scatter at all: what is left is 2000 rpm × 0.001, whatever the count.
    EXPECT_NEAR(*summary.value().cells.front().mean->standardUncertaintyRpm, 2.0, kSamePlace);
}

TEST(Summary, ImplementIsThePlainAverageOfItsHitters) {
    // Hitter A: 10 shots around 2000; hitter B: 2 shots around 3000. The pooled mean would be 2167.
    std::vector<double> a;
    for (int i = 0; i < 10; ++i) {
        a.push_back(2000.0 + (i % 2 == 0 ? 10.0 : -10.0));
    }
    const auto summary = summarise(*tests::twoHitters(a, {2990.0, 3010.0}));
    ASSERT_TRUE(summary.has_value()) << summary.error().message;
    ASSERT_EQ(summary.value().implements.size(), 1U);
    const auto& row = summary.value().implements.front();
    EXPECT_NEAR(row.mean->meanRpm, 2500.0, kSamePlace);
    EXPECT_EQ(row.counts.kept, 12U);
    // JCGM 100:2008, 5.1.2: u² = (s_A²/n_A + s_B²/n_B)/4 with s_A² = 1000/9, s_B² = 200.
    EXPECT_NEAR(*row.mean->standardUncertaintyRpm, std::sqrt((1000.0 / 9.0 / 10.0 + 100.0) / 4.0),
                kSamePlace);
}

TEST(Summary, ShotsAsideAndOpenAreCountedAndLeftOut) {
    const auto summary = summarise(*tests::oneOfEachStanding());
    ASSERT_TRUE(summary.has_value()) << summary.error().message;
    const auto& cell = summary.value().cells.front();
    EXPECT_EQ(cell.counts, (ShotCounts{.kept = 1, .open = 1, .setAside = 1}));
    EXPECT_NEAR(cell.mean->meanRpm, 2000.0, kSamePlace);
    EXPECT_FALSE(cell.mean->interval95.has_value());
    EXPECT_EQ(summary.value().unassigned.open, 1U);
}

TEST(Summary, StoredReadingThatIsNotANumberIsRefusedWithItsCell) {
    const auto summary = summarise(*tests::cellOf({2000.0, std::nan("")}, 0.0));
    ASSERT_FALSE(summary.has_value());
    EXPECT_EQ(summary.error().code, ErrorCode::NotFinite);
    EXPECT_NE(summary.error().message.find("implement 1"), std::string::npos);
}

TEST(SummaryText, SaysWhereShotsWithoutACellAre) {
    const auto summary = summarise(*tests::oneOfEachStanding());
    ASSERT_TRUE(summary.has_value());
    EXPECT_NE(summaryText(summary.value()).find("1 shot is without implement and hitter"),
              std::string::npos);
}

}  // namespace
}  // namespace core::report
