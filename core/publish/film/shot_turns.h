#pragma once

#include <optional>

#include "core/project/model.h"
#include "core/timebase/clip_clock.h"

namespace core::publish {

/// Time and turns through one shot as its counting reading has them. Immutable.
///
/// Zero is the frame of reference of the reading: the start for marks; otherwise the strike, where
/// it is known, else the first frame of the shot.
class ShotTurns {
public:
    ShotTurns(timebase::ClipClock clock, const project::Shot& shot,
              const project::Reading& reading);

    [[nodiscard]] std::int64_t zeroFrame() const noexcept { return m_zero; }
    [[nodiscard]] double millisecondsAt(std::int64_t frame) const;
    [[nodiscard]] double turnsAt(std::int64_t frame) const;

private:
    timebase::ClipClock m_clock;
    std::int64_t m_zero;
    double m_rpm;
};

}  // namespace core::publish
