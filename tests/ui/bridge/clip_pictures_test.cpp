#include "ui/bridge/clip_pictures.h"

#include <gtest/gtest.h>

#include <QSignalSpy>
#include <QTest>

#include "tests/core/intake/clip_project.h"

namespace ui::bridge {
namespace {

constexpr int kDecodingMilliseconds = 60000;  // on a busy machine

class ClipPicturesTest : public ::testing::Test, public tests::intake::ClipProject {};

TEST_F(ClipPicturesTest, APictureComesOnceItIsAskedForAndFitsTheBox) {
    constexpr QSize kBox{76, 42};
    ClipPictures pictures{*store};
    QSignalSpy arrived{&pictures, &ClipPictures::arrived};
    EXPECT_TRUE(pictures.pictureOf(clip, kBox).isNull());
    ASSERT_TRUE(arrived.wait(kDecodingMilliseconds));
    const QImage picture = pictures.pictureOf(clip, kBox);
    ASSERT_FALSE(picture.isNull());
    EXPECT_LE(picture.width(), kBox.width());
    EXPECT_LE(picture.height(), kBox.height());
    EXPECT_TRUE(picture.width() == kBox.width() || picture.height() == kBox.height());
    // A larger one is another picture, and the first is asked for no second time.
    EXPECT_TRUE(pictures.pictureOf(clip, 2 * kBox).isNull());
    ASSERT_TRUE(arrived.wait(kDecodingMilliseconds));
    EXPECT_GT(pictures.pictureOf(clip, 2 * kBox).width(), picture.width());
    EXPECT_EQ(arrived.count(), 2);
}

TEST_F(ClipPicturesTest, AFileThatIsGoneGivesNone) {
    std::filesystem::remove(clipFile);
    ClipPictures pictures{*store};
    QSignalSpy arrived{&pictures, &ClipPictures::arrived};
    constexpr int kQuietMilliseconds = 500;
    EXPECT_TRUE(pictures.pictureOf(clip, {76, 42}).isNull());
    EXPECT_FALSE(arrived.wait(kQuietMilliseconds));
    EXPECT_TRUE(pictures.pictureOf(clip, {76, 42}).isNull());
}

}  // namespace
}  // namespace ui::bridge
