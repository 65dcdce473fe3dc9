#include "core/stats/model/least_squares.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

// Digits asked of a set; certified values carry 15. Wampler3 to 5 are one polynomial under
// residuals that grow a hundredfold from set to set and take two digits each; the condition of
// Filip takes about ten of the 19 digits of extended precision.
const std::map<std::string, double> kDigitsOfCoefficients{
    {"Norris", 13.0},   {"NoInt1", 13.0},   {"NoInt2", 13.0},  {"Pontius", 13.0},
    {"Wampler3", 12.5}, {"Wampler4", 11.0}, {"Wampler5", 9.0}, {"Filip", 10.5}};

/// 1, x, x^2 … up to the degree, or without the leading 1.
DesignMatrix polynomial(const std::vector<double>& x, int degree, bool hasIntercept = true) {
    DesignMatrix design(x.size(), static_cast<std::size_t>(hasIntercept ? degree + 1 : degree));
    for (std::size_t row = 0; row < x.size(); ++row) {
        long double power = hasIntercept ? 1.0L : static_cast<long double>(x[row]);
        for (std::size_t column = 0; column < design.columns(); ++column) {
            design.at(row, column) = power;
            power *= static_cast<long double>(x[row]);
        }
    }
    return design;
}

class StrdLinear : public testing::TestWithParam<std::size_t> {};

// National Institute of Standards and Technology, Statistical Reference Datasets, certified values.
TEST_P(StrdLinear, TheSolutionMatchesTheCertifiedDigits) {
    const auto sets = ReferenceTable::load("strd/certified_linear_fit.csv");
    const std::string name = sets.text(GetParam(), "dataset");
    const auto data = ReferenceTable::load("strd/linear_" + name + ".csv");
    const std::vector<double> values = data.numbers("y");
    const auto design =
        polynomial(data.numbers("x"), static_cast<int>(sets.number(GetParam(), "degree")),
                   sets.number(GetParam(), "intercept") == 1.0);
    const std::vector<long double> y(values.begin(), values.end());
    const auto solution = solveLeastSquares(design, y).value();

    const double digits = kDigitsOfCoefficients.at(name);
    const auto dof = static_cast<long double>(design.rows() - design.columns());
    EXPECT_EQ(static_cast<double>(dof), sets.number(GetParam(), "df_res"));
    const long double variance = solution.residualSumSquares / dof;
    EXPECT_TRUE(agrees(static_cast<double>(std::sqrt(variance)),
                       sets.number(GetParam(), "residual_sd"), digits))
        << name;
    if (!sets.text(GetParam(), "ss_res").empty()) {  // Pontius: no sum of squares was read
        EXPECT_TRUE(agrees(static_cast<double>(solution.residualSumSquares),
                           sets.number(GetParam(), "ss_res"), digits))
            << name;
    }
    const auto certified = ReferenceTable::load("strd/certified_linear_coef.csv");
    std::size_t coefficient = 0;
    for (std::size_t row = 0; row < certified.rowCount(); ++row) {
        if (certified.text(row, "dataset") != name) {
            continue;
        }
        const std::size_t diagonal = coefficient * (design.columns() + 1);
        EXPECT_TRUE(agrees(static_cast<double>(solution.coefficients[coefficient]),
                           certified.number(row, "estimate"), digits))
            << name << ' ' << certified.text(row, "parameter");
        EXPECT_TRUE(agrees(static_cast<double>(std::sqrt(variance * solution.inverse[diagonal])),
                           certified.number(row, "sd"), digits))
            << name << ' ' << certified.text(row, "parameter");
        ++coefficient;
    }
    EXPECT_EQ(coefficient, solution.coefficients.size());
}

INSTANTIATE_TEST_SUITE_P(AllSets, StrdLinear, testing::Range<std::size_t>(0, 8));

TEST(LeastSquares, BadInputIsNamed) {
    const auto codeOf = [](const DesignMatrix& design) {
        const std::vector<long double> y{1.0, 2.0, 4.0};
        return solveLeastSquares(design, std::span{y}.first(design.rows())).error().code;
    };
    EXPECT_EQ(codeOf(polynomial({1.0, 2.0}, 2)), ErrorCode::InvalidInput);  // too few rows
    EXPECT_EQ(codeOf(polynomial({0.1, 0.1, 0.1}, 1)), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf(DesignMatrix(3, 1)), ErrorCode::InvalidInput);  // a column of zeros
}

}  // namespace
