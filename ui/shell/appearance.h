#pragma once

#include <QString>

namespace ui::shell {

/// Light or dark: as the system says, or as the person wishes.
enum class Appearance { System, Light, Dark };

/// Applies colours and the size of text to the whole program. textScale 1 is the system's size,
/// or ten points where that is less; it may be applied again at any time.
void applyAppearance(Appearance appearance, double textScale);

/// The wish as stored in the person's settings ("system", "light", "dark"), and back.
[[nodiscard]] Appearance appearanceFrom(const QString& name);
[[nodiscard]] QString nameOf(Appearance appearance);

}  // namespace ui::shell
