#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>

#include "core/base/pixels.h"
#include "core/evidence/gather.h"
#include "core/evidence/picture_codec.h"
#include "core/evidence/prune.h"
#include "core/intake/add_clip.h"
#include "core/intake/clip_shots.h"
#include "core/media/frames/frame_decoder.h"

namespace core::evidence {
namespace {

namespace fs = std::filesystem;
using project::Store;
using timebase::FrameIndex;

/// A folder with a copy of a film and a project with one kept shot over frames 30 to 50 of it.
class EvidenceOfAFilm : public ::testing::Test {
protected:
    void SetUp() override {
        char name[] = "/tmp/evidence_XXXXXX";
        folder = ::mkdtemp(name);
        film = folder / "half.mp4";
        fs::copy_file("footage/half_120fps.mp4", film);
        store = Store::create(folder / "p.turnmark").value();
        project::Session session;
        session.name = "Bench day";
        const auto id = store->addSession(session).value();
        const auto prepared = intake::prepareClip(film, store->file()).value();
        const auto clip = intake::addPreparedClip(*store, id, prepared).value();
        project::Shot made;
        made.clip = clip;
        made.firstFrame = {5};
        made.lastFrame = {20};
        made.clicks = {{{5}, 100.0, 80.0, 20.0}, {{15}, 150.0, 90.0, 30.0}};
        shot = store->addShots(std::vector{made}).value().front();
        project::Reading reading;
        reading.shot = shot;
        reading.rate = {{1500.0}, {5.0}};
        reading.interval95 = {{1490.0}, {1510.0}};
        reading.inputsJson = "{}";
        ASSERT_TRUE(store->keepReading(reading));
    }
    void TearDown() override {
        store.reset();
        fs::remove_all(folder);
    }

