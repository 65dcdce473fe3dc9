#include "core/timebase/capture_rate_evidence.h"
#include "core/timebase/free_fall.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace core::timebase {
namespace {

const PlaybackRate kThirty{Rational{30}};
const CaptureRate kTwoForty{Rational{240}};
const CaptureRate kExactTwoForty{Rational{240000, 1001}};
const ContainerTag kTag{"com.android.capture.fps", kTwoForty};

Result<ClockDecision> settle(std::optional<PlaybackRate> playback,
                             const std::vector<CaptureRateEvidence>& evidence,
                             StampTrust trust = StampTrust::Trusted) {
    return settleCaptureRate(playback, evidence, trust);
}

bool tells(const ClockDecision& decision, ClockNote::Kind kind) {
    return std::any_of(decision.notes.begin(), decision.notes.end(),
                       [&](const auto& note) { return note.kind == kind; });
}

// A turntable at 33 1/3: `turns` turns between frame 0 and `lastFrame`.
ClockCheck turntable(double turns, std::int64_t lastFrame) {
    return {"turntable at 33 1/3 rpm",
            {{{0}, {0.0}}, {{lastFrame}, timeOfTurn(turns, Rpm{100.0 / 3.0})}},
            0.0};
}

TEST(SettleCaptureRate, TagOf240InAFileOf30IsEightTimesStretched) {
    const auto decision = settle(kThirty, {kTag}).value();
    EXPECT_EQ(decision.kind, ClockKind::Stretched);
    EXPECT_EQ(decision.stretch, Rational{8});
    EXPECT_EQ(decision.rate, kTwoForty);
    EXPECT_DOUBLE_EQ(decision.relativeSigma, kNominalRateSigma);
    EXPECT_TRUE(decision.notes.empty());
}

TEST(SettleCaptureRate, WithoutEvidenceTheStampsAreTakenAndItIsSaid) {
    const auto decision = settle(kThirty, {}).value();
    EXPECT_EQ(decision.kind, ClockKind::Stamped);
    EXPECT_TRUE(tells(decision, ClockNote::Kind::NoEvidence));
    EXPECT_FALSE(decision.decidedBy);
}

// A nominal rate: 240 against 240000/1001, rectangular (JCGM 100:2008, 4.3.7).
TEST(SettleCaptureRate, AnEnteredRateIsNeverLessCertainThanStampsWithoutEvidence) {
    const double unproven = settle(kThirty, {}).value().relativeSigma;
    EXPECT_NEAR(unproven, 0.001 / std::sqrt(3.0), 1e-9);
    for (const CaptureRate& rate : {CaptureRate{Rational{30}}, CaptureRate{Rational{30000, 1001}},
                                    kTwoForty, kExactTwoForty, CaptureRate{Rational{2397, 10}}}) {
        const auto entered = settle(kThirty, {ReviewerEntry{rate, {}}});
        ASSERT_TRUE(entered.has_value()) << entered.error().message;
        if (!tells(entered.value(), ClockNote::Kind::NotWholeStretch)) {
            EXPECT_LE(entered.value().relativeSigma, unproven) << rate.fps.toString();
        }
    }
    const auto doubted = settle(kThirty, {ReviewerEntry{{Rational{30}}, 0.01}}).value();
    EXPECT_EQ(doubted.kind, ClockKind::Stamped);
    EXPECT_LE(doubted.relativeSigma, unproven) << "the stamps count, and the word supports them";
    const auto stretched = settle(kThirty, {ReviewerEntry{kTwoForty, 0.01}}).value();
    EXPECT_EQ(stretched.relativeSigma, 0.01);
}

TEST(SettleCaptureRate, TheEvidenceThatDecidedIsNamed) {
    const ReviewerEntry entered{kExactTwoForty, {}};
    EXPECT_EQ(settle(kThirty, {kTag, entered}).value().decidedBy, 1U) << "the reviewer's word";
    EXPECT_EQ(settle(kThirty, {kTag}).value().decidedBy, 0U);
    ContainerTag aside = kTag;
    aside.isSetAside = true;
    EXPECT_EQ(settle(kThirty, {aside, ReviewerEntry{{Rational{120}}, {}}}).value().decidedBy, 1U);
    EXPECT_FALSE(settle(kThirty, {aside}).value().decidedBy);
    EXPECT_EQ(settle(kThirty, {kTag, turntable(30.0, 12947)}).value().decidedBy, 1U)
        << "the check decides for 240000/1001";
    EXPECT_EQ(settle(kThirty, {kTag, turntable(30.0, 12960)}).value().decidedBy, 0U);
    const std::vector<CaptureRateEvidence> both{kTag, entered};
    EXPECT_EQ(decidingEvidence(both), &both[1]);
    EXPECT_EQ(decidingEvidence(std::vector<CaptureRateEvidence>{aside}), nullptr);
}

TEST(SettleCaptureRate, NominalAgainstExactIsToldAndIsNoConflict) {
    // 240 against 240000/1001 differs by 0.1 % (video/frame_rates.csv).
    const auto decision = settle(kThirty, {ReviewerEntry{kExactTwoForty, {}}, kTag});
    ASSERT_TRUE(decision.has_value()) << decision.error().message;
    EXPECT_TRUE(tells(decision.value(), ClockNote::Kind::NominalAgainstExact));
    EXPECT_EQ(decision.value().rate, kExactTwoForty);
    EXPECT_TRUE(tells(decision.value(), ClockNote::Kind::NotWholeStretch));
}

TEST(SettleCaptureRate, FactorOfTwoIsAConflictThatNamesBoth) {
    const auto decision = settle(kThirty, {kTag, ReviewerEntry{{Rational{120}}, {}}});
    ASSERT_FALSE(decision.has_value());
    EXPECT_EQ(decision.error().code, ErrorCode::Contradiction);
    EXPECT_NE(decision.error().message.find("com.android.capture.fps says 240"), std::string::npos);
    EXPECT_NE(decision.error().message.find("by hand is 120"), std::string::npos);
}

TEST(SettleCaptureRate, FileThatPlaysAtCaptureSpeedIsStamped) {
    const auto decision = settle(PlaybackRate{Rational{240}}, {kTag}).value();
    EXPECT_EQ(decision.kind, ClockKind::Stamped);
    EXPECT_TRUE(decision.notes.empty());
    const auto uneven = settle(PlaybackRate{Rational{23940, 100}}, {kTag}).value();
    EXPECT_EQ(uneven.kind, ClockKind::Stamped) << "a variable frame rate moves the median";
    EXPECT_TRUE(tells(uneven, ClockNote::Kind::NominalAgainstExact));
}

TEST(SettleCaptureRate, StampsThatAreNotTrustedAreCounted) {
    const auto decision = settle(kThirty, {kTag}, StampTrust::NotTrusted).value();
    EXPECT_EQ(decision.kind, ClockKind::Counted);
    EXPECT_TRUE(tells(decision, ClockNote::Kind::StampsNotUsed));
    const auto nothing = settle(kThirty, {}, StampTrust::NotTrusted);
    EXPECT_EQ(nothing.error().code, ErrorCode::InvalidInput);
}

TEST(SettleCaptureRate, TurntableOfThirtyTurnsDecidesBetweenNominalAndExact) {
    // Thirty turns take 12947.05 frames at 240000/1001 and 12960 at 240
    // (physics/turntable_check.csv).
    const auto exact = settle(kThirty, {kTag, turntable(30.0, 12947)});
    ASSERT_TRUE(exact.has_value()) << exact.error().message;
    EXPECT_EQ(exact.value().rate, kExactTwoForty);
    EXPECT_TRUE(tells(exact.value(), ClockNote::Kind::CheckDecided));
    const auto nominal = settle(kThirty, {kTag, turntable(30.0, 12960)}).value();
    EXPECT_EQ(nominal.rate, kTwoForty);
    EXPECT_FALSE(tells(nominal, ClockNote::Kind::CheckDecided));
    EXPECT_LT(nominal.relativeSigma, kCameraClockSigma);
}

TEST(SettleCaptureRate, ClockCheckAloneGivesTheRate) {
    const auto decision = settle(kThirty, {turntable(10.0, 2160)}).value();
    EXPECT_NEAR(decision.rate->fps.toDouble(), 120.0, 1e-9);
    EXPECT_NEAR(decision.relativeSigma, 0.000189003838178, 1e-9);  // physics/turntable_check.csv
    EXPECT_EQ(decision.kind, ClockKind::Stretched);
}

TEST(SettleCaptureRate, CoarseClockCheckStillCatchesAFactor) {
    const auto decision = settle(kThirty, {kTag, turntable(1.0, 216)});  // 120, not 240
    ASSERT_FALSE(decision.has_value());
    EXPECT_EQ(decision.error().code, ErrorCode::Contradiction);
    EXPECT_NE(decision.error().message.find("turntable"), std::string::npos);
}

TEST(SettleCaptureRate, GravityCheckCatchesFactorsAndNotPerCents) {
    // Acceleration goes with the square of the rate: at half the true rate a fourth of 9.8 m/s².
    EXPECT_FALSE(settle(kThirty, {kTag, GravityCheck{kTwoForty, kStandardGravity / 4.0}}));
    EXPECT_FALSE(settle(kThirty, {kTag, GravityCheck{kTwoForty, kStandardGravity * 4.0}}));
    EXPECT_TRUE(settle(kThirty, {kTag, GravityCheck{kTwoForty, kStandardGravity * 1.4}}));
    EXPECT_TRUE(settle(kThirty, {kTag, GravityCheck{kTwoForty, kStandardGravity * 0.4}}))
        << "the pictures do not refute a rate with such a fall either";
    EXPECT_TRUE(settle(kThirty, {kTag, GravityCheck{{Rational{120}}, kStandardGravity / 4.0}}))
        << "a fourth at 120 is just right at 240";
    const auto slow = settle(kThirty, {GravityCheck{{Rational{30}}, kStandardGravity / 64.0}});
    EXPECT_EQ(slow.error().code, ErrorCode::Contradiction) << "an untagged eightfold slow motion";
}

TEST(SettleCaptureRate, StretchNearAWholeNumberIsToldAndWidens) {
    const auto decision = settle(PlaybackRate{Rational{30000, 1001}}, {kTag}).value();
    EXPECT_EQ(decision.stretch, (Rational{1001, 125}));  // 240·1001/30000 = 8.008
    EXPECT_TRUE(tells(decision, ClockNote::Kind::NotWholeStretch));
    EXPECT_NEAR(decision.relativeSigma, 0.001 / std::sqrt(3.0), 1e-6);
}

TEST(SettleCaptureRate, FasterThanCapturedIsTold) {
    const auto decision = settle(kThirty, {ReviewerEntry{{Rational{10}}, {}}}).value();
    EXPECT_TRUE(tells(decision, ClockNote::Kind::FasterThanCaptured));
    EXPECT_EQ(decision.stretch, (Rational{1, 3}));
}

TEST(SettleCaptureRate, BadInputIsRefused) {
    EXPECT_EQ(settle(PlaybackRate{Rational{0}}, {}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(settle(kThirty, {ContainerTag{"t", {Rational{0}}, false}}).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(settle(kThirty, {ReviewerEntry{kTwoForty, -1.0}}).error().code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(settle(kThirty, {ClockCheck{}}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(settle(kThirty, {GravityCheck{kTwoForty, std::nan("")}}).error().code,
              ErrorCode::NotFinite);
}

TEST(MakeClock, FollowsTheDecision) {
    const FrameStamps stamps{{0, 512, 1024}, Rational{1, 15360}};
    const auto stretched = makeClock(settle(kThirty, {kTag}).value(), stamps).value();
    EXPECT_EQ(stretched.captureTime({2}), (Rational{1, 120}));
    EXPECT_DOUBLE_EQ(stretched.relativeSigma(), kNominalRateSigma);
    const auto counted =
        makeClock(settle(kThirty, {kTag}, StampTrust::NotTrusted).value(), stamps).value();
    EXPECT_EQ(counted.captureTime({2}), (Rational{1, 120}));
    const auto stamped = makeClock(settle(kThirty, {}).value(), stamps).value();
    EXPECT_EQ(stamped.captureTime({2}), (Rational{1, 15}));
}

TEST(Evidence, NamesAreStableAndDistinct) {
    EXPECT_EQ(evidenceName(kTag), "container_tag");
    EXPECT_EQ(evidenceName(ReviewerEntry{}), "reviewer_entry");
    EXPECT_EQ(evidenceName(ClockCheck{}), "clock_check");
    EXPECT_EQ(evidenceName(GravityCheck{}), "gravity_check");
    EXPECT_EQ(clockNoteName(ClockNote::Kind::StampsNotUsed), "stamps_not_used");
}

}  // namespace
}  // namespace core::timebase
