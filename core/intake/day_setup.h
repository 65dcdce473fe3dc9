#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/project/store.h"

/// What all clips of a filming day have in common, said once.
namespace core::intake {

struct DaySetUp {
    /// Ball, exposure, readout, field of view; its note names camera, lens and distance.
    project::Session session;
    /// At which the camera sampled, as the tester states it for the day (FORMAT.md R10).
    std::optional<timebase::CaptureRate> captureRate;
    /// The tester says that nobody knows the ball's diameter: it is not asked for again.
    bool isDiameterNotKnown{};
    bool operator==(const DaySetUp&) const = default;
};

/// As it is kept. Errors: NotFound.
Result<DaySetUp> setUpOf(const project::Snapshot& snapshot, project::SessionId session);

/// Whether to ask for the ball's diameter: without it nothing checks the capture rate.
[[nodiscard]] bool needsDiameter(const project::Snapshot& snapshot, project::SessionId session);

/// A set-up with its gaps filled, for a person to look at before it is used.
struct ProposedSetUp {
    DaySetUp setUp;
    bool isFromPlan{};  ///< something comes from the plan
    std::string
        fromDayBefore{};  ///< name of the filming day that the rest comes from; may be empty
};
/// What is not known is taken from the plan, then from the latest other filming day that knows it.
[[nodiscard]] ProposedSetUp proposedSetUp(const project::Snapshot& snapshot, DaySetUp known);

/// Keeps the set-up and gives its capture rate to every clip of the day whose own rate nothing else
/// states, or whose rate was that of the set-up before: one edit. A clip whose file, clock check or
/// entry says otherwise stays as it is; see differencesFromDay(). Returns the kept shots that rest
/// on what changed, for ReadAgain. Errors: those of project::Store::changeSession().
Result<std::vector<project::ShotId>> setUpDay(project::Store& store, const DaySetUp& setUp);

/// The clip as it comes into its filming day: at the day's rate, where nothing in the file states
/// another.
[[nodiscard]] project::Clip asFilmedOnDay(const project::Snapshot& snapshot, project::Clip clip,
                                          const timebase::FrameStamps& stamps);

/// What is different about clips, in a sentence each: another capture rate than the set-up of their
/// day, or another playback rate or size of picture than most clips of the day. Only clips that
/// differ. Cost: once over all clips.
[[nodiscard]] std::map<project::ClipId, std::string> differencesFromDay(
    const project::Snapshot& snapshot);

/// Facts that are about to change.
struct FactChange {
    std::vector<project::Session> sessions;
    std::vector<project::Clip> clips;
};
/// What setUpDay() would change. Errors: NotFound, Damaged.
Result<FactChange> factChangeOf(const project::Store& store, const DaySetUp& setUp);
/// What moving clips into a filming day would change: their day, and their rate where it is the
/// day's. Absent: a new day, of which nothing is known yet. Errors: NotFound, Damaged.
Result<FactChange> factChangeOfMove(const project::Store& store,
                                    std::span<const project::ClipId> clips,
                                    std::optional<project::SessionId> session);
/// Kept shots whose reading was computed from one of these facts, in the order of the clips: one
/// from the pictures rests on all of them, on the stroke where that decided; one by marks neither
/// on the ball's diameter nor on the stroke.
[[nodiscard]] std::vector<project::ShotId> keptShotsRestingOn(const project::Snapshot& snapshot,
                                                              const FactChange& change);
/// Whether the number of a kept shot is what it is because of its stroke.
[[nodiscard]] bool restsOnStroke(const project::Snapshot& snapshot, const project::Shot& shot);
/// The same of a change that is done.
[[nodiscard]] std::vector<project::ShotId> keptShotsRestingOnChange(const project::Snapshot& before,
                                                                    const project::Snapshot& after);
/// "1 to 4, 7 of a.mp4; 2 of b.mp4", for people; at most `most` clips are named.
[[nodiscard]] std::string namesOfShots(const project::Snapshot& snapshot,
                                       const std::vector<project::ShotId>& shots, std::size_t most);

}  // namespace core::intake
