#include "core/project/reading_inputs.h"

#include <gtest/gtest.h>

#include <random>

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
namespace spin = core::spin;

/// The example of FORMAT.md, R20, as values.
ReadingInputs exampleOfTheFormat() {
    ReadingInputs inputs;
    inputs.clipFingerprint = "…";
    inputs.marks.start = spin::StartMark{{12}, 0.5};
    inputs.marks.returns = {
        spin::ReturnMark::nearest({17}, 1),
        spin::ReturnMark::between({21}, {22}, {}, spin::BracketFraction{0.4, 0.1})};
    inputs.marks.angles = {{.frame = {12},
                            .angle = {0.5},
                            .spread = {0.09},
                            .spreadKind = spin::AngleMark::Spread::Rectangular,
                            .turns = 0}};
    inputs.clock = {.kind = core::timebase::ClockKind::Counted,
                    .stretch = {1},
                    .counted = core::timebase::CaptureRate{{240}},
                    .relativeSigma = 0.0001};
    inputs.context.symmetryOrder = 1;
    inputs.context.exposure = core::Seconds{0.001};
    inputs.context.dialStep = {0.0174};
    inputs.context.rollingShutter = {.kind = spin::RollingShutter::Kind::Known,
                                     .readout = core::Seconds{0.008},
                                     .rows = {{{12}, 0.4}}};
    inputs.context.lineOfSight = {
        .kind = spin::LineOfSight::Kind::Contribution, .angle = {0.02}, .sigma = {}};
    return inputs;
}

constexpr const char* kExample = R"({ "clip_fingerprint": "…",
  "marks": { "start": {"frame": 12, "spread_intervals": 0.5},
             "returns": [{"kind": "nearest", "frame": 17, "frame_after": 17, "turns": 1},
                         {"kind": "bracket", "frame": 21, "frame_after": 22, "fraction": 0.4, "fraction_half_width": 0.1}],
             "angles": [{"frame": 12, "angle_rad": 0.5, "spread_rad": 0.09, "spread_kind": "rectangular", "turns": 0}] },
  "clock": {"kind": "counted", "stretch": {"num": 1, "den": 1}, "counted_fps": {"num": 240, "den": 1}, "relative_sigma": 0.0001},
  "context": { "symmetry_order": 1, "exposure_s": 0.001, "dial_step_rad": 0.0174,
               "rolling_shutter": {"kind": "known", "readout_s": 0.008, "rows": [{"frame": 12, "row": 0.4}]},
               "line_of_sight": {"kind": "contribution", "angle_rad": 0.02, "sigma_rad": 0} } })";

TEST(ProjectFormatInputs, R20_TheExampleOfTheFormatIsRead) {
    const auto inputs = inputsFromJson(kExample);
    ASSERT_TRUE(inputs) << inputs.error().message;
    EXPECT_EQ(inputs.value(), exampleOfTheFormat());
}

TEST(ProjectFormatInputs, R20_WhatIsWrittenIsReadAgain) {
    const ReadingInputs inputs = exampleOfTheFormat();
    EXPECT_EQ(inputsFromJson(inputsToJson(inputs)).value(), inputs);
    EXPECT_EQ(marksFromJson(marksToJson(inputs.marks)).value(), inputs.marks);
    EXPECT_EQ(clockFromJson(clockToJson(inputs.clock)).value(), inputs.clock);
    EXPECT_EQ(contextFromJson(contextToJson(inputs.context)).value(), inputs.context);
    EXPECT_EQ(inputsFromJson(inputsToJson({})).value(), ReadingInputs{});
}

TEST(ReadingInputs, NumbersComeBackBitForBit) {
    std::mt19937_64 random{7};
    std::uniform_real_distribution<double> exponent{-300.0, 300.0};
    for (int i = 0; i < 2000; ++i) {
        spin::MarkSet marks;
        marks.angles = {{.frame = {i}, .angle = {std::pow(10.0, exponent(random))}, .turns = {}}};
        ASSERT_EQ(marksFromJson(marksToJson(marks)).value(), marks);
    }
}

TEST(ReadingInputs, WrongTextIsRefusedWithTheReason) {
    for (const char* wrong :
         {"", "{", "[]", "{}", R"({"returns":[],"angles":[{}]})", R"({"returns":{},"angles":[]})",
          R"({"returns":[{"kind":"soon","frame":1,"frame_after":1}],"angles":[]})",
          R"({"start":{"frame":"x"},"returns":[],"angles":[]})"}) {
        const auto marks = marksFromJson(wrong);
        ASSERT_FALSE(marks) << wrong;
        EXPECT_EQ(marks.error().code, ErrorCode::InvalidInput) << wrong;
        EXPECT_FALSE(marks.error().message.empty()) << wrong;
    }
    const auto clock =
        clockFromJson(R"({"kind":"stretched","stretch":{"num":1,"den":0},"relative_sigma":0})");
    ASSERT_FALSE(clock);
    EXPECT_EQ(clock.error().code, ErrorCode::InvalidInput);
}

}  // namespace
}  // namespace tests::project
