#include "ui/reading/card/clip_clock_text.h"

#include <gtest/gtest.h>

/// The clock of a clip as the status line names it: by the evidence that decided.
namespace ui::reading {
namespace {

using core::timebase::CaptureRate;
using core::timebase::ContainerTag;
using core::timebase::Rational;
using core::timebase::ReviewerEntry;

TEST(ClipClockText, NamesTheEvidenceThatDecided) {
    core::project::Clip clip;
    clip.playbackRate = core::timebase::PlaybackRate{Rational{30}};
    EXPECT_EQ(clockTextOf(clip), QStringLiteral("capture rate not settled"));
    clip.clock = core::project::ClockSetting{.counted = {}};
    EXPECT_EQ(clockTextOf(clip),
              QStringLiteral("30 frames/s, from the time stamps (nothing states it)"));
    clip.evidence = {ContainerTag{"com.android.capture.fps", CaptureRate{Rational{240}}, false}};
    clip.clock->kind = core::timebase::ClockKind::Stretched;
    clip.clock->stretch = Rational{8};
    EXPECT_EQ(clockTextOf(clip), QStringLiteral("240 frames/s, slow motion ×8 (file's tag)"));
    clip.evidence = {ContainerTag{"com.android.capture.fps", CaptureRate{Rational{240}}, true},
                     ReviewerEntry{CaptureRate{Rational{120}}, {}}};
    clip.clock->stretch = Rational{4};
    EXPECT_EQ(clockTextOf(clip), QStringLiteral("120 frames/s, slow motion ×4 (entered by hand)"));
}

}  // namespace
}  // namespace ui::reading
