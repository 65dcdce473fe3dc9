#include "ui/reading/shot/spoken_frame.h"

#include "core/base/units.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/shot_marks.h"
#include "ui/reading/tr.h"

namespace ui::reading {

using core::timebase::FrameIndex;

QString spokenFrame(const ShotView& view, FrameIndex frame) {
    const auto& marks = view.shot.marks;
    QStringList words{tr("Frame %1").arg(frame.value)};
    if (view.shot.strikeFrame == frame) {
        words << tr("strike");
    }
    if (marks.start && marks.start->frame == frame) {
        words << tr("start");
    } else if (const auto* mark = returnAt(marks, frame)) {
        words << (mark->turns ? tr("return, turn %1").arg(*mark->turns) : tr("return"));
    }
    if (const auto* angle = angleAt(marks, frame)) {
        words << tr("angle %1°").arg(fixedText(core::toDegrees(angle->angle), 0));
    }
    return words.join(QStringLiteral(", "));
}

QString spokenTime(const ShotView& view, FrameIndex frame) {
    const double milliseconds = view.millisecondsAfterStrike(frame);
    return view.shot.strikeFrame
               ? tr("%1 after the strike").arg(afterStrikeText(milliseconds))
               : tr("%1 after the first frame").arg(afterStrikeText(milliseconds));
}

QString spokenBall(const ShotView& view, FrameIndex frame) {
    const auto ball = view.contains(frame) ? view.ballIn(frame) : std::nullopt;
    if (!ball) {
        return tr("nobody has shown where the ball is");
    }
    return tr("ball at %1, %2, radius %3 px")
        .arg(fixedText(ball->centrePx.x(), 0), fixedText(ball->centrePx.y(), 0),
             fixedText(ball->radiusPx, 1));
}

}  // namespace ui::reading
