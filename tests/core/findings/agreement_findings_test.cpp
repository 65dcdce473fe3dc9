#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"
#include "tests/support/reference_csv.h"

namespace {

using core::project::ReadingMethod;
using core::words::sentence;
using ::testing::HasSubstr;
using tests::MadeProject;
using tests::ReferenceTable;

double expectedOf(const std::string& file, const std::string& quantity) {
    const auto table = ReferenceTable::load(file);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        if (table.text(row, "quantity") == quantity) {
            return table.number(row, "computed");
        }
    }
    throw std::runtime_error{"no quantity " + quantity};
}

// Bland and Altman 1986, table 1: one meter as reading by marks, the other as rotation fit.
TEST(AgreementFindings, MarksAgainstRotationFitAreLimitsOfAgreement) {
    const auto table = ReferenceTable::load("agreement/pefr.csv");
    MadeProject project;
    const auto implement = project.implement("X");
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const auto shot = project.keep(implement, "A", table.number(row, "wright1"));
        project.read(shot, "reader", ReadingMethod::RotationFit, table.number(row, "mini1"));
    }
    const auto& limits = project.findings().agreement.methods.limits;
    ASSERT_TRUE(limits) << limits.whyNot().message;
    EXPECT_NEAR(
        limits->meanDifference,
        expectedOf("agreement/pefr_expected.csv", "mean difference Wright-mini (first readings)"),
        1e-9);
    EXPECT_NEAR(limits->differenceDeviation,
                expectedOf("agreement/pefr_expected.csv", "SD of differences"), 1e-9);
}

// The same table: the first meter read twice. s_w = sqrt(sum d^2 / 2n) by its definition.
TEST(AgreementFindings, SameReaderAgainGivesRepeatability) {
    const auto table = ReferenceTable::load("agreement/pefr.csv");
    MadeProject project;
    const auto implement = project.implement("X");
    double squares = 0.0;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const double first = table.number(row, "wright1");
        const double again = table.number(row, "wright2");
        squares += (first - again) * (first - again);
        project.read(project.keep(implement, "A", first), "reader", ReadingMethod::Marks, again);
    }
    const auto found = project.findings();
    ASSERT_EQ(found.agreement.repeats.size(), 1U);
    EXPECT_NEAR(found.agreement.repeats.front().repeatability->withinDeviation,
                std::sqrt(squares / 34.0), 1e-9);
    EXPECT_FALSE(found.agreement.methods.limits);
}

// Shrout and Fleiss 1979, table 2: six targets, four judges; ICC(2,1) = 0.29 as printed.
TEST(AgreementFindings, SeveralReadersGiveTheIntraclassCorrelationOfShroutAndFleiss) {
    const auto table = ReferenceTable::load("agreement/shrout_fleiss.csv");
    MadeProject project;
    const auto implement = project.implement("X");
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        core::project::ShotId shot;
        for (const char* judge : {"judge1", "judge2", "judge3", "judge4"}) {
            if (shot.value == 0) {
                shot = project.keep(implement, "A", table.number(row, judge));
            } else {
                project.read(shot, judge, ReadingMethod::Marks, table.number(row, judge));
            }
        }
    }
    const auto found = project.findings();
    const auto& study = found.agreement.readers;
    EXPECT_EQ(study.readers.size(), 4U);
    EXPECT_EQ(study.shots.size(), 6U);
    ASSERT_TRUE(study.intraclass);
    EXPECT_NEAR(study.intraclass->randomSingle.value, 0.289763779528, 1e-9);
    EXPECT_FALSE(study.gauge);
    EXPECT_EQ(study.gauge.whyNot().kind, core::findings::WhyNot::Kind::NotReadTwiceByEach);
}

// AIAG, Measurement Systems Analysis, 4th ed.: 10 parts, 3 appraisers, 3 trials.
TEST(AgreementFindings, RepeatedReadingsByAllGiveTheGaugeStudy) {
    const auto table = ReferenceTable::load("models/data_gauge_rr.csv");
    MadeProject project;
    const auto implement = project.implement("X");
    std::map<std::string, core::project::ShotId> shots;
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const std::string part = table.text(row, "part");
        if (!shots.contains(part)) {
            shots[part] = project.keep(implement, "A", 0.0);
            project.renameReader(table.text(row, "appraiser"), table.number(row, "y"));
        } else {
            project.read(shots[part], table.text(row, "appraiser"), ReadingMethod::Marks,
                         table.number(row, "y"));
        }
    }
    const auto found = project.findings();
    const auto& study = found.agreement.readers;
    EXPECT_EQ(study.repeats, 3U);
    ASSERT_TRUE(study.gauge) << study.gauge.whyNot().message;
    EXPECT_NEAR(study.gauge->shots.sumSquares,
                expectedOf("models/gauge_rr_expected.csv", "SS part"), 1e-7);
    EXPECT_NEAR(study.gauge->repeats.sumSquares,
                expectedOf("models/gauge_rr_expected.csv", "SS repeatability"), 1e-7);
}

TEST(AgreementFindings, ShotSetAsideIsNotHeldAgainstTheMethods) {
    MadeProject project;
    const auto implement = project.implement("X");
    for (int i = 0; i < 4; ++i) {
        const auto shot = project.keep(implement, "A", 1000.0 + i);
        project.read(shot, "reader", ReadingMethod::RotationFit, 1000.5 + i * i);
        if (i == 3) {
            project.setAside(shot);
        }
    }
    EXPECT_EQ(project.findings().agreement.methods.limits->count, 3U);
}

TEST(AgreementFindings, NothingReadTwiceSaysWhatIsNeeded) {
    const auto found = tests::ladder({1000.0}, 4.0, {"A"}, 3).findings();
    EXPECT_THAT(sentence(found.agreement.methods), HasSubstr("three shots"));
    EXPECT_THAT(sentence(found.agreement.readers), HasSubstr("two of them"));
}

}  // namespace
