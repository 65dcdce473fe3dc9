#include "core/reading/filming_facts.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/media/file/lens.h"

namespace core::reading {
namespace {

constexpr double kRoundingOfFacts = 1e-9;

project::Clip clipOfSize(int width, int height) {
    project::Clip clip;
    clip.width = width;
    clip.height = height;
    return clip;
}

double degreesOf(Radians angle) {
    return toDegrees(angle);
}

TEST(FilmingFacts, NothingStatedIsNothingKnown) {
    const auto facts = factsOf({}, clipOfSize(1280, 720));
    EXPECT_FALSE(facts.fieldOfView || facts.readout || facts.exposure || facts.ballDiameter);
    EXPECT_EQ(facts.markingSymmetry, 1);
    EXPECT_FALSE(focalLengthPx(facts, 1280, 720));
}

TEST(FilmingFacts, AStatedFieldOfViewIsKnownToADegreeOrTwoPerCent) {
    project::Session session;
    for (const auto& [stated, sigma] : {std::pair{30.0, 1.0}, {50.0, 1.0}, {60.0, 1.2}}) {
        session.fieldOfViewDeg = stated;
        const auto view = factsOf(session, clipOfSize(1280, 720)).fieldOfView;
        ASSERT_TRUE(view);
        EXPECT_NEAR(degreesOf(view->value), stated, kRoundingOfFacts);
        EXPECT_NEAR(degreesOf(view->sigma), sigma, kRoundingOfFacts);
    }
}

// Across 720 px the angle of 60° puts the picture 360 / tan 30° = 623.5 px from the lens; 1280 px
// are seen under 2 atan(640 / 623.5), which grows with the stated angle by its slope.
TEST(FilmingFacts, InAnUprightPictureTheAngleAcrossTheWidthIsThatOfTheShorterSide) {
    project::Session session;
    session.fieldOfViewDeg = 60.0;
    const auto facts = factsOf(session, clipOfSize(720, 1280));
    const auto longer = [](double deg) {
        return 2.0 * std::atan(640.0 * std::tan(0.5 * deg * kPi / 180.0) / 360.0);
    };
    ASSERT_TRUE(facts.fieldOfView);
    EXPECT_NEAR(facts.fieldOfView->value.radians, longer(60.0), kRoundingOfFacts);
    EXPECT_NEAR(facts.fieldOfView->sigma.radians, 1.2 * (longer(60.5) - longer(59.5)), 1e-5);
    EXPECT_NEAR(*focalLengthPx(facts, 720, 1280), 360.0 / std::tan(kPi / 6.0), 1e-6);
}

TEST(FilmingFacts, TheLensOfTheFileIsUsedUntilAnAngleIsStated) {
    auto clip = clipOfSize(1280, 720);
    clip.lensFocalLengthMm = 26.0;
    const auto lens = media::fieldOfViewAcrossLongerSide(26.0, 1280, 720);
    project::Session session;
    EXPECT_EQ(factsOf(session, clip).fieldOfView->value, lens.value);
    EXPECT_EQ(factsOf(session, clip).fieldOfView->sigma, lens.sigma);
    session.fieldOfViewDeg = 60.0;
    EXPECT_NEAR(degreesOf(factsOf(session, clip).fieldOfView->value), 60.0, kRoundingOfFacts);
}

TEST(FilmingFacts, BallReadoutAndMarkingAreThoseOfTheSession) {
    project::Session session;
    session.marking = project::BallMarking::Band;
    session.ballDiameterMm = 67.0;
    session.readoutSeconds = 0.0;
    const auto facts = factsOf(session, clipOfSize(1280, 720));
    EXPECT_EQ(facts.markingSymmetry, 2);
    EXPECT_NEAR(facts.ballDiameter->value.metres, 0.067, kRoundingOfFacts);
    EXPECT_NEAR(facts.ballDiameter->sigma.metres, 0.00067, kRoundingOfFacts);
    EXPECT_EQ(facts.readout, Seconds{0.0});  // known to be none, which is not the same as unknown
}

}  // namespace
}  // namespace core::reading
