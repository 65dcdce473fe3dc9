#pragma once

#include <vector>

#include "core/project/snapshot.h"

namespace core::project {

/// The shots in an order that tells nothing of implement, hitter or time, for reading blind: by a
/// random number that each shot has for good, made from the fingerprint of its clip and its id. It
/// is the same after every start, and shots that come or go leave the others in their order.
[[nodiscard]] std::vector<const Shot*> shotsShuffled(const Snapshot& snapshot);

}  // namespace core::project