    fs::path folder;
    fs::path film;
    std::unique_ptr<Store> store;
    project::ShotId shot;
};

/// Root mean square of the differences of all values of two pictures of one size.
double rmsBetween(const PixelBuffer& a, const PixelBuffer& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.bytes().size(); ++i) {
        const double difference = static_cast<double>(a.bytes()[i]) - b.bytes()[i];
        sum += difference * difference;
    }
    return std::sqrt(sum / static_cast<double>(a.bytes().size()));
}

TEST_F(EvidenceOfAFilm, IsCutAroundTheBallInEveryFrame) {
    ASSERT_EQ(wantingShots(*store).value(), std::vector{shot});
    ASSERT_TRUE(isWanting(*store, shot).value());
    EXPECT_EQ(gatherMissing(*store).value().made, 1);
    EXPECT_FALSE(isWanting(*store, shot).value());
    const auto evidence = store->picturesOf(shot).value().value();
    ASSERT_EQ(evidence.pictures.size(), 16U);
    // Half way between the clicks, and, beyond them, on their line: 5 px and 1 px right and down
    // and 1 px of radius a frame.
    EXPECT_EQ(evidence.pictures[5].ball, (project::StoredPicture::Ball{125.0, 85.0, 25.0}));
    EXPECT_EQ(evidence.pictures[15].ball, (project::StoredPicture::Ball{175.0, 95.0, 35.0}));
    for (const auto& picture : evidence.pictures) {
        EXPECT_LE(picture.leftPx, picture.ball->xPx - picture.ball->radiusPx);
        EXPECT_GE(picture.leftPx + picture.sidePx, picture.ball->xPx + picture.ball->radiusPx);
        EXPECT_LE(picture.topPx, picture.ball->yPx - picture.ball->radiusPx);
    }
    // 120 frames per second: frame 20 is 15 / 120 s after frame 5.
    EXPECT_NEAR(evidence.pictures[15].captureSeconds - evidence.pictures[0].captureSeconds, 0.125,
                1e-4);
}

TEST_F(EvidenceOfAFilm, ShowsWhatTheFilmShows) {
    ASSERT_EQ(gatherMissing(*store).value().made, 1);
    const auto evidence = store->picturesOf(shot).value().value();
    const auto decoder =
        media::FrameDecoder::open(film, media::readClipIndex(film).value()).value();
    std::size_t bytes = 0;
    for (const auto& picture : evidence.pictures) {
        const auto shown = decodePicture(evidence.codec, picture.bytes).value();
        ASSERT_EQ(shown.width(), picture.storedSidePx);
        ASSERT_EQ(picture.storedSidePx, static_cast<int>(picture.sidePx));
        const auto frame = decoder->decode(picture.frame).value();
        const auto region =
            frame->rgbRegion(static_cast<int>(picture.leftPx), static_cast<int>(picture.topPx),
                             shown.width(), shown.height());
        // A step of a mark is a hundred levels; the camera's own noise is about two.
        EXPECT_LT(rmsBetween(shown, region), 4.0) << "frame " << picture.frame.value;
        bytes += picture.bytes.size();
    }
    RecordProperty("bytes_a_picture", static_cast<int>(bytes / evidence.pictures.size()));
}

TEST_F(EvidenceOfAFilm, WithoutFilmItIsSaidAndNothingIsLost) {
    fs::remove(film);
    const auto gathered = gatherMissing(*store).value();
    EXPECT_EQ(gathered.made, 0);
    ASSERT_EQ(gathered.troubles.size(), 1U);
    EXPECT_NE(gathered.troubles[0].find("half.mp4"), std::string::npos) << gathered.troubles[0];
    EXPECT_FALSE(store->picturesOf(shot).value());
}

TEST_F(EvidenceOfAFilm, AWiderShotWantsPicturesAgain) {
    ASSERT_EQ(gatherMissing(*store).value().made, 1);
    ASSERT_TRUE(store->setShotRange(shot, {5}, {24}, {}));
    EXPECT_TRUE(isWanting(*store, shot).value());
    ASSERT_EQ(gatherMissing(*store).value().made, 1);
    EXPECT_EQ(store->picturesOf(shot).value()->pictures.size(), 20U);
    ASSERT_TRUE(store->setShotRange(shot, {7}, {24}, {}));
    EXPECT_FALSE(isWanting(*store, shot).value());
}

TEST_F(EvidenceOfAFilm, PruningTakesWhatWasChosen) {
    ASSERT_EQ(gatherMissing(*store).value().made, 1);
    EXPECT_TRUE(chosenToPrune(*store, {.ofShotsSetAside = true, .madeBefore = {}}).value().empty());
    EXPECT_TRUE(chosenToPrune(*store, {.madeBefore = "2020-01-01"}).value().empty());
    EXPECT_EQ(chosenToPrune(*store, {.madeBefore = "soon"}).error().code, ErrorCode::InvalidInput);
    // There is no 13th month and no 30 February (ISO 8601).
    for (const char* noDay : {"2026-13-45", "2026-02-30", "2026-00-10"}) {
        EXPECT_EQ(chosenToPrune(*store, {.madeBefore = noDay}).error().code,
                  ErrorCode::InvalidInput)
            << noDay;
    }
    EXPECT_EQ(chosenToPrune(*store, {.madeBefore = "9999-01-01"}).value().size(), 1U);
    ASSERT_TRUE(store->setAside(shot, "mishit"));
    EXPECT_EQ(prune(*store, {.ofShotsSetAside = true, .madeBefore = {}}).value().size(), 1U);
    EXPECT_FALSE(store->picturesOf(shot).value());
}

TEST_F(EvidenceOfAFilm, PicturesOfRemovedShotsGoWithAnyPruning) {
    ASSERT_EQ(gatherMissing(*store).value().made, 1);
    ASSERT_TRUE(store->removeShots(std::vector{shot}));
    EXPECT_EQ(prune(*store, {}).value().size(), 1U);
}

TEST(PictureCodec, OtherBytesAreSaid) {
    EXPECT_EQ(decodePicture(kPictureCodec, "no picture").error().code, ErrorCode::Damaged);
    EXPECT_EQ(decodePicture("image/unheard-of", "x").error().code, ErrorCode::Unsupported);
    // The signature of another format (PNG, ISO/IEC 15948): one decoder is all that damaged bytes
    // reach.
    EXPECT_EQ(decodePicture(kPictureCodec, "\x89PNG\r\n\x1a\n").error().code, ErrorCode::Damaged);
}

// A lossy frame header (RFC 9649, section 2.5; RFC 6386, section 9.1) that claims 16383 × 16383
// pixels, the most there can be, and holds none of them.
TEST(PictureCodec, APictureThatClaimsMuchTakesNoMemory) {
    using namespace std::string_literals;
    const std::string bytes =
        "RIFF\x18\0\0\0WEBPVP8 \x0c\0\0\0\x30\0\0\x9d\x01\x2a\xff\x3f\xff\x3f\0\0"s;
    EXPECT_EQ(decodePicture(kPictureCodec, bytes).error().code, ErrorCode::Damaged);
}

}  // namespace
}  // namespace core::evidence
