#pragma once

#include <memory>

#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/synthesis/capture_schedule.h"

namespace core::synthesis {

/// Renders the frames of a scene. Confined. Any frame may be asked for at any time and always comes
/// out the same.
///
/// Light is added up linearly: background, then figure, then balls from far to near, each ball cast
/// by rays over the exposure of its rows; then sensor noise, then the transfer function of sRGB.
/// Only the surroundings of what moves are computed again from frame to frame.
class SceneRenderer {
public:
    /// Errors: as checkScene().
    static Result<std::unique_ptr<SceneRenderer>> create(Scene scene);
    virtual ~SceneRenderer() = default;

    [[nodiscard]] virtual const CaptureSchedule& schedule() const noexcept = 0;
    /// Rgb8. The frame must be in the schedule.
    [[nodiscard]] virtual PixelBuffer render(timebase::FrameIndex frame) = 0;
};

}  // namespace core::synthesis
