#include "ui/reading/clip_clock_text.h"

#include "core/project/shot_reading.h"
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

/// Where the capture rate comes from, in one word.
QString evidenceWord(const Clip& clip) {
    if (clip.evidence.empty()) {
        return tr("no evidence");
    }
    const auto name = core::timebase::evidenceName(clip.evidence.front());
    if (name == "container_tag") {
        return tr("tag");
    }
    if (name == "reviewer_entry") {
        return tr("entered");
    }
    return name == "clock_check" ? tr("clock check") : tr("gravity check");
}

}  // namespace

QString clockTextOf(const Clip& clip) {
    if (!clip.clock) {
        return tr("clock not settled");
    }
    const QString playback =
        clip.playbackRate ? fraction(clip.playbackRate->fps) : QStringLiteral("?");
    switch (clip.clock->kind) {
        case ClockKind::Stamped:
            return tr("clock %1 stamped, %2").arg(playback, evidenceWord(clip));
        case ClockKind::Stretched: {
            const QString rate = clip.playbackRate
                                     ? fraction(clip.playbackRate->fps * clip.clock->stretch)
                                     : playback;
            return tr("clock %1 stretched ×%2, %3")
                .arg(rate, fraction(clip.clock->stretch), evidenceWord(clip));
        }
        case ClockKind::Counted:
            break;
    }
    const QString rate = clip.clock->counted ? fraction(clip.clock->counted->fps) : playback;
    return tr("clock %1 counted, %2").arg(rate, evidenceWord(clip));
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
