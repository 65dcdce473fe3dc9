#pragma once

#include <optional>

#include "core/project/model.h"
#include "core/reading/shot_flight.h"

namespace core::findings {

/// Mean speed across the picture, m/s, from the track kept with a rotation fit (FORMAT.md R22): the
/// way between the first and the last place that were measured, at the scale of the ball's diameter
/// to its mean picture diameter. Motion towards the camera or away from it is not in it. Absent for
/// other readings and where diameter or track are not kept.
std::optional<double> ballSpeed(const project::Reading& reading);

/// What was kept with a reading from the pictures; absent for others, and for those of a day whose
/// ball's diameter was not known. Cost: about a millisecond.
[[nodiscard]] std::optional<reading::ShotFlight> flightOf(const project::Reading& reading);

}  // namespace core::findings
