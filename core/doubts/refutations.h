#pragma once

#include "core/doubts/doubt_material.h"
#include "core/project/store.h"

/// What flights say against clocks, also where the pictures were read by a program that did not
/// note it (core/project/clock_refutation.h). Whatever is counted is counted with it.
namespace core::doubts {

/// Looks through a project that nobody has looked through, and notes it: to be called when a
/// project is opened. Cost: a look at a setting, or once a fraction of a millisecond a shot.
/// Errors: those of MaterialGatherer and of the store.
Result<void> learnRefutations(project::Store& store);

/// The project as it would be after learnRefutations(), for whoever opens it to read. Errors: those
/// of MaterialGatherer.
Result<project::SnapshotPtr> withRefutations(const project::Store& store);

/// The snapshot of the material with what its opinions say.
[[nodiscard]] project::SnapshotPtr withRefutations(const DoubtMaterial& material);

}  // namespace core::doubts
