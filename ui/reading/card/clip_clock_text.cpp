#include "ui/reading/card/clip_clock_text.h"

#include "core/project/clip_clock.h"
#include "ui/models/clip_words.h"
#include "ui/reading/tr.h"

namespace ui::reading {

using core::project::Clip;
using core::project::ClipFrames;
using core::timebase::ClipClock;
using core::timebase::ClockKind;
using core::timebase::Rational;

namespace {

QString fraction(Rational value) {
    return value.den() == 1 ? QString::number(value.num())
                            : QString::fromStdString(value.toString());
}

}  // namespace

QString clockTextOf(const Clip& clip) {
    if (!clip.clock) {
        return tr("capture rate not settled");
    }
    const QString playback =
        clip.playbackRate ? fraction(clip.playbackRate->fps) : QStringLiteral("?");
    switch (clip.clock->kind) {
        case ClockKind::Stamped:
            return tr("%1 frames/s, from the time stamps (%2)")
                .arg(playback, models::clockSourceText(clip));
        case ClockKind::Stretched: {
            const QString rate = clip.playbackRate
                                     ? fraction(clip.playbackRate->fps * clip.clock->stretch)
                                     : playback;
            return tr("%1 frames/s, slow motion ×%2 (%3)")
                .arg(rate, fraction(clip.clock->stretch), models::clockSourceText(clip));
        }
        case ClockKind::Counted:
            break;
    }
    const QString rate = clip.clock->counted ? fraction(clip.clock->counted->fps) : playback;
    return tr("%1 frames/s, by counting frames (%2)").arg(rate, models::clockSourceText(clip));
}

core::Result<ClipClock> clockForDrawing(const Clip& clip, const ClipFrames& frames) {
    if (clip.clock) {
        return core::project::clipClock(*clip.clock, frames);
    }
    auto stamped = ClipClock::stamped(frames.stamps);
    if (!stamped && clip.playbackRate) {
        return ClipClock::counted(clip.frameCount,
                                  core::timebase::CaptureRate{clip.playbackRate->fps});
    }
    return stamped;
}

}  // namespace ui::reading
