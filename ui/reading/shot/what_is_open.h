#pragma once

#include <QString>

#include "core/project/snapshot.h"

namespace ui::reading {

/// What is still to be done when the last shot of the list is decided: shots to read, doubtful and
/// not assigned ones, clips without a rate; or where the work goes on.
[[nodiscard]] bool isAnyToRead(const core::project::Snapshot& snapshot);
[[nodiscard]] QString whatIsOpen(const core::project::Snapshot& snapshot);

}  // namespace ui::reading
