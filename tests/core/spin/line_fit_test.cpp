#include "core/spin/line_fit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <vector>

#include "tests/support/reference_csv.h"

namespace core::spin {
namespace {

TEST(LineFit, ThermometerOfGumH3) {
    // JCGM 100:2008, H.3: correction against temperature above 20 degrees.
    const auto data = tests::ReferenceTable::load("uncertainty/gum_h3_data.csv");
    const auto table = tests::ReferenceTable::load("uncertainty/gum_h3_expected.csv");
    std::map<std::string, double> expected;
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        expected[table.text(i, "quantity")] = table.number(i, "computed");
    }
    std::vector<LinePoint> points;
    for (std::size_t i = 0; i < data.rowCount(); ++i) {
        points.push_back({data.number(i, "t_degC") - 20.0, data.number(i, "b_degC"), 1.0});
    }
    const auto fit = fitLine(points).value();
    constexpr double kTableDigits = 1e-11;  // absolute; the table has twelve digits below 1
    EXPECT_NEAR(fit.intercept, expected["y1 intercept at 20 degC"], kTableDigits);
    EXPECT_NEAR(fit.slope, expected["y2 slope"], kTableDigits);
    EXPECT_NEAR(fit.interceptSigmaFromResiduals, expected["u(y1)"], kTableDigits);
    EXPECT_NEAR(fit.slopeSigmaFromResiduals, expected["u(y2)"], kTableDigits);
    EXPECT_NEAR(fit.correlation, expected["r(y1,y2)"], kTableDigits);
    EXPECT_NEAR(fit.residualScale, expected["s residual"], kTableDigits);
}

TEST(LineFit, PeriodFromManyMarksNarrowsAsTheTableSays) {
    // Independent rounding to whole frames, u = 1/sqrt 12, marks one turn apart.
    const auto table = tests::ReferenceTable::load("uncertainty/multi_mark_fit.csv");
    ASSERT_GT(table.rowCount(), 5U);
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const auto marks = static_cast<int>(table.number(i, "marks"));
        std::vector<LinePoint> points;
        for (int k = 0; k < marks; ++k) {
            points.push_back({static_cast<double>(k), 4.8 * k, 1.0 / std::sqrt(12.0)});
        }
        const std::vector<LinePoint> ends{points.front(), points.back()};
        EXPECT_NEAR(fitLine(points).value().slopeSigmaFromReadings,
                    table.number(i, "u_period_frames_ols"), 1e-11);
        EXPECT_NEAR(fitLine(ends).value().slopeSigmaFromReadings,
                    table.number(i, "u_period_frames_ends_only"), 1e-11);
    }
}

TEST(LineFit, WeightsCountAsRepeatedReadings) {
    // A reading of sigma 1/sqrt 2 is worth two of sigma 1.
    const std::vector<LinePoint> weighted{{0, 0, 1}, {1, 2, 1 / std::sqrt(2.0)}, {3, 3, 1}};
    const std::vector<LinePoint> repeated{{0, 0, 1}, {1, 2, 1}, {1, 2, 1}, {3, 3, 1}};
    const auto a = fitLine(weighted).value();
    const auto b = fitLine(repeated).value();
    EXPECT_NEAR(a.slope, b.slope, 1e-14);
    EXPECT_NEAR(a.slopeSigmaFromReadings, b.slopeSigmaFromReadings, 1e-14);
    EXPECT_NEAR(a.chiSquare, b.chiSquare, 1e-14);
}

TEST(LineFit, SquareTakesAllOfAParabola) {
    std::vector<LinePoint> points;
    for (int i = 0; i < 7; ++i) {
        points.push_back({i * 0.1, 3.0 + i * 0.2 + i * i * 0.05, 0.5});
    }
    const auto fit = fitLine(points).value();
    EXPECT_GT(fit.chiSquare, 0.1);
    EXPECT_NEAR(fit.chiSquareDropOfSquare, fit.chiSquare, 1e-9);
}

TEST(LineFit, BadReadingsAreRefused) {
    const auto codeOf = [](const std::vector<LinePoint>& points) {
        return fitLine(points).error().code;
    };
    EXPECT_EQ(codeOf({{0, 0, 1}}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({{1, 0, 1}, {1, 2, 1}}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({{0, 0, 1}, {1, 2, 0}}), ErrorCode::OutOfRange);
    EXPECT_EQ(codeOf({{0, 0, 1}, {1, std::nan(""), 1}}), ErrorCode::NotFinite);
}

}  // namespace
}  // namespace core::spin
