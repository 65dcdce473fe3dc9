#include <gtest/gtest.h>

#include <algorithm>

#include "tests/core/intake/clip_project.h"

/// The reviewer's word on the clock of a clip whose file states a capture rate of 240 frames per
/// second (the tag com.android.capture.fps, see tests/data/footage/README.md).
namespace tests::intake {
namespace {

using core::ErrorCode;
using core::intake::ReviewersWord;
using core::timebase::CaptureRate;
using core::timebase::ClockKind;
using core::timebase::Rational;
using core::timebase::StampTrust;

bool hasRemark(const core::project::Clip& clip, std::string_view kind) {
    return std::any_of(clip.clockRemarks.begin(), clip.clockRemarks.end(),
                       [kind](const auto& remark) { return remark.kind == kind; });
}

class ClockWord : public ::testing::Test, public ClipProject {};

TEST_F(ClockWord, TheTagAloneStretchesTheClock) {
    ASSERT_TRUE(record().clock);
    EXPECT_EQ(record().clock->kind, ClockKind::Stretched);
    EXPECT_EQ(record().clock->stretch, Rational{8});
}

TEST_F(ClockWord, AWordAgainstTheTagIsRefusedAndNothingChanges) {
    const auto before = record();
    const auto said =
        core::intake::setReviewersWord(*store, clip, {.rate = CaptureRate{Rational{120}}});
    ASSERT_FALSE(said);
    EXPECT_EQ(said.error().code, ErrorCode::Contradiction);
    EXPECT_NE(said.error().message.find("com.android.capture.fps"), std::string::npos);
    EXPECT_EQ(record().evidence, before.evidence);
    EXPECT_EQ(record().clock, before.clock);
}

TEST_F(ClockWord, WithTheTagSetAsideTheWordDecidesAndUndoBringsTheTagBack) {
    const auto before = record();
    const ReviewersWord word{.rate = CaptureRate{Rational{120}}, .areTagsSetAside = true};
    ASSERT_TRUE(core::intake::setReviewersWord(*store, clip, word));
    EXPECT_EQ(record().clock->stretch, Rational{4});
    EXPECT_EQ(record().evidence.size(), 2U);  // the tag stays visible
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(record().evidence, before.evidence);
    EXPECT_EQ(record().clock->stretch, Rational{8});
}

TEST_F(ClockWord, WithTheTagSetAsideAndNoWordTheFileIsTakenAtItsSpeedAndSaysSo) {
    ASSERT_FALSE(hasRemark(record(), "no_evidence"));
    ASSERT_TRUE(
        core::intake::setReviewersWord(*store, clip, {.rate = {}, .areTagsSetAside = true}));
    EXPECT_EQ(record().clock->kind, ClockKind::Stamped);
    EXPECT_TRUE(hasRemark(record(), "no_evidence"));
    ASSERT_TRUE(core::intake::setReviewersWord(*store, clip, {}));
    EXPECT_EQ(record().clock->kind, ClockKind::Stretched);
    EXPECT_FALSE(hasRemark(record(), "no_evidence"));
}

TEST_F(ClockWord, FramesAreCountedWhenTheStampsAreNotTrusted) {
    ASSERT_TRUE(core::intake::setReviewersWord(*store, clip,
                                               {.rate = {}, .trust = StampTrust::NotTrusted}));
    EXPECT_EQ(record().clock->kind, ClockKind::Counted);
    EXPECT_EQ(record().clock->counted, CaptureRate{Rational{240}});
}

}  // namespace
}  // namespace tests::intake
