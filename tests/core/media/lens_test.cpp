#include "core/media/file/lens.h"

#include <gtest/gtest.h>

#include "core/base/kept_words.h"
#include "tests/core/media/ffmpeg_programs.h"
#include "tests/support/in_german.h"

namespace {

using namespace core::media;

constexpr const char* kKey = "camera.focal_length.35mm_equivalent";

StreamFacts factsWith(const std::string& focalLength) {
    StreamFacts facts;
    facts.tags[kKey] = focalLength;
    return facts;
}

TEST(LensData, AreReadFromTheMetadataOfAFile) {
    const auto clip = tests::makeClip(
        "lens.mp4", std::string{"-f lavfi -i testsrc=size=64x48:rate=30 -frames:v 3 -c:v libx264 "
                                "-movflags use_metadata_tags -metadata "} +
                        kKey + "=26");
    const auto index = readClipIndex(clip);
    ASSERT_TRUE(index) << index.error().message;
    const auto lens = lensOf(index.value().facts);
    ASSERT_TRUE(lens);
    EXPECT_EQ(lens->tag, kKey);
    EXPECT_EQ(lens->equivalentFocalLengthMm, 26.0);
}

TEST(LensData, ThatAreNoFocalLengthAreNotTaken) {
    for (const std::string value : {"", "0", "-26", "26 mm", "wide", "nan", "1e9"}) {
        EXPECT_FALSE(lensOf(factsWith(value))) << value;
    }
    EXPECT_FALSE(lensOf(StreamFacts{}));
}

// On the sensor itself (3:2) the angle across is 2 atan(18 mm / f): 39.6 degrees for 50 mm, 53.1
// for 36 mm; across 16:9 the half width is 43.267/2 * 16/sqrt(337) = 18.855 mm: 71.9 degrees for 26
// mm.
TEST(LensData, TheAngleOfViewFollowsFromTheDiagonal) {
    const auto degrees = [](double mm, int width, int height) {
        return core::toDegrees(fieldOfViewAcrossLongerSide(mm, width, height).value);
    };
    EXPECT_NEAR(degrees(50.0, 3000, 2000), 39.598, 0.001);
    EXPECT_NEAR(degrees(36.0, 3000, 2000), 53.130, 0.001);
    EXPECT_NEAR(degrees(26.0, 1920, 1080), 71.9, 0.05);
    EXPECT_EQ(degrees(26.0, 1080, 1920), degrees(26.0, 1920, 1080));
}

// 8 % of the scale, moved by hand: atan of a focal length 1 % longer and shorter.
TEST(LensData, TheUncertaintyIsThatOfTheScale) {
    const auto longer = fieldOfViewAcrossLongerSide(26.26, 1920, 1080).value.radians;
    const auto shorter = fieldOfViewAcrossLongerSide(25.74, 1920, 1080).value.radians;
    EXPECT_NEAR(fieldOfViewAcrossLongerSide(26.0, 1920, 1080).sigma.radians,
                8.0 * (shorter - longer) / 2.0, 1e-4);
}

// The words are kept with the clip: English, and said in German where they are shown.
TEST(LensData, TheWordsAreSaidInGermanToo) {
    const core::InGerman german;
    const std::string kept = lensWords({kKey, 26.5}, 1920, 1080);
    EXPECT_TRUE(kept.starts_with("The file gives the lens as 26.5 mm")) << kept;
    const std::string shown = core::saidKept(kept);
    EXPECT_TRUE(shown.starts_with("Die Datei nennt das Objektiv mit 26,5 mm")) << shown;
    EXPECT_TRUE(shown.ends_with("solange kein Bildwinkel eingegeben ist.")) << shown;
}

}  // namespace
