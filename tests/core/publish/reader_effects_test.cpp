#include <gtest/gtest.h>

#include <map>
#include <random>
#include <sstream>

#include "core/base/version.h"
#include "core/doubts/second_sample.h"
#include "core/words/findings.h"
#include "tests/core/doubts/doubts_project.h"
#include "tests/core/publish/published_folder.h"

/// Three readers on the same shots: one true, one who reads 1 % more, one with three times the
/// scatter. All but the first readings are blind second ones.
namespace core::publish {
namespace {

using tests::must;

constexpr int kShots = 40;
constexpr double kScatterRpm = 6.0;
constexpr double kNearly = 1e-9;

class ReaderEffects : public tests::PublishedFolder, protected tests::doubts::DoubtsProject {
protected:
    ReaderEffects() {
        std::mt19937_64 generator{20261126};
        std::normal_distribution<double> spread{1500.0, 90.0};
        for (int i = 0; i < kShots; ++i) {
            const auto shot = addShot(14 * i, 14 * i + 12);
            trueRpm[shot] = spread(generator);
            keepNumber(shot, readBy("exact", shot, generator), kScatterRpm, "exact");
        }
        for (const char* reader : {"exact", "biased", "biased", "loose", "loose"}) {
            must(store->setReader(reader));
            must(store->orderSecondReadings(
                must(core::doubts::drawSecondSample(*store->snapshot(), kShots, 1))));
            for (const auto* second : project::waitingSecondReadings(*store->snapshot())) {
                const double rpm = readBy(reader, second->shot, generator);
                must(store->keepSecondReading(second->id,
                                              number(second->shot, rpm, kScatterRpm, reader)));
            }
        }
        material.snapshot = store->snapshot();
        material.projectFile = store->file();
        material.origin = {"readers", 1, "2026-05-17T08:30:00Z", programName()};
        found = must(findings::findFindings(*material.snapshot));
    }
    double readBy(const std::string& reader, project::ShotId shot, std::mt19937_64& generator) {
        std::normal_distribution<double> noise{0.0, kScatterRpm * (reader == "loose" ? 3.0 : 1.0)};
        return trueRpm[shot] * (reader == "biased" ? 1.01 : 1.0) + noise(generator);
    }
    [[nodiscard]] double repeatabilityOf(const std::string& reader) const {
        for (const auto& repeat : found.agreement.repeats) {
            if (repeat.reader == reader) {
                return repeat.repeatability->withinDeviation;
            }
        }
        return 0.0;
    }

    std::map<project::ShotId, double> trueRpm;
    Material material;
    findings::Findings found;
};

// 1 % of 1500 rpm is 15 rpm; a mean of 40 differences of sqrt(2) 6 rpm is known to 1.3 rpm, and a
// deviation from 40 pairs to about 11 %.
TEST_F(ReaderEffects, ComeOutAsTheyWerePlanted) {
    const auto& pairs = found.agreement.readerPairs;
    ASSERT_EQ(pairs.size(), 3U);
    EXPECT_EQ(pairs[0].first + " " + pairs[0].second, "biased exact");
    EXPECT_NEAR(pairs[0].limits->meanDifference, 15.0, 4.0);
    EXPECT_GT(pairs[0].limits->meanInterval.low, 0.0);
    EXPECT_NE(words::sentence(pairs[0]).find("One of them is biased"), std::string::npos);
    EXPECT_NEAR(repeatabilityOf("exact"), kScatterRpm, 0.35 * kScatterRpm);
    EXPECT_NEAR(repeatabilityOf("loose") / repeatabilityOf("exact"), 3.0, 1.0);
    EXPECT_EQ(found.agreement.readers.readers.size(), 3U);
    for (const auto& reading : found.summary.cells.front().readings) {
        EXPECT_NEAR(reading.rate.value.rpm, trueRpm[reading.shot], 5.0 * kScatterRpm);
    }  // the first readings still count
}

TEST_F(ReaderEffects, AreThoseThatRFindsInTheExportedReadings) {
    if (!tests::hasProgram("Rscript")) {
        GTEST_SKIP() << "Rscript is not installed";
    }
    publishInto("out", material);
    const auto read =
        tests::runProgram({"Rscript", tests::scriptFile("check_readers.R"), folder.file("out")});
    ASSERT_EQ(read.status, 0) << read.errors;
    std::map<std::string, double> r;
    std::istringstream lines{read.output};
    std::string name;
    for (double value = 0.0; lines >> name >> value;) {
        r[name] = value;
    }
    ASSERT_EQ(r.size(), 3U + 9U + 3U) << read.output;
    for (const char* reader : {"exact", "biased", "loose"}) {
        EXPECT_NEAR(repeatabilityOf(reader), r[std::string{"repeatability_"} + reader], kNearly);
    }
    for (const auto& pair : found.agreement.readerPairs) {
        const std::string names = pair.first + "_" + pair.second;
        EXPECT_NEAR(pair.limits->meanDifference, r["bias_" + names], kNearly);
        EXPECT_NEAR(pair.limits->lower.value, r["lower_" + names], kNearly);
        EXPECT_NEAR(pair.limits->upper.value, r["upper_" + names], kNearly);
    }
    const auto& study = found.agreement.readers;
    EXPECT_NEAR(study.intraclass->randomSingle.value, r["icc"], kNearly);
    EXPECT_NEAR(study.gauge->withInteraction.repeatability, r["gauge_repeatability"], 1e-7);
    EXPECT_NEAR(study.gauge->withInteraction.reproducibility, r["gauge_reproducibility"], 1e-7);
}

}  // namespace
}  // namespace core::publish
