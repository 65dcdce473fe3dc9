#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/project/snapshot.h"
#include "core/reading/inputs.h"
#include "core/reading/inputs_json.h"
#include "core/reading/read_shot.h"

/// Readings of the shots of a project, by marks and from the pictures: the one use case of window
/// and command line.
namespace core::reading {

/// Versions of the methods, kept with each reading. Raise one when its method changes.
inline constexpr std::string_view kMarksMethodVersion = "marks 1";
inline constexpr std::string_view kFitMethodVersion = "rotation fit 4";

/// Reads the spin of a shot from its marks as they stand now. Cost: below a millisecond.
/// Errors: those of marksInputsOf() and spin::readMarks().
Result<spin::MarksReading> readMarks(const project::Snapshot& snapshot, const project::Shot& shot,
                                     const project::ClipFrames& frames);

/// The same from inputs that were kept. Errors: those of project::clipClock() and
/// spin::readMarks().
Result<spin::MarksReading> readMarks(const MarksInputs& inputs, const project::ClipFrames& frames);

/// The reading to keep, with everything needed to compute it again. `read` must come from
/// readMarks() on the same snapshot, shot and frames. The reader is the snapshot's.
[[nodiscard]] project::Reading makeMarksReading(const project::Snapshot& snapshot,
                                                const project::Shot& shot,
                                                const project::ClipFrames& frames,
                                                const spin::MarksReading& read);

/// Computes a kept reading by marks again from what was stored with it.
/// Errors: Unsupported for another method; InvalidInput for inputs that cannot be parsed; those of
/// spin::readMarks().
Result<spin::MarksReading> readAgain(const project::Reading& reading,
                                     const project::ClipFrames& frames);

/// The reading to keep, with everything it was computed from and with (FORMAT.md R22). `read` must
/// have a rate and come from `request`, which must still be that of the shot.
[[nodiscard]] project::Reading makeFitReading(const project::Snapshot& snapshot,
                                              const project::Shot& shot, const ShotRequest& request,
                                              const PictureReading& read);

}  // namespace core::reading
