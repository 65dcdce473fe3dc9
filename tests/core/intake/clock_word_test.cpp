#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/intake/clock_evidence.h"
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

/// The clip with its tag set aside, another one of the same settings, and one of others.
class ClockChecks : public ClockWord {
protected:
    ClockChecks() {
        alike = add(clipFile, "alike.mp4");
        add(dataFolder() / "footage" / "half_120fps.mp4", "other.mp4");
        for (const auto id : {clip, alike}) {
            if (!core::intake::setReviewersWord(*store, id,
                                                {.rate = {}, .areTagsSetAside = true})) {
                throw std::runtime_error("the tag cannot be set aside");
            }
        }
    }
    core::project::ClipId add(const std::filesystem::path& film, const std::string& name) {
        const auto file = clipFile.parent_path() / name;
        const auto made = runProgram({"ffmpeg", "-v", "error", "-i", film.string(), "-c", "copy",
                                      "-map_metadata", "0", "-movflags", "use_metadata_tags",
                                      "-metadata", "comment=" + name, file.string()});
        if (made.status != 0) {
            throw std::runtime_error(made.errors);
        }
        return must(core::intake::addPreparedClip(
            *store, record().session, must(core::intake::prepareClip(file, store->file()))));
    }
    [[nodiscard]] core::project::Clip clipOf(core::project::ClipId id) const {
        return *store->snapshot()->clips.find(id);
    }
    /// Forty frames at 240 a second.
    static core::timebase::ClockCheck stopwatch() {
        const std::vector<core::timebase::ReferenceReading> readings{{{2}, 1.0},
                                                                     {{42}, 1.0 + 40.0 / 240.0}};
        return core::timebase::stopwatchCheck(readings, core::Seconds{0.0}).value();
    }

    core::project::ClipId alike;
};

TEST_F(ClockChecks, CountsForTheClipsOfTheDayThatAreFilmedAlikeInOneStepOfUndo) {
    const auto clips = core::intake::clipsFilmedAlike(*store->snapshot(), clip);
    EXPECT_EQ(clips, (std::vector<core::project::ClipId>{clip, alike}));
    const auto said = core::intake::addClockCheck(*store, clip, stopwatch(), clips);
    ASSERT_TRUE(said) << said.error().message;
    EXPECT_NEAR(said.value().rateFps, 240.0, 0.1);
    for (const auto id : clips) {
        const auto changed = clipOf(id);
        EXPECT_EQ(changed.clock->kind, ClockKind::Stretched);
        EXPECT_NEAR(changed.clock->stretch.toDouble(), 8.0, 0.005);
        EXPECT_GT(changed.clock->relativeSigma, 1.0 / (40.0 * std::sqrt(6.0)));
        const auto* decided = core::timebase::decidingEvidence(changed.evidence);
        ASSERT_NE(decided, nullptr);
        EXPECT_NE(core::timebase::describe(*decided).find("frames 2 to 42 of slow.mp4"),
                  std::string::npos);
    }
    ASSERT_TRUE(store->undo());
    for (const auto id : clips) {
        EXPECT_EQ(clipOf(id).clock->kind, ClockKind::Stamped);
        EXPECT_EQ(clipOf(id).evidence.size(), 1U);
    }
    ASSERT_TRUE(store->redo());
    EXPECT_EQ(clipOf(alike).clock->kind, ClockKind::Stretched);
}

TEST_F(ClockChecks, AClipThatItConflictsWithIsNamedAndNothingChanges) {
    ASSERT_TRUE(core::intake::setReviewersWord(
        *store, alike, {.rate = CaptureRate{Rational{120}}, .areTagsSetAside = true}));
    const std::array clips{clip, alike};
    const auto said = core::intake::addClockCheck(*store, clip, stopwatch(), clips);
    ASSERT_FALSE(said);
    EXPECT_EQ(said.error().code, ErrorCode::Contradiction);
    EXPECT_EQ(said.error().message.find("alike.mp4: "), 0U) << said.error().message;
    EXPECT_EQ(record().evidence.size(), 1U);
}

TEST_F(ClockChecks, AreWithdrawnFromAllClipsThatHaveThem) {
    EXPECT_EQ(core::intake::withdrawClockChecks(*store, clip).error().code, ErrorCode::NotFound);
    const std::array clips{clip, alike};
    ASSERT_TRUE(core::intake::addClockCheck(*store, clip, stopwatch(), clips));
    ASSERT_TRUE(core::intake::withdrawClockChecks(*store, alike));
    for (const auto id : clips) {
        EXPECT_EQ(clipOf(id).clock->kind, ClockKind::Stamped);
        EXPECT_EQ(clipOf(id).evidence.size(), 1U);
    }
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(record().evidence.size(), 2U);
}

TEST_F(ClockChecks, FramesThatCannotBeCountedAreRefused) {
    auto late = stopwatch();
    late.instants[1].frame = {4000};
    const std::array one{clip};
    EXPECT_EQ(core::intake::addClockCheck(*store, clip, late, one).error().code,
              ErrorCode::OutOfRange);
    auto prepared = must(core::intake::prepareClip(clipFile, store->file()));
    prepared.clip.fingerprint = "another";
    prepared.clip.remarks.push_back({"gap", core::timebase::FrameIndex{20}, "Frames are missing."});
    const std::array gapped{
        must(core::intake::addPreparedClip(*store, record().session, prepared))};
    const auto said = core::intake::addClockCheck(*store, gapped[0], stopwatch(), gapped);
    ASSERT_FALSE(said);
    EXPECT_EQ(said.error().code, ErrorCode::Untrustworthy);
    EXPECT_NE(said.error().message.find("Frames are missing."), std::string::npos);
    EXPECT_EQ(core::intake::addClockCheck(*store, clip, stopwatch(), {}).error().code,
              ErrorCode::InvalidInput);
}

}  // namespace
}  // namespace tests::intake
