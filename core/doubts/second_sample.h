#pragma once

#include <cstdint>
#include <vector>

#include "core/base/result.h"
#include "core/project/snapshot.h"

namespace core::doubts {

/// Kept shots of films, drawn without replacement, every sample of this size equally probable, in
/// an order of their own; the same seed gives the same sample of the same project. All of them when
/// there are no more than `count`. Errors: InvalidInput when no shot is kept or the count is zero.
Result<std::vector<project::ShotId>> drawSecondSample(const project::Snapshot& snapshot,
                                                      std::size_t count, std::uint64_t seed);

/// Kept shots that a sample is drawn from.
[[nodiscard]] std::size_t shotsToSample(const project::Snapshot& snapshot);

}  // namespace core::doubts
