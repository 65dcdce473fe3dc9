#include "core/stats/comparison/one_way.h"

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/core/stats/grouped.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::Grouped;
using tests::ReferenceTable;

// Digits asked of F for a NIST StRD set. SmLs04 to 06 add 1e6 to data of spread 0.1: rounding the
// data to double alone costs all but 10 digits; SmLs07 to 09 add 1e12: all but 2 to 4 digits.
// AtmWtAg has seven constant leading digits before a spread of 1e-5: 9 to 10 are left.
double digitsPossible(const ReferenceTable& certified, std::size_t row) {
    const double lead = certified.number(row, "lead");
    if (lead == 13.0) {
        return 2.0;
    }
    return lead == 7.0 ? 9.0 : 13.0;
}

class StrdAnova : public testing::TestWithParam<std::size_t> {};

// National Institute of Standards and Technology, Statistical Reference Datasets, certified values.
TEST_P(StrdAnova, FMatchesTheCertifiedDigits) {
    const auto certified = ReferenceTable::load("strd/certified_anova.csv");
    const std::string name = certified.text(GetParam(), "dataset");
    const auto groups = Grouped::load("strd/anova_" + name + ".csv", "treatment", "y").moments();
    const auto anova = oneWayAnova(groups).value();
    const double digits = digitsPossible(certified, GetParam());
    const auto expect = [&](double computed, const char* column) {
        EXPECT_TRUE(agrees(computed, certified.number(GetParam(), column), digits))
            << name << ' ' << column;
    };
    EXPECT_EQ(anova.test.dof.numerator.value, certified.number(GetParam(), "df_between"));
    EXPECT_EQ(anova.test.dof.denominator.value, certified.number(GetParam(), "df_within"));
    expect(anova.sumSquaresBetween, "ss_between");
    expect(anova.sumSquaresWithin, "ss_within");
    expect(anova.meanSquareBetween, "ms_between");
    expect(anova.meanSquareWithin, "ms_within");
    expect(anova.test.f, "F");
    expect(anova.rSquared, "r_squared");
}

INSTANTIATE_TEST_SUITE_P(AllSets, StrdAnova, testing::Range<std::size_t>(0, 11));

// R 4.2.2 aov and oneway.test, confirmed with SciPy and statsmodels (comparisons/oneway_expected).
TEST(OneWay, ClassicAndWelchAreThoseOfR) {
    constexpr double kDigits = 9.0;  // ten were written
    const auto expected = ReferenceTable::load("comparisons/oneway_expected.csv");
    ASSERT_EQ(expected.rowCount(), 5U);
    for (std::size_t row = 0; row < expected.rowCount(); ++row) {
        const std::string name = expected.text(row, "dataset");
        const auto groups =
            Grouped::load("comparisons/data_" + name + ".csv", "group", "y").moments();
        const auto classic = oneWayAnova(groups).value();
        EXPECT_TRUE(agrees(classic.test.f, expected.number(row, "F"), kDigits));
        EXPECT_TRUE(agrees(classic.test.pValue, expected.number(row, "p"), kDigits));
        EXPECT_TRUE(agrees(classic.rSquared, expected.number(row, "eta2"), kDigits));
        const auto welch = welchAnova(tests::independentMeans(groups)).value();
        EXPECT_TRUE(agrees(welch.f, expected.number(row, "welch_F"), kDigits));
        EXPECT_TRUE(
            agrees(welch.dof.denominator.value, expected.number(row, "welch_df2"), kDigits));
        EXPECT_TRUE(agrees(welch.pValue, expected.number(row, "welch_p"), kDigits));
    }
}

// R 4.2.2; the GEAR set of the NIST/SEMATECH e-Handbook, 1.3.5.10, prints 1.705910 for Brown and
// Forsythe where R and SciPy give 1.705918.
TEST(OneWay, VarianceTestsAreThoseOfR) {
    constexpr double kDigits = 9.0;
    const auto expected = ReferenceTable::load("tables/variance_tests.csv");
    ASSERT_EQ(expected.rowCount(), 6U);
    for (std::size_t row = 0; row < expected.rowCount(); ++row) {
        const std::string name = expected.text(row, "dataset");
        const auto data = name == "GEAR"
                              ? Grouped::load("tables/gear.csv", "batch", "diameter")
                              : Grouped::load("comparisons/data_" + name + ".csv", "group", "y");
        const auto median = leveneTest(data.values, DeviationCentre::Median).value();
        EXPECT_TRUE(agrees(median.f, expected.number(row, "brown_forsythe_W"), kDigits)) << name;
        EXPECT_TRUE(agrees(median.pValue, expected.number(row, "brown_forsythe_p"), kDigits));
        const auto mean = leveneTest(data.values, DeviationCentre::Mean).value();
        EXPECT_TRUE(agrees(mean.f, expected.number(row, "levene_mean_W"), kDigits)) << name;
        EXPECT_TRUE(agrees(mean.pValue, expected.number(row, "levene_mean_p"), kDigits));
    }
    const auto gear = Grouped::load("tables/gear.csv", "batch", "diameter");
    EXPECT_NEAR(leveneTest(gear.values, DeviationCentre::Median).value().f, 1.705910, 1e-5);
}

// Rail: Pinheiro and Bates 2000, table 1.1; Dyestuff: Davies and Goldsmith 1972, table 6.4
// (F 4.598, p 0.0044). Computed with R 4.2.2.
TEST(OneWay, MeanSquaresOfRailAndDyestuff) {
    const auto expected = ReferenceTable::load("models/variance_components_oneway.csv");
    int checked = 0;
    for (std::size_t row = 0; row < expected.rowCount(); ++row) {
        const bool isRail = expected.text(row, "dataset") == "Rail";
        const auto anova =
            oneWayAnova(Grouped::load(isRail ? "models/data_rail.csv" : "models/data_dyestuff.csv",
                                      "group", "y")
                            .moments())
                .value();
        const std::map<std::string, double> lines{{"MS between", anova.meanSquareBetween},
                                                  {"MS within", anova.meanSquareWithin},
                                                  {"F", anova.test.f},
                                                  {"p", anova.test.pValue}};
        const auto line = lines.find(expected.text(row, "quantity"));
        if (line != lines.end()) {
            EXPECT_TRUE(agrees(line->second, expected.number(row, "computed"), 9.0)) << row;
            ++checked;
        }
    }
    EXPECT_EQ(checked, 8);
}

TEST(OneWay, BadInputIsNamed) {
    using Values = std::vector<std::vector<double>>;
    const auto classic = [](const Values& values) {
        return oneWayAnova(momentsOfGroups(values)).error().code;
    };
    EXPECT_EQ(classic({{1.0, 2.0}}), ErrorCode::InvalidInput);
    EXPECT_EQ(classic({{1.0}, {2.0}}), ErrorCode::InvalidInput);
    EXPECT_EQ(classic({{1.0, 1.0}, {2.0, 2.0}}), ErrorCode::Untrustworthy);
    const std::vector<IndependentMean> oneFlat{{1.5, 0.25, {1.0}}, {2.0, 0.0, {1.0}}};
    const auto welch = welchAnova(oneFlat);
    EXPECT_EQ(welch.error().code, ErrorCode::Untrustworthy);
    EXPECT_NE(welch.error().message.find("Group 2"), std::string::npos);
    EXPECT_EQ(welchAnova({}).error().code, ErrorCode::InvalidInput);
    const Values oneEmpty{{1.0, 2.0}, {}};
    EXPECT_EQ(leveneTest(oneEmpty, DeviationCentre::Median).error().code, ErrorCode::InvalidInput);
}

}  // namespace
