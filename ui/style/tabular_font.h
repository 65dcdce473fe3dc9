#pragma once

#include <QFont>

namespace ui::style {

/// The same font when its digits are equally wide, else the system's font of fixed width in the
/// same size and weight: columns of numbers line up and a changing number does not jump.
[[nodiscard]] QFont tabularFont(const QFont& font);

}  // namespace ui::style
