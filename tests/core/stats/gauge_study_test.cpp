#include "core/stats/readers/gauge_study.h"

#include <gtest/gtest.h>

#include <cmath>
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

// AIAG, Measurement Systems Analysis, 4th ed. 2010: ten parts, three appraisers, three trials. Rows
// are ordered by part, appraiser, trial. Computed with R 4.2.2; printed figures from memory,
// matched.
class GaugeExample : public testing::Test {
protected:
    std::vector<double> m_values = ReferenceTable::load("models/data_gauge_rr.csv").numbers("y");
    ReferenceTable m_expected = ReferenceTable::load("models/gauge_rr_expected.csv");
    GaugeStudy m_study =
        analyseGauge({.shots = 10, .readers = 3, .repeats = 3, .values = m_values}).value();

    void expect(double computed, const std::string& quantity) const {
        for (std::size_t row = 0; row < m_expected.rowCount(); ++row) {
            if (m_expected.text(row, "quantity") == quantity) {
                EXPECT_TRUE(agrees(computed, m_expected.number(row, "computed"), 9.0)) << quantity;
                return;
            }
        }
        throw std::out_of_range(quantity);
    }
};

TEST_F(GaugeExample, AnalysisOfVariance) {
    expect(m_study.shots.sumSquares, "SS part");
    expect(m_study.readers.sumSquares, "SS appraiser");
    expect(m_study.interaction.sumSquares, "SS part x appraiser");
    expect(m_study.repeats.sumSquares, "SS repeatability");
    expect(m_study.shots.meanSquare, "MS part");
    expect(m_study.readers.meanSquare, "MS appraiser");
    expect(m_study.interaction.meanSquare, "MS interaction");
    expect(m_study.repeats.meanSquare, "MS repeatability");
    expect(m_study.shotsTest.f, "F part (over interaction)");
    expect(m_study.readersTest.f, "F appraiser (over interaction)");
    expect(m_study.interactionTest.f, "F interaction");
    expect(m_study.interactionTest.pValue, "p interaction");
}

TEST_F(GaugeExample, ComponentsWithInteraction) {
    expect(m_study.withInteraction.repeatability, "with interaction: var repeatability");
    expect(m_study.withInteraction.interaction,
           "with interaction: var interaction (truncated at 0)");
    expect(m_study.withInteraction.reproducibility, "with interaction: var appraiser");
    expect(m_study.withInteraction.shots, "with interaction: var part");
}

TEST_F(GaugeExample, PooledComponents) {
    EXPECT_TRUE(m_study.isPooledAdvised);  // p of the interaction is 0.974
    expect(m_study.pooled.repeatability, "pooled: var repeatability");
    expect(m_study.pooled.reproducibility, "pooled: var appraiser");
    expect(m_study.pooled.gauge(), "pooled: var gauge R&R");
    expect(m_study.pooled.shots, "pooled: var part");
    expect(m_study.pooled.total(), "pooled: total variance");
    expect(100.0 * std::sqrt(m_study.pooled.gauge() / m_study.pooled.total()),
           "pooled: % study variation gauge R&R");
}

TEST(GaugeStudy, BadInputIsNamed) {
    const auto codeOf = [](const ReaderTable& table) { return analyseGauge(table).error().code; };
    const std::vector<double> four{1.0, 2.0, 3.0, 4.0};
    const std::vector<double> equal{1.0, 1.0, 2.0, 2.0, 3.0, 3.0, 5.0, 5.0};
    EXPECT_EQ(codeOf({.shots = 2, .readers = 2, .repeats = 1, .values = four}),
              ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({.shots = 2, .readers = 2, .repeats = 2, .values = four}),
              ErrorCode::InvalidInput);
    EXPECT_EQ(codeOf({.shots = 2, .readers = 2, .repeats = 2, .values = equal}),
              ErrorCode::Untrustworthy);
}

}  // namespace
