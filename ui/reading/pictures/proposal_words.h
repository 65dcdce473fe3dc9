#pragma once

#include <QString>
#include <QStringList>

#include "ui/reading/shot/shot_view.h"

/// What the card says of a reading from the pictures, in words.
namespace ui::reading {

/// Why the pictures give no reading; empty when they do, or nothing is known.
[[nodiscard]] QString refusalText(const ShotView& view);

/// "Topspin, ball at 14.8 m/s". Empty without a reading.
[[nodiscard]] QString spinLine(const ShotView& view);

/// What could fool the fit, a sentence each.
[[nodiscard]] QStringList fitWarnings(const ShotView& view);

}  // namespace ui::reading
