#include "core/stats/comparison/p_adjust.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <vector>

#include "tests/core/stats/digits.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::agrees;
using tests::ReferenceTable;

struct Column {
    const char* name;
    Adjustment method;
};
constexpr Column kColumns[] = {{"bonferroni", Adjustment::Bonferroni},
                               {"holm", Adjustment::Holm},
                               {"hochberg", Adjustment::Hochberg},
                               {"BH", Adjustment::BenjaminiHochberg},
                               {"BY", Adjustment::BenjaminiYekutieli}};

// The 15 p values of Benjamini and Hochberg 1995, section 4, and a set with ties; R 4.2.2 p.adjust.
TEST(PAdjust, IsThatOfR) {
    for (const char* file : {"models/p_adjust.csv", "models/p_adjust_ties.csv"}) {
        const auto table = ReferenceTable::load(file);
        for (const auto& [name, method] : kColumns) {
            if (!table.hasColumn(name)) {
                continue;
            }
            const auto adjusted = adjustPValues(table.numbers("p"), method).value();
            for (std::size_t row = 0; row < table.rowCount(); ++row) {
                EXPECT_TRUE(agrees(adjusted[row], table.number(row, name), 10.5)) << file << name;
            }
        }
    }
}

// Published for the same p values: at 0.05 Benjamini-Hochberg rejects four, Bonferroni three.
TEST(PAdjust, PublishedNumberOfRejections) {
    const auto p = ReferenceTable::load("models/p_adjust.csv").numbers("p");
    const auto rejections = [&](Adjustment method) {
        const auto adjusted = adjustPValues(p, method).value();
        return std::count_if(adjusted.begin(), adjusted.end(), [](double q) { return q <= 0.05; });
    };
    EXPECT_EQ(rejections(Adjustment::BenjaminiHochberg), 4);
    EXPECT_EQ(rejections(Adjustment::Bonferroni), 3);
}

TEST(PAdjust, BadInputIsNamed) {
    const std::vector<double> none;
    const std::vector<double> negative{-0.1};
    const std::vector<double> broken{std::numeric_limits<double>::quiet_NaN()};
    EXPECT_EQ(adjustPValues(none, Adjustment::Holm).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(adjustPValues(negative, Adjustment::Holm).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(adjustPValues(broken, Adjustment::Holm).error().code, ErrorCode::NotFinite);
}

}  // namespace
