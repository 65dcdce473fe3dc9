#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>

#include "core/base/units.h"
#include "core/image/frame_source.h"
#include "core/timebase/clip_clock.h"

namespace core::shots {

/// Frames by container time, which the sound shares. Internal to core/shots. At least one frame.
class ContainerTime {
public:
    explicit ContainerTime(const timebase::FrameStamps& stamps) : m_stamps{stamps} {}

    [[nodiscard]] double seconds(std::int64_t frame) const {
        return static_cast<double>(m_stamps.ticks[static_cast<std::size_t>(frame)]) *
               m_stamps.timeBase.toDouble();
    }
    /// The first frame not before the time, the last one when all are.
    [[nodiscard]] std::int64_t firstFrom(Seconds time) const {
        const double ticks = time.seconds / m_stamps.timeBase.toDouble();
        const auto found = std::lower_bound(
            m_stamps.ticks.begin(), m_stamps.ticks.end(), ticks,
            [](std::int64_t tick, double wanted) { return static_cast<double>(tick) < wanted; });
        return std::min<std::int64_t>(found - m_stamps.ticks.begin(), count() - 1);
    }
    /// Frames from a time to a frame, with the part of an interval; 0 when it is the first one.
    [[nodiscard]] double framesBetween(Seconds from, std::int64_t to) const {
        const std::int64_t next = firstFrom(from);
        if (next == 0) {
            return static_cast<double>(to);
        }
        const double interval = seconds(next) - seconds(next - 1);
        return static_cast<double>(to - next) + (seconds(next) - from.seconds) / interval;
    }
    [[nodiscard]] std::int64_t count() const {
        return static_cast<std::int64_t>(m_stamps.ticks.size());
    }
    [[nodiscard]] image::FrameRange clamped(std::int64_t first, std::int64_t last) const {
        return {{std::max<std::int64_t>(first, 0)}, {std::min(last, count() - 1)}};
    }

private:
    const timebase::FrameStamps& m_stamps;
};

}  // namespace core::shots
