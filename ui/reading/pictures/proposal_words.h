#pragma once

#include <QString>

#include "ui/reading/shot/shot_view.h"

/// What the card says of a reading from the pictures, in words.
namespace ui::reading {

/// "2405 ± 4 rpm, 95 %: 2397 to 2413", or why there is no reading, or that it is being read.
[[nodiscard]] QString proposalText(const ShotView& view);

/// Sort of spin, axis, speed, agreement with the marks: a sentence each. Empty without a reading.
[[nodiscard]] QString proposalDetails(const ShotView& view);

}  // namespace ui::reading
