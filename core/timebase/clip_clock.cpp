#include "core/timebase/clip_clock.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <utility>

#include "core/base/expects.h"
#include "core/base/words.h"

namespace core::timebase {
namespace {

Result<void> checkStamps(const FrameStamps& stamps) {
    if (stamps.ticks.empty()) {
        return fail(ErrorCode::InvalidInput, said("The clip has no time stamps."));
    }
    if (stamps.timeBase <= Rational{0}) {
        return fail(ErrorCode::InvalidInput, said("The time base of the clip is not positive."));
    }
    for (std::size_t i = 1; i < stamps.ticks.size(); ++i) {
        if (stamps.ticks[i] <= stamps.ticks[i - 1]) {
            return fail(ErrorCode::InvalidInput,
                        said("The time stamp of frame {} is not after the one before it. Count "
                             "frames at a known capture rate instead of trusting the time stamps.",
                             i));
        }
    }
    return ok();
}

// Every capture time must fit the exact fractions of Rational.
Result<void> checkExact(const FrameStamps& stamps, const Rational& stretch) {
    __extension__ using Wide = __int128;
    constexpr Wide kMax = std::numeric_limits<std::int64_t>::max();
    const Wide since = Wide{stamps.ticks.back()} - stamps.ticks.front();
    const Wide num = since * stamps.timeBase.num();
    if (num > kMax || num * stretch.den() > kMax ||
        Wide{stamps.timeBase.den()} * stretch.num() > kMax) {
        return fail(ErrorCode::Unsupported,
                    said("The time stamps of the clip are too long or its time base too fine for "
                         "exact times. Count frames at a known capture rate instead."));
    }
    return ok();
}

Result<void> checkSigma(double relativeSigma) {
    if (!std::isfinite(relativeSigma) || relativeSigma < 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The relative uncertainty of the clock must be zero or positive."));
    }
    return ok();
}

}  // namespace

Result<CaptureRate> captureRateFromDecimal(double fps) {
    if (!std::isfinite(fps)) {
        return fail(ErrorCode::NotFinite, said("The capture rate is not a finite number."));
    }
    if (fps <= 0.0 || fps > 1e6) {
        return fail(
            ErrorCode::OutOfRange,
            said("The capture rate must be above 0 and at most 1000000 frames per second."));
    }
    constexpr double kAgree = 5e-6;  // five decimals of 29.97003 or 239.7602
    const auto whole = static_cast<std::int64_t>(std::llround(fps));
    if (whole > 0 && std::abs(fps - static_cast<double>(whole)) <= 1e-9 * fps) {
        return CaptureRate{Rational{whole}};
    }
    const auto nominal = static_cast<std::int64_t>(std::llround(fps * 1.001));
    const double television = static_cast<double>(nominal) / 1.001;
    if (nominal > 0 && std::abs(fps - television) <= kAgree * fps) {
        return CaptureRate{Rational{nominal * 1000, 1001}};
    }
    BOOST_OUTCOME_TRY(fraction, Rational::fromDecimal(fps));
    return CaptureRate{fraction};
}

Result<ClipClock> ClipClock::stamped(FrameStamps stamps, double relativeSigma) {
    BOOST_OUTCOME_TRY(clock, stretched(std::move(stamps), Rational{1}, relativeSigma));
    clock.m_kind = ClockKind::Stamped;
    return clock;
}

Result<ClipClock> ClipClock::stretched(FrameStamps stamps, Rational stretch, double relativeSigma) {
    BOOST_OUTCOME_TRY(checkStamps(stamps));
    BOOST_OUTCOME_TRY(checkSigma(relativeSigma));
    if (stretch <= Rational{0}) {
        return fail(ErrorCode::OutOfRange, said("The stretch of the clip must be positive."));
    }
    BOOST_OUTCOME_TRY(checkExact(stamps, stretch));
    ClipClock clock;
    clock.m_kind = ClockKind::Stretched;
    clock.m_frameCount = static_cast<std::int64_t>(stamps.ticks.size());
    clock.m_stamps = std::make_shared<const FrameStamps>(std::move(stamps));
    clock.m_stretch = stretch;
    clock.m_relativeSigma = relativeSigma;
    return clock;
}

Result<ClipClock> ClipClock::counted(std::int64_t frames, CaptureRate rate, double relativeSigma) {
    BOOST_OUTCOME_TRY(checkSigma(relativeSigma));
    if (frames < 1) {
        return fail(ErrorCode::OutOfRange, said("The clip has no frames."));
    }
    if (rate.fps <= Rational{0}) {
        return fail(ErrorCode::OutOfRange,
                    said("The capture rate must be above 0 frames per second."));
    }
    ClipClock clock;
    clock.m_frameCount = frames;
    clock.m_rateFps = rate.fps;
    clock.m_relativeSigma = relativeSigma;
    return clock;
}

Rational ClipClock::captureTime(FrameIndex frame) const {
    CORE_EXPECTS(contains(frame));
    if (m_kind == ClockKind::Counted) {
        return Rational{frame.value} / m_rateFps;
    }
    const auto& ticks = m_stamps->ticks;
    const std::int64_t since = ticks[static_cast<std::size_t>(frame.value)] - ticks.front();
    return Rational{since} * m_stamps->timeBase / m_stretch;
}

Seconds ClipClock::captureSeconds(FrameIndex frame) const {
    return {captureTime(frame).toDouble()};
}

FrameIndex ClipClock::frameAt(Seconds t) const {
    std::int64_t low = 0;
    std::int64_t high = m_frameCount - 1;
    while (low < high) {
        const std::int64_t middle = low + (high - low + 1) / 2;
        if (captureSeconds({middle}).seconds <= t.seconds) {
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    return {low};
}

std::optional<CaptureRate> ClipClock::captureRate() const {
    if (m_kind == ClockKind::Counted) {
        return CaptureRate{m_rateFps};
    }
    const auto& ticks = m_stamps->ticks;
    if (ticks.size() < 2) {
        return std::nullopt;
    }
    // Stamps of a constant rate may alternate between two durations (240 frames a second on a time
    // scale of 600); the mean over the frames whose interval is near the median is then exact.
    std::vector<std::int64_t> gaps(ticks.size() - 1);
    for (std::size_t i = 0; i + 1 < ticks.size(); ++i) {
        gaps[i] = ticks[i + 1] - ticks[i];
    }
    std::vector<std::int64_t> sorted = gaps;
    const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
    std::nth_element(sorted.begin(), middle, sorted.end());
    const std::int64_t median = *middle;
    std::int64_t sum = 0;
    std::int64_t count = 0;
    for (const std::int64_t gap : gaps) {
        if (std::abs(gap - median) <= std::max<std::int64_t>(1, median / 4)) {
            sum += gap;
            ++count;
        }
    }
    return CaptureRate{m_stretch / (Rational{sum, count} * m_stamps->timeBase)};
}

}  // namespace core::timebase
