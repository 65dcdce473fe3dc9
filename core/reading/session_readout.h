#pragma once

#include <optional>

#include "core/image/readout_estimate.h"
#include "core/project/snapshot.h"

namespace core::reading {

/// What the outlines of the balls say together of the readout of the camera that filmed this clip:
/// pooled over the newest readings from the pictures (kMostPooled are looked at) of shots of the
/// same session, filmed in the same mode: size of the picture, its turn, and capture rate. Absent
/// when there is none that tells, as where the readout was stated.
[[nodiscard]] std::optional<image::ReadoutEstimate> sessionReadout(
    const project::Snapshot& snapshot, const project::Clip& clip);

inline constexpr std::size_t kMostPooled = 12;

}  // namespace core::reading
