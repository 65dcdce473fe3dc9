#include "core/spin/mark_times.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/expects.h"
#include "core/base/words.h"

namespace core::spin {
namespace {

std::string nameOf(FrameIndex frame) {
    return said("frame {}", frame.value);
}

}  // namespace

Result<double> MarkTimes::rowAt(FrameIndex frame) const {
    const auto found = std::find_if(m_shutter.rows.begin(), m_shutter.rows.end(),
                                    [&](const BallRow& row) { return row.frame == frame; });
    if (found == m_shutter.rows.end()) {
        return fail(ErrorCode::InvalidInput,
                    said("The rolling shutter cannot be allowed for: the row of the ball in {} is "
                         "missing. Click the ball in that frame.",
                         nameOf(frame)));
    }
    if (!std::isfinite(found->row)) {
        return fail(ErrorCode::NotFinite,
                    said("The row of the ball in {} is not a number.", nameOf(frame)));
    }
    return found->row;
}

double MarkTimes::frameInterval() const {
    const auto rate = m_clock.captureRate();
    CORE_EXPECTS(rate.has_value());
    return 1.0 / rate->fps.toDouble();
}

Result<double> MarkTimes::secondsAt(FrameIndex frame) const {
    if (!m_clock.contains(frame)) {
        return fail(ErrorCode::OutOfRange,
                    said("The marked {} is not in the clip, which has the frames 0 to {}.",
                         nameOf(frame), m_clock.frameCount() - 1));
    }
    double seconds = m_clock.captureSeconds(frame).seconds;
    if (m_shutter.kind == RollingShutter::Kind::Known ||
        m_shutter.kind == RollingShutter::Kind::Estimated) {
        BOOST_OUTCOME_TRY(row, rowAt(frame));
        seconds += row * m_shutter.readout.value_or(Seconds{}).seconds;
    }
    return seconds;
}

MarkTimes::Gaps MarkTimes::gapsAround(FrameIndex frame) const {
    const double here = m_clock.captureSeconds(frame).seconds;
    const bool hasBefore = frame.value > 0;
    const bool hasAfter = frame.value + 1 < m_clock.frameCount();
    // Counted frames are equally spaced, inside the clip and beyond it.
    Gaps gaps;
    gaps.assumed = !(hasBefore && hasAfter) && m_clock.kind() != timebase::ClockKind::Counted;
    const double before =
        hasBefore ? here - m_clock.captureSeconds({frame.value - 1}).seconds : 0.0;
    const double after = hasAfter ? m_clock.captureSeconds({frame.value + 1}).seconds - here : 0.0;
    gaps.before = hasBefore ? before : hasAfter ? after : frameInterval();
    gaps.after = hasAfter ? after : gaps.before;
    return gaps;
}

Result<MarkInstant> MarkTimes::startInstant(const StartMark& start) const {
    BOOST_OUTCOME_TRY(at, secondsAt(start.frame));
    if (!start.spreadIntervals) {
        return MarkInstant{start.frame, at, at, at, false};
    }
    const double spread = *start.spreadIntervals;
    if (!std::isfinite(spread) || spread <= 0.0) {
        return fail(ErrorCode::OutOfRange, said("The spread of the start must be positive; leave "
                                                "it out for a start that defines the reference."));
    }
    const Gaps gaps = gapsAround(start.frame);
    return MarkInstant{start.frame, at, at - spread * gaps.before, at + spread * gaps.after,
                       gaps.assumed};
}

Result<MarkInstant> MarkTimes::returnInstant(const ReturnMark& mark) const {
    BOOST_OUTCOME_TRY(at, secondsAt(mark.frame));
    if (mark.kind == ReturnMark::Kind::Nearest) {
        const Gaps gaps = gapsAround(mark.frame);
        return MarkInstant{mark.frame, at, at - 0.5 * gaps.before, at + 0.5 * gaps.after,
                           gaps.assumed};
    }
    if (mark.frameAfter <= mark.frame) {
        return fail(ErrorCode::InvalidInput,
                    said("A return between {} and {}: the second frame must come after the first.",
                         nameOf(mark.frame), nameOf(mark.frameAfter)));
    }
    BOOST_OUTCOME_TRY(after, secondsAt(mark.frameAfter));
    const BracketFraction fraction = mark.fraction.value_or(BracketFraction{});
    if (!(fraction.value >= 0.0 && fraction.value <= 1.0)) {
        return fail(ErrorCode::OutOfRange,
                    said("The fraction of the return between {} and {} must be from 0 to 1.",
                         nameOf(mark.frame), nameOf(mark.frameAfter)));
    }
    if (!std::isfinite(fraction.halfWidth) || fraction.halfWidth <= 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The half-width of the fraction between {} and {} must be positive.",
                         nameOf(mark.frame), nameOf(mark.frameAfter)));
    }
    const double width = after - at;
    return MarkInstant{mark.frame, at + fraction.value * width,
                       at + std::max(0.0, fraction.value - fraction.halfWidth) * width,
                       at + std::min(1.0, fraction.value + fraction.halfWidth) * width, false};
}

}  // namespace core::spin
