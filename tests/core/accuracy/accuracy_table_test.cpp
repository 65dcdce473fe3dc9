#include "core/accuracy/accuracy_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace core::accuracy {
namespace {

constexpr double kRounding = 1e-12;

/// A shot of the target with a reading that is off by `error` (relative).
Trial readTrial(double error) {
    Trial trial;
    trial.conditions.ballDiameterPx = 40.0;
    trial.conditions.framesFullyInside = 20;
    trial.conditions.exposureTurnDeg = 10.0;
    trial.isFound = true;
    trial.isRead = true;
    trial.relativeError = error;
    trial.relativeSigma = 0.002;
    trial.isCovered = std::abs(error) <= 0.01;
    trial.axisErrorDeg = 100.0 * std::abs(error);
    trial.trackTime = Seconds{0.2};
    trial.fitTime = Seconds{0.3};
    return trial;
}

const AccuracyRow& rowNamed(const std::vector<AccuracyRow>& rows, const std::string& part) {
    const auto at = std::find_if(rows.begin(), rows.end(), [&part](const AccuracyRow& row) {
        return row.name.find(part) != std::string::npos;
    });
    static const AccuracyRow kNone;
    EXPECT_NE(at, rows.end()) << part;
    return at == rows.end() ? kNone : *at;
}

TEST(AccuracyTable, QuantilesSharesAndBlundersAreThoseOfHandArithmetic) {
    std::vector<Trial> trials;
    for (const double error : {0.001, -0.002, 0.003, -0.004, 0.06}) {
        trials.push_back(readTrial(error));
    }
    Trial unread = readTrial(0.0);
    unread.isRead = false;
    trials.push_back(unread);
    const auto rows = accuracyRows(trials);
    const AccuracyRow& all = rows.front();
    EXPECT_EQ(all.trials, 6U);
    EXPECT_EQ(all.readings, 5U);
    EXPECT_NEAR(all.medianError, 0.003, kRounding);
    // Linear between order statistics: at 0.9 * 4 = 3.6 lies 0.004 + 0.6 * (0.06 - 0.004).
    EXPECT_NEAR(all.error90, 0.0376, kRounding);
    EXPECT_NEAR(all.coverage, 4.0 / 5.0, kRounding);
    EXPECT_NEAR(all.noReading, 1.0 / 6.0, kRounding);
    EXPECT_NEAR(all.blunders, 1.0 / 6.0, kRounding);
    EXPECT_NEAR(all.medianAxisDeg, 0.3, kRounding);
    EXPECT_NEAR(all.axis90Deg, 3.76, kRounding);
    EXPECT_NEAR(all.medianTime.seconds, 0.5, kRounding);
}

TEST(AccuracyTable, TheTargetAsksForSizeFramesAndAShortExposure) {
    Trial trial = readTrial(0.001);
    trial.conditions.ballDiameterPx = 30.0;
    trial.conditions.framesFullyInside = 8;
    trial.conditions.exposureTurnDeg = 30.0;
    EXPECT_TRUE(isOfTheTarget(trial));
    trial.conditions.ballDiameterPx = 29.9;
    EXPECT_FALSE(isOfTheTarget(trial));
    trial.conditions.ballDiameterPx = 30.0;
    trial.conditions.framesFullyInside = 7;
    EXPECT_FALSE(isOfTheTarget(trial));
    trial.conditions.framesFullyInside = 8;
    trial.conditions.exposureTurnDeg = 30.1;
    EXPECT_FALSE(isOfTheTarget(trial));
}

TEST(AccuracyTable, ConditionsSplitTheTargetOnly) {
    Trial small = readTrial(0.2);
    small.conditions.ballDiameterPx = 25.0;
    Trial half = readTrial(0.002);
    half.conditions.marking = synthesis::Marking::HalfDark;
    const std::vector<Trial> trials{small, half, readTrial(0.004)};
    const auto rows = accuracyRows(trials);
    EXPECT_EQ(rows.at(0).trials, 3U);
    EXPECT_EQ(rows.at(1).trials, 2U);
    EXPECT_EQ(rows.at(1).blunders, 0.0);
    const AccuracyRow& row =
        rowNamed(rows, std::string{synthesis::markingName(synthesis::Marking::HalfDark)});
    EXPECT_EQ(row.trials, 1U);
    EXPECT_NEAR(row.medianError, 0.002, kRounding);
}

// (read - true)/u = e true/(s read) = e/((1 + e) s), here with s = 0.002: 1/1.002 and -2/0.996.
TEST(AccuracyTable, ZIsTheErrorOverTheStatedUncertainty) {
    const std::vector<Trial> trials{readTrial(0.002), readTrial(-0.004)};
    const double square = (1.0 / (1.002 * 1.002) + 4.0 / (0.996 * 0.996)) / 2.0;
    EXPECT_NEAR(accuracyRows(trials).front().rmsZ, std::sqrt(square), kRounding);
}

TEST(AccuracyTable, AWarningMakesABlunderNoSilentOneAndAFalseShotIsAlwaysOne) {
    Trial warned = readTrial(0.06);
    warned.isWarned = true;
    Trial falsely = readTrial(0.001);
    falsely.isWarned = true;
    falsely.hasFalseReading = true;
    const std::vector<Trial> trials{warned, falsely, readTrial(0.06), readTrial(0.001)};
    const auto rows = accuracyRows(trials);
    EXPECT_NEAR(rows.front().blunders, 3.0 / 4.0, kRounding);
    EXPECT_NEAR(rows.front().silentBlunders, 2.0 / 4.0, kRounding);
}

TEST(AccuracyTable, ASituationHasARowOfItsOwnAndIsInNoOther) {
    Trial bounced = readTrial(0.004);
    bounced.situation = Situation::Bounce;
    bounced.conditions.framesFullyInside = 6;  // no target is set for it
    bounced.hasKink = true;
    Trial missed = bounced;
    missed.hasKink = false;
    const std::vector<Trial> trials{bounced, missed, readTrial(0.001)};
    const auto rows = accuracyRows(trials);
    EXPECT_EQ(rows.at(0).trials, 1U);
    EXPECT_EQ(rows.at(0).kinks, 0.0);
    const AccuracyRow& row = rowNamed(rows, situationTitle(Situation::Bounce));
    EXPECT_EQ(row.trials, 2U);
    EXPECT_NEAR(row.kinks, 0.5, kRounding);
    EXPECT_NEAR(row.medianError, 0.004, kRounding);
    for (const AccuracyRow& one : rows) {
        EXPECT_NE(one.name, situationTitle(Situation::Gloss));  // no row without a shot
    }
}

TEST(AccuracyTable, SeedsOfTheSituationsKeepApart) {
    // Runs of neighbouring seeds begin 1,000,003 apart; up to 50,000 shots of a kind fit between.
    std::vector<std::uint64_t> offsets{seedOffset(Situation::Usual)};
    for (const Situation situation : kFurtherSituations) {
        offsets.push_back(seedOffset(situation));
    }
    std::sort(offsets.begin(), offsets.end());
    offsets.push_back(1'000'003);
    for (std::size_t i = 1; i < offsets.size(); ++i) {
        EXPECT_GE(offsets[i] - offsets[i - 1], 50'000U);
    }
}

TEST(AccuracyTable, WithoutAReadingThereIsNoError) {
    Trial unread = readTrial(0.0);
    unread.isRead = false;
    const std::vector<Trial> trials{unread};
    const auto rows = accuracyRows(trials);
    EXPECT_TRUE(std::isnan(rows.front().medianError));
    EXPECT_TRUE(std::isnan(rows.front().coverage));
    EXPECT_EQ(rows.front().noReading, 1.0);
    EXPECT_NE(accuracyText(rows).find('1'), std::string::npos);
}

}  // namespace
}  // namespace core::accuracy
