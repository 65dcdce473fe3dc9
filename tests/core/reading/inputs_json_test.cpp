#include "core/reading/inputs_json.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>

#include "core/project/marks_json.h"

namespace tests::reading {
namespace {

using namespace core::project;
using namespace core::reading;
using core::ErrorCode;
namespace spin = core::spin;

/// The example of FORMAT.md, R20, as values.
MarksInputs exampleOfTheFormat() {
    MarksInputs inputs;
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
    const auto inputs = marksInputsFromJson(kExample);
    ASSERT_TRUE(inputs) << inputs.error().message;
    EXPECT_EQ(inputs.value(), exampleOfTheFormat());
}

TEST(ProjectFormatInputs, R20_WhatIsWrittenIsReadAgain) {
    const MarksInputs inputs = exampleOfTheFormat();
    EXPECT_EQ(marksInputsFromJson(toJson(inputs)).value(), inputs);
    EXPECT_EQ(marksFromJson(marksToJson(inputs.marks)).value(), inputs.marks);
    EXPECT_EQ(clockFromJson(clockToJson(inputs.clock)).value(), inputs.clock);
    EXPECT_EQ(marksInputsFromJson(toJson(MarksInputs{})).value(), MarksInputs{});
}

/// What FORMAT.md, R22, lists.
constexpr const char* kFit = R"({ "clip_fingerprint": "…", "first_frame": 3, "last_frame": 40,
  "clock": {"kind": "stretched", "stretch": {"num": 8, "den": 1}, "relative_sigma": 0.0001},
  "clicks": [{"frame": 12, "centre_px": [100.5, 50.25], "radius_px": 20}],
  "facts": {"readout_s": 0.006, "marking_symmetry": 2, "exposure_s": 0.001,
            "field_of_view_rad": 1.1, "field_of_view_sigma_rad": 0.02, "ball_diameter_m": 0.067},
  "track": [{"frame": 12, "time_s": 0.05, "centre_px": [100.5, 50.25], "centre_sigma_px": [0.1, 0.2], "radius_px": 20,
             "radius_sigma_px": 0.3, "smear_px": [4, -1], "source": "clicked"}],
  "fit": {"angular_velocity_rad_per_s": [1, 2, 150], "covariance_rad2_per_s2": [[1, 0, 0], [0, 2, 0], [0, 0, 3]],
          "explained_share": 0.9, "field_of_view_rad": 1.05, "uniqueness_standard_errors": 7.5},
  "flight": {"speed_m_per_s": [22.4, 0.3], "launch_angle_rad": [0.06, 0.01], "topspin_rpm": [-2413, 5],
             "sidespin_rpm": [278, 20], "rifle_spin_rpm": [448, 30], "axis_tilt_rad": [0.11, 0.02],
             "spin_parameter": [0.427, 0.006]} })";

TEST(ProjectFormatInputs, R22_WhatARotationFitRestsOnIsRead) {
    const auto read = keptFitFromJson(kFit);
    ASSERT_TRUE(read) << read.error().message;
    const KeptFit& kept = read.value();
    EXPECT_EQ(kept.clipFingerprint, "…");
    EXPECT_EQ(kept.request.range, (core::image::FrameRange{{3}, {40}}));
    EXPECT_EQ(kept.request.clock.stretch, core::timebase::Rational{8});
    ASSERT_EQ(kept.request.clicks.size(), 1U);
    EXPECT_EQ(kept.request.clicks[0].centre, (core::image::PointPx{100.5, 50.25}));
    EXPECT_EQ(kept.request.clicks[0].radiusPx, 20.0);
    EXPECT_EQ(kept.request.facts.readout, core::Seconds{0.006});
    EXPECT_EQ(kept.request.facts.exposure, core::Seconds{0.001});
    EXPECT_EQ(kept.request.facts.markingSymmetry, 2);
    EXPECT_EQ(kept.request.facts.fieldOfView->sigma, core::Radians{0.02});
    EXPECT_EQ(kept.request.facts.ballDiameter->value.metres, 0.067);
    ASSERT_EQ(kept.track.size(), 1U);
    EXPECT_EQ(kept.track[0].frame, core::timebase::FrameIndex{12});
    EXPECT_EQ(kept.track[0].time, core::Seconds{0.05});
    EXPECT_EQ(kept.track[0].centreSigma, (core::image::PointPx{0.1, 0.2}));
    EXPECT_EQ(kept.track[0].smear, (core::image::PointPx{4.0, -1.0}));
    EXPECT_EQ(kept.track[0].source, core::image::BallSource::Clicked);
    EXPECT_EQ(kept.angularVelocity.z, 150.0);
    EXPECT_EQ(kept.covariance[1][1], 2.0);
    EXPECT_EQ(kept.fieldOfView, core::Radians{1.05});
    EXPECT_EQ(kept.uniqueness, 7.5);
    ASSERT_TRUE(kept.flight);
    EXPECT_EQ(kept.flight->speed.sigma.metresPerSecond, 0.3);
    EXPECT_EQ(kept.flight->topspin.value.rpm, -2413.0);
    EXPECT_EQ(kept.flight->spinParameter.value.value, 0.427);
}

TEST(ProjectFormatInputs, R22_WhatIsWrittenIsReadAgain) {
    const std::string text = toJson(keptFitFromJson(kFit).value());
    EXPECT_EQ(toJson(keptFitFromJson(text).value()), text);
    EXPECT_EQ(nlohmann::json::parse(text), nlohmann::json::parse(kFit));
}

// The first version wrote no uncertainty of the field of view, which it took as 2 %, and a null
// where no other rate competed.
TEST(ProjectFormatInputs, R22_TheFirstVersionIsReadToo) {
    auto json = nlohmann::json::parse(kFit);
    json["facts"].erase("field_of_view_sigma_rad");
    json["fit"]["uniqueness_standard_errors"] = nullptr;
    json.erase("clicks");
    json.erase("flight");
    const auto kept = keptFitFromJson(json.dump());
    ASSERT_TRUE(kept) << kept.error().message;
    EXPECT_NEAR(kept.value().request.facts.fieldOfView->sigma.radians, 0.022, 1e-12);
    EXPECT_FALSE(kept.value().uniqueness);
    EXPECT_TRUE(kept.value().request.clicks.empty());
    EXPECT_FALSE(kept.value().flight);
    for (const char* part : {"clock", "facts", "track", "fit", "first_frame"}) {
        auto without = json;
        without.erase(part);
        EXPECT_EQ(keptFitFromJson(without.dump()).error().code, ErrorCode::InvalidInput) << part;
    }
}

TEST(InputsJson, NumbersComeBackBitForBit) {
    std::mt19937_64 random{7};
    std::uniform_real_distribution<double> exponent{-300.0, 300.0};
    for (int i = 0; i < 2000; ++i) {
        spin::MarkSet marks;
        marks.angles = {{.frame = {i}, .angle = {std::pow(10.0, exponent(random))}, .turns = {}}};
        ASSERT_EQ(marksFromJson(marksToJson(marks)).value(), marks);
    }
}

TEST(InputsJson, WrongTextIsRefusedWithTheReason) {
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
}  // namespace tests::reading
