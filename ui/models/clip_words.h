#pragma once

#include <QString>
#include <optional>

#include "core/project/snapshot.h"

/// What is known of a clip, in words for people.
namespace ui::models {

/// File name without folders.
[[nodiscard]] QString clipName(const core::project::Clip& clip);
/// Frames a second of real time; absent while the clock is not settled.
[[nodiscard]] std::optional<double> captureFps(const core::project::Clip& clip);
/// "240 frames per second", or "clock not settled".
[[nodiscard]] QString captureRateText(const core::project::Clip& clip);
/// "stamped", "stretched ×8", "counted"; empty while the clock is not settled.
[[nodiscard]] QString clockKindText(const core::project::Clip& clip);
/// The evidence that decided on the clock, in a word or two: "tag", "entered", "clock check", "no
/// evidence".
[[nodiscard]] QString clockSourceText(const core::project::Clip& clip);
/// "1441.2": frames per second or another decimal number, at most three decimals, no trailing
/// zeros.
[[nodiscard]] QString shortDecimal(double value);
/// Remarks that call for a look, not those that only inform.
[[nodiscard]] bool isWarning(const core::project::ClipRemark& remark);

}  // namespace ui::models
