#include "core/stats/readers/intraclass.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

// Shrout and Fleiss 1979, table 2: six targets, four judges.
std::vector<double> ratings() {
    const auto table = ReferenceTable::load("agreement/shrout_fleiss.csv");
    std::vector<double> values;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        for (const char* judge : {"judge1", "judge2", "judge3", "judge4"}) {
            values.push_back(table.number(row, judge));
        }
    }
    return values;
}

// Tables 3 and 4 of the paper to two decimals; full digits and intervals with its formulas in R.
TEST(Intraclass, SixFormsOfShroutAndFleiss) {
    const auto values = ratings();
    const auto icc = intraclassCorrelations({.shots = 6, .readers = 4, .values = values}).value();
    const IntraclassCorrelation* forms[] = {&icc.oneWaySingle,  &icc.randomSingle,
                                            &icc.fixedSingle,   &icc.oneWayAverage,
                                            &icc.randomAverage, &icc.fixedAverage};
    const auto expected = ReferenceTable::load("agreement/shrout_fleiss_expected.csv");
    for (std::size_t row = 0; row < 6; ++row) {
        const std::string name = expected.text(row, "quantity");
        EXPECT_NEAR(forms[row]->value, expected.number(row, "published"), 0.005) << name;
        EXPECT_TRUE(agrees(forms[row]->value, expected.number(row, "computed"), 11.0)) << name;
        EXPECT_TRUE(agrees(forms[row]->interval.low, expected.number(row, "ci95_low"), 10.5))
            << name;
        EXPECT_TRUE(agrees(forms[row]->interval.high, expected.number(row, "ci95_high"), 10.5))
            << name;
    }
}

TEST(Intraclass, MeanSquaresOfThePaper) {  // BMS 11.24, WMS 6.26, JMS 32.49, EMS 1.02
    const auto values = ratings();
    const auto icc = intraclassCorrelations({.shots = 6, .readers = 4, .values = values}).value();
    EXPECT_NEAR(icc.meanSquareShots, 11.24, 0.005);
    EXPECT_NEAR(icc.meanSquareWithin, 6.26, 0.005);
    EXPECT_NEAR(icc.meanSquareReaders, 32.49, 0.005);
    EXPECT_NEAR(icc.meanSquareError, 1.02, 0.005);
}

TEST(Intraclass, BadInputIsNamed) {
    const auto codeOf = [](const ReaderTable& table) {
        return intraclassCorrelations(table).error().code;
    };
    const std::vector<double> four{1.0, 2.0, 3.0, 5.0};
    const std::vector<double> shifted{1.0, 2.0, 3.0, 4.0};  // reader 2 reads one more, always
    EXPECT_EQ(codeOf({.shots = 2, .readers = 3, .values = four}), ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({.shots = 1, .readers = 4, .values = four}), ErrorCode::InvalidInput);
    const std::vector<double> eight(8, 1.0);
    EXPECT_EQ(codeOf({.shots = 2, .readers = 2, .repeats = 2, .values = eight}),
              ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({.shots = 2, .readers = 2, .values = shifted}), ErrorCode::Untrustworthy);
}

}  // namespace
