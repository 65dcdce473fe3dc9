#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/project/reading_inputs.h"
#include "core/project/snapshot.h"

/// From a shot in the project to a spin rate: the one use case of window and command line.
namespace core::project {

/// Version of the reading by marks, kept with each reading. Raise it when the method changes.
inline constexpr std::string_view kMarksMethodVersion = "marks 1";

/// The clock of a clip as settled. Errors: InvalidInput when time stamps do not increase although
/// the clock trusts them, or a counted clock has no rate; OutOfRange.
Result<timebase::ClipClock> clipClock(const ClockSetting& setting, const ClipFrames& frames);

/// What is known of a shot besides its marks and its clock.
///
/// Symmetry, exposure and readout come from the session. The ball's place in a marked frame is
/// interpolated, and outside the clicks extrapolated, linearly over frame numbers; it needs two
/// clicks. Then
///   rolling shutter: readout 0 is Absent, a known readout is Known, an unknown one Unknown, with
///     the rows counted on the sensor (before the turn applied for showing);
///   line of sight: with a known field of view (pinhole camera, horizontal angle across the width
///     as shown) the angle between the directions to the ball at the first and the last mark, as a
///     Contribution, because the axis is not known.
/// Without two clicks both are NotAssessed, except a readout of 0.
/// Errors: NotFound when clip or session of the shot are not in the snapshot.
Result<spin::ReadingContext> readingContext(const Snapshot& snapshot, const Shot& shot);

/// Reads the spin of a shot from its marks as they stand now. Cost: below a millisecond.
/// Errors: those of readingContext() and spin::readMarks(); for a clip whose clock is not settled
/// the reason, as Contradiction (evidence conflicts) or InvalidInput (nobody has settled it).
Result<spin::MarksReading> readShot(const Snapshot& snapshot, const Shot& shot,
                                    const ClipFrames& frames);

/// The reading to keep, with everything needed to compute it again. `read` must come from
/// readShot() on the same snapshot and shot. The reader is the snapshot's, the time the present.
Reading makeReading(const Snapshot& snapshot, const Shot& shot, const spin::MarksReading& read);

/// Computes a kept reading by marks again from what was stored with it.
/// Errors: Unsupported for another method; InvalidInput for inputs that cannot be parsed; those of
/// spin::readMarks().
Result<spin::MarksReading> readAgain(const Reading& reading, const ClipFrames& frames);

}  // namespace core::project
