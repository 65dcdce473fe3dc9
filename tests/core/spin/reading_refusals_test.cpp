#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "core/spin/reading_by_marks.h"
#include "tests/core/spin/clocks.h"
#include "tests/support/in_german.h"

namespace core::spin {
namespace {

using tests::kClock120;
using timebase::ClipClock;
using timebase::Rational;

MarkSet fromFrameZero(std::vector<ReturnMark> returns) {
    return {StartMark{{0}, {}}, std::move(returns), {}};
}

Error refusal(const MarkSet& marks, const ReadingContext& context = {},
              const ClipClock& clock = kClock120) {
    const auto reading = readMarks(marks, clock, context);
    EXPECT_FALSE(reading.has_value());
    return reading ? Error{} : reading.error();
}

bool says(const Error& error, const std::string& text) {
    return error.message.find(text) != std::string::npos;
}

TEST(ReadingRefusals, ContradictoryReturnsAreNamed) {
    const auto error = refusal(fromFrameZero(
        {ReturnMark::nearest({5}, 1), ReturnMark::nearest({10}, 2), ReturnMark::nearest({20}, 3)}));
    EXPECT_EQ(error.code, ErrorCode::Contradiction);
    EXPECT_TRUE(says(error, "frame 10")) << error.message;  // T at most 5.25 frames
    EXPECT_TRUE(says(error, "frame 20")) << error.message;  // T at least 6.5
    EXPECT_FALSE(says(error, "frame 5 ")) << error.message;
}

TEST(ReadingRefusals, GermanNamesThemToo) {
    const InGerman german;
    const auto error = refusal(fromFrameZero(
        {ReturnMark::nearest({5}, 1), ReturnMark::nearest({10}, 2), ReturnMark::nearest({20}, 3)}));
    EXPECT_EQ(error.message.find("Die Marken widersprechen sich: die Wiederkehr bei Bild "), 0U)
        << error.message;
    EXPECT_TRUE(says(error, "nach 3 Umdrehungen erlaubt ")) << error.message;
    EXPECT_TRUE(says(error, " U/min bis ")) << error.message;
}

TEST(ReadingRefusals, ReturnsThatOnlyTouchAreAContradiction) {
    // Turn 1 at frame 5 needs T >= 4.5 frames, turn 3 at frame 13 needs T <= 4.5.
    const auto error =
        refusal(fromFrameZero({ReturnMark::nearest({5}, 1), ReturnMark::nearest({13}, 3)}));
    EXPECT_EQ(error.code, ErrorCode::Contradiction);
}

TEST(ReadingRefusals, SameTurnTwiceMustOverlap) {
    const auto error =
        refusal(fromFrameZero({ReturnMark::nearest({5}, 1), ReturnMark::nearest({7}, 1)}));
    EXPECT_EQ(error.code, ErrorCode::Contradiction);
    const auto reading = readMarks(
        fromFrameZero({ReturnMark::nearest({5}, 1), ReturnMark::between({4}, {5}, 1)}), kClock120);
    ASSERT_TRUE(reading.has_value()) << reading.error().message;
    EXPECT_NEAR(reading.value().bounds->low.rpm, 7200.0 / 5.0, 1e-9);
    EXPECT_NEAR(reading.value().bounds->high.rpm, 7200.0 / 4.5, 1e-9);
}

TEST(ReadingRefusals, SeveralTurnCountsAreNotGuessed) {
    // Turn 1 at 3 ± 0.5 frames: frame 40 may be turn 12 to 16.
    const auto error =
        refusal(fromFrameZero({ReturnMark::nearest({3}), ReturnMark::nearest({40})}));
    EXPECT_EQ(error.code, ErrorCode::Untrustworthy);
    EXPECT_TRUE(says(error, "12 turns")) << error.message;
    EXPECT_TRUE(says(error, "16 turns")) << error.message;
}

TEST(ReadingRefusals, TurnCountsThatNeverFitAreAContradiction) {
    const auto error = refusal(fromFrameZero({ReturnMark::nearest({5}), ReturnMark::nearest({6})}));
    EXPECT_EQ(error.code, ErrorCode::Contradiction);
    EXPECT_TRUE(says(error, "frame 5") && says(error, "frame 6")) << error.message;
}

TEST(ReadingRefusals, FewerThanTwoFramesPerTurnListsCandidates) {
    // Ten turns in 15 frames: 4800 rpm looks like 7200 - 4800 = 2400 and 12000.
    const auto error = refusal(fromFrameZero({ReturnMark::nearest({15}, 10)}));
    EXPECT_EQ(error.code, ErrorCode::Untrustworthy);
    EXPECT_TRUE(says(error, "4800 rpm, 2400 rpm, 12000 rpm")) << error.message;
}

TEST(ReadingRefusals, MarkingOfOrderTwoNeedsTwiceTheFrames) {
    ReadingContext band;
    band.symmetryOrder = 2;
    EXPECT_EQ(refusal(fromFrameZero({ReturnMark::nearest({3})}), band).code,
              ErrorCode::Untrustworthy);
    EXPECT_TRUE(readMarks(fromFrameZero({ReturnMark::nearest({4})}), kClock120, band).has_value());
}

TEST(ReadingRefusals, MissingOrMisplacedMarks) {
    EXPECT_EQ(refusal({}).code, ErrorCode::InvalidInput);
    EXPECT_EQ(refusal({{}, {ReturnMark::nearest({5})}, {}}).code, ErrorCode::InvalidInput);
    EXPECT_EQ(refusal({StartMark{{5}, {}}, {ReturnMark::nearest({5})}, {}}).code,
              ErrorCode::InvalidInput);
    EXPECT_EQ(refusal({StartMark{{9}, {}}, {ReturnMark::nearest({5})}, {}}).code,
              ErrorCode::InvalidInput);
    EXPECT_EQ(refusal(fromFrameZero({ReturnMark::between({5}, {5})})).code,
              ErrorCode::InvalidInput);
    const auto outside = refusal(fromFrameZero({ReturnMark::nearest({2000})}));
    EXPECT_EQ(outside.code, ErrorCode::OutOfRange);
    EXPECT_TRUE(says(outside, "frame 2000") && says(outside, "0 to 1999")) << outside.message;
    EXPECT_EQ(refusal(fromFrameZero({ReturnMark::nearest({-1})})).code, ErrorCode::OutOfRange);
}

TEST(ReadingRefusals, BadNumbersInMarks) {
    EXPECT_EQ(refusal(fromFrameZero({ReturnMark::nearest({5}, 0)})).code, ErrorCode::OutOfRange);
    EXPECT_EQ(refusal({StartMark{{0}, -0.5}, {ReturnMark::nearest({5})}, {}}).code,
              ErrorCode::OutOfRange);
    EXPECT_EQ(
        refusal(fromFrameZero({ReturnMark::between({4}, {5}, 1, BracketFraction{1.2, 0.1})})).code,
        ErrorCode::OutOfRange);
    EXPECT_EQ(
        refusal(fromFrameZero({ReturnMark::between({4}, {5}, 1, BracketFraction{0.2, 0.0})})).code,
        ErrorCode::OutOfRange);
    // A start spread of two intervals and a return at frame 4 ± 0.5 with two turns: fine; with a
    // spread that reaches the return it is no longer after the start.
    EXPECT_EQ(refusal({StartMark{{0}, 3.6}, {ReturnMark::nearest({4})}, {}}).code,
              ErrorCode::InvalidInput);
}

TEST(ReadingRefusals, BadContext) {
    const auto marks = fromFrameZero({ReturnMark::nearest({5})});
    ReadingContext context;
    context.symmetryOrder = 0;
    EXPECT_EQ(refusal(marks, context).code, ErrorCode::OutOfRange);
    context = {};
    context.exposure = Seconds{-1.0};
    EXPECT_EQ(refusal(marks, context).code, ErrorCode::OutOfRange);
    context = {};
    context.lineOfSight = {LineOfSight::Kind::Corrected, {std::nan("")}, {}};
    EXPECT_EQ(refusal(marks, context).code, ErrorCode::NotFinite);
    context.lineOfSight = {LineOfSight::Kind::Contribution, {-0.1}, {}};
    EXPECT_EQ(refusal(marks, context).code, ErrorCode::OutOfRange);
    context = {};
    context.dialStep = {-0.1};
    EXPECT_EQ(refusal(marks, context).code, ErrorCode::OutOfRange);
}

TEST(ReadingRefusals, BadRollingShutter) {
    const auto marks = fromFrameZero({ReturnMark::nearest({5})});
    ReadingContext context;
    context.rollingShutter.kind = RollingShutter::Kind::Known;
    EXPECT_EQ(refusal(marks, context).code, ErrorCode::InvalidInput) << "no readout time";
    context.rollingShutter.readout = Seconds{0.004};
    const auto missing = refusal(marks, context);
    EXPECT_EQ(missing.code, ErrorCode::InvalidInput);
    EXPECT_TRUE(says(missing, "frame 0")) << missing.message;
    context.rollingShutter.readout = Seconds{-0.004};
    EXPECT_EQ(refusal(marks, context).code, ErrorCode::OutOfRange);
    context.rollingShutter = {RollingShutter::Kind::Unknown, {}, {{{0}, 0.5}, {{5}, std::nan("")}}};
    EXPECT_EQ(refusal(marks, context).code, ErrorCode::NotFinite);
}

TEST(ReadingRefusals, OneFrameIsNoClip) {
    const auto clock = ClipClock::stamped({{0}, Rational{1, 30}}).value();
    EXPECT_EQ(refusal(fromFrameZero({ReturnMark::nearest({0})}), {}, clock).code,
              ErrorCode::InvalidInput);
}

}  // namespace
}  // namespace core::spin
