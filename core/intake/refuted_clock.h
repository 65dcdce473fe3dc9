#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/intake/day_setup.h"
#include "core/reading/read_shot.h"

/// Clocks that the flight of the ball refutes, and the rate that it fits, used for all clips of the
/// same wrong clock at once.
namespace core::intake {

struct RefutedClock {
    timebase::CaptureRate likelier;  ///< the rate that the flight fits
    std::string statement;           ///< "The flight fits a capture rate of 240, not 30."
};

/// Absent when the flight fits, tells nothing, or fits no rate that cameras have.
[[nodiscard]] std::optional<RefutedClock> refutedClock(const reading::PictureReading& reading);
/// The same of the first shots of a clip, as far as their pictures were read at its present clock.
/// Cost: some milliseconds a shot.
[[nodiscard]] std::optional<RefutedClock> refutedClock(const project::Store& store,
                                                       project::ClipId clip);

/// clipsFilmedAlike() that have the clock of this one, itself first.
[[nodiscard]] std::vector<project::ClipId> clipsOfTheSameClock(const project::Snapshot& snapshot,
                                                               project::ClipId clip);

/// What useRate() would change. Errors: NotFound, Damaged; Contradiction as setReviewersWord().
Result<FactChange> rateChangeOf(const project::Store& store, timebase::CaptureRate rate,
                                std::span<const project::ClipId> clips);
/// States this capture rate of all these clips, as one edit; a rate in the file that contradicts it
/// is set aside. Returns the kept shots that rest on it, for ReadAgain. Errors: as rateChangeOf(),
/// and nothing is changed then.
Result<std::vector<project::ShotId>> useRate(project::Store& store, timebase::CaptureRate rate,
                                             std::span<const project::ClipId> clips);

}  // namespace core::intake
