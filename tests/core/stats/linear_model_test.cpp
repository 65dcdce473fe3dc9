#include "core/stats/model/linear_model.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
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

LinearFit fitOf(const ReferenceTable& sets, std::size_t row) {
    const auto data = ReferenceTable::load("strd/linear_" + sets.text(row, "dataset") + ".csv");
    const bool hasIntercept = sets.number(row, "intercept") == 1.0;
    const auto design = DesignMatrix::polynomial(
        data.numbers("x"), static_cast<int>(sets.number(row, "degree")), hasIntercept);
    return fitLeastSquares(design, data.numbers("y"),
                           hasIntercept ? FitBaseline::Mean : FitBaseline::Zero)
        .value();
}

class StrdLinear : public testing::TestWithParam<std::size_t> {};

// National Institute of Standards and Technology, Statistical Reference Datasets, certified values.
TEST_P(StrdLinear, CoefficientsMatchTheCertifiedDigits) {
    const auto sets = ReferenceTable::load("strd/certified_linear_fit.csv");
    const std::string name = sets.text(GetParam(), "dataset");
    const auto fit = fitOf(sets, GetParam());
    const auto certified = ReferenceTable::load("strd/certified_linear_coef.csv");
    std::size_t coefficient = 0;
    for (std::size_t row = 0; row < certified.rowCount(); ++row) {
        if (certified.text(row, "dataset") != name) {
            continue;
        }
        const double digits = kDigitsOfCoefficients.at(name);
        EXPECT_TRUE(
            agrees(fit.coefficients[coefficient], certified.number(row, "estimate"), digits))
            << name << ' ' << certified.text(row, "parameter");
        EXPECT_TRUE(agrees(fit.standardError(coefficient), certified.number(row, "sd"), digits))
            << name << ' ' << certified.text(row, "parameter");
        ++coefficient;
    }
    EXPECT_EQ(coefficient, fit.coefficients.size());
}

TEST_P(StrdLinear, FitMatchesTheCertifiedDigits) {
    const auto sets = ReferenceTable::load("strd/certified_linear_fit.csv");
    const std::string name = sets.text(GetParam(), "dataset");
    const auto fit = fitOf(sets, GetParam());
    const double digits = kDigitsOfCoefficients.at(name);
    const auto expect = [&](double computed, const char* column) {
        if (!sets.text(GetParam(), column).empty()) {  // Pontius: no sum of squares was read
            EXPECT_TRUE(agrees(computed, sets.number(GetParam(), column), digits))
                << name << ' ' << column;
        }
    };
    expect(fit.residualDeviation, "residual_sd");
    expect(fit.residualSumSquares, "ss_res");
    expect(fit.rSquared, "r_squared");
    expect(fit.regression.f, "F");
    EXPECT_EQ(fit.regression.dof.numerator.value, sets.number(GetParam(), "df_reg"));
    EXPECT_EQ(fit.regression.dof.denominator.value, sets.number(GetParam(), "df_res"));
}

INSTANTIATE_TEST_SUITE_P(AllSets, StrdLinear, testing::Range<std::size_t>(0, 8));

TEST(LinearModel, BadInputIsNamed) {
    const std::vector<double> x{1.0, 2.0, 3.0};
    const std::vector<double> y{1.0, 2.0, 4.0};
    const auto codeOf = [&](const DesignMatrix& design) {
        return fitLeastSquares(design, y).error().code;
    };
    EXPECT_EQ(codeOf(DesignMatrix::polynomial(x, 2)), ErrorCode::InvalidInput);  // no dof left
    const std::vector<double> two{1.0, 2.0};
    EXPECT_EQ(codeOf(DesignMatrix::polynomial(two, 0)), ErrorCode::InvalidInput);
    const std::vector<double> same{0.1, 0.1, 0.1};
    EXPECT_EQ(codeOf(DesignMatrix::polynomial(same, 1)), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf(DesignMatrix(3, 1)), ErrorCode::InvalidInput);  // a column of zeros
    const std::vector<double> broken{1.0, std::numeric_limits<double>::quiet_NaN(), 2.0};
    EXPECT_EQ(codeOf(DesignMatrix::polynomial(broken, 1)), ErrorCode::NotFinite);
}

}  // namespace
