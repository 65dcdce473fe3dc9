#include "core/reading/reading_archive.h"

#include <gtest/gtest.h>

namespace core::reading {
namespace {

/// One of everything, no two numbers alike.
PictureReading fullReading() {
    PictureReading reading;
    auto& track = reading.track;
    track.pictureWidth = 1280;
    track.pictureHeight = 720;
    image::BallInFrame ball;
    ball.frame = {131};
    ball.time = {0.1};
    ball.centre = {100.25, 200.125};
    ball.radiusPx = 22.7;
    ball.smear = {3.5, -0.5};
    ball.outline = {{101.0, 201.0}, 23.0, 22.5, {0.3}};
    ball.source = image::BallSource::Clicked;
    ball.isPartial = true;
    track.frames.push_back(ball);
    track.path.x = {1.0, 2.0, 3.0, 4.0};
    track.motion.push_back({0.99, 0.01, {1.5, 2.5}});
    track.focal = {{900.0}, {45.0}};
    track.rowOrder = image::RowOrder::Left;
    track.readout = {0.0051};
    track.longestReadout = {0.0083};
    track.readoutSeen = image::ReadoutEstimate{{0.0052}, {0.0004}, {0.0003}};
    auto& fit = reading.fit;
    fit.status = spin::fit::FitStatus::Reading;
    fit.warnings = {"Only 2.5 frames a turn: a faster spin the other way would look the same."};
    fit.angularVelocity = {10.0, 150.0, -20.0};
    fit.covariance[1][2] = 0.25;
    fit.rate = {{1450.1}, {2.2}};
    fit.pattern.degree = 1;
    fit.pattern.redGreenBlue = {std::vector<double>{1, 2, 3, 4}, {5, 6, 7, 8}, {9, 10, 11, 12}};
    fit.candidates.push_back({spin::fit::CandidateKind::Alias, {1, 2, 3}, {5750.0}, {}, {}});
    fit.candidates.push_back({spin::fit::CandidateKind::Minimum, {4, 5, 6}, {700.0}, 1.3, 4.1});
    reading.rate = fit.rate;
    reading.interval95 = Interval<Rpm>{{1445.0}, {1455.0}};
    reading.readout = {ReadoutSource::Outlines, {{0.0051}, {0.0005}, {{0.0041}, {0.0061}}}, -1.7};
    reading.flight = image::FlightFacts{};
    reading.flight->speed = {{25.5}, {0.4}};
    reading.gravity =
        image::GravityVerdict{image::GravityVerdict::Kind::DoesNotFit, 8.1,
                              timebase::CaptureRate{timebase::Rational{24000, 1001}}, "Statement."};
    return reading;
}

TEST(ReadingArchive, GivesBackWhatWentIn) {
    const PictureReading reading = fullReading();
    const auto back = fromArchive(toArchive(reading));
    ASSERT_TRUE(back) << back.error().message;
    // Written again it is the same, byte by byte; and some fields by name.
    EXPECT_EQ(toArchive(back.value()), toArchive(reading));
    const auto& ball = back.value().track.frames.at(0);
    EXPECT_EQ(ball.frame.value, 131);
    EXPECT_EQ(ball.centre.y, 200.125);
    EXPECT_EQ(ball.source, image::BallSource::Clicked);
    EXPECT_TRUE(ball.isPartial);
    EXPECT_EQ(back.value().fit.candidates.at(0).kind, spin::fit::CandidateKind::Alias);
    EXPECT_FALSE(back.value().fit.candidates.at(0).deficit);
    EXPECT_EQ(back.value().fit.candidates.at(1).deficit, 4.1);
    EXPECT_EQ(back.value().fit.pattern.redGreenBlue.at(2).at(3), 12.0);
    EXPECT_EQ(back.value().rate->value.rpm, 1450.1);
    EXPECT_EQ(back.value().flight->speed.value.metresPerSecond, 25.5);
    EXPECT_EQ(back.value().track.rowOrder, image::RowOrder::Left);
    EXPECT_EQ(back.value().track.readoutSeen->commonSigma, Seconds{0.0003});
    EXPECT_EQ(back.value().readout.source, ReadoutSource::Outlines);
    EXPECT_EQ(back.value().readout.readout.interval95.high, Seconds{0.0061});
    EXPECT_TRUE(back.value().isClockRefuted());
    EXPECT_EQ(back.value().gravity->likelier->fps.den(), 1001);
}

TEST(ReadingArchive, ARefusalHasNoRate) {
    PictureReading reading;
    reading.reason = "The marking does not show.";
    const auto back = fromArchive(toArchive(reading));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_FALSE(back.value().rate);
    EXPECT_FALSE(back.value().flight);
    EXPECT_EQ(back.value().reason, reading.reason);
}

TEST(ReadingArchive, SaysWhenItIsNotWhole) {
    const std::string whole = toArchive(fullReading());
    for (const std::size_t length :
         {std::size_t{0}, std::size_t{1}, whole.size() / 2, whole.size() - 1}) {
        const auto back = fromArchive(std::string_view{whole}.substr(0, length));
        ASSERT_FALSE(back) << length;
        EXPECT_EQ(back.error().code, ErrorCode::Damaged);
    }
    EXPECT_FALSE(fromArchive("not an archive"));
}

}  // namespace
}  // namespace core::reading
