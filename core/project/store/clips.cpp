#include <set>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/project/clip_clock.h"
#include "core/project/store/open_project.h"
#include "core/project/store/sentences.h"

/// Clips and their time stamps.
namespace core::project {
namespace {

/// A clock that can be used with the frames. Errors: InvalidInput, OutOfRange.
Result<void> checkClock(const std::optional<ClockSetting>& clock, const ClipFrames& frames) {
    if (!clock) {
        return ok();
    }
    if (clock->counted && clock->kind != timebase::ClockKind::Counted) {
        return fail(
            ErrorCode::InvalidInput,
            said("Only a counted clock has a capture rate of its own. Leave it out, or count "
                 "the frames."));
    }
    if (clock->stretch <= timebase::Rational{0}) {
        return fail(ErrorCode::OutOfRange,
                    said("The stretch of a clock must be greater than zero."));
    }
    BOOST_OUTCOME_TRY(clipClock(*clock, frames));
    return ok();
}

Result<void> checkNewClip(const Rows& rows, const Clip& clip, const ClipFrames& frames) {
    if (rows.all().sessions.find(clip.session) == nullptr) {
        return fail(
            ErrorCode::NotFound,
            said("There is no filming day number {} for the clip {}. Add the filming day first.",
                 clip.session.value, clip.path));
    }
    for (const Clip& other : rows.all().clips) {
        if (other.fingerprint == clip.fingerprint) {
            return fail(ErrorCode::InvalidInput,
                        said("{} has the same content as the clip {}, which the project has "
                             "already.",
                             clip.path, other.path));
        }
    }
    const auto count = static_cast<std::int64_t>(frames.stamps.ticks.size());
    const bool isSound = count > 0 && clip.frameCount == count &&
                         frames.isKey.size() == frames.stamps.ticks.size() && !clip.path.empty() &&
                         !clip.fingerprint.empty() && clip.sizeBytes >= 0 && clip.width > 0 &&
                         clip.height > 0 && clip.rotationDegrees >= 0 &&
                         clip.rotationDegrees < 360 && clip.rotationDegrees % 90 == 0 &&
                         frames.stamps.timeBase > timebase::Rational{0} &&
                         (!clip.playbackRate || clip.playbackRate->fps > timebase::Rational{0}) &&
                         (!clip.lensFocalLengthMm || *clip.lensFocalLengthMm > 0.0);
    if (!isSound) {
        return fail(ErrorCode::InvalidInput,
                    said("The facts of the clip {} do not fit together: it needs a path, a "
                         "fingerprint, a size, a turn by quarter turns, and one time stamp "
                         "for each frame.",
                         clip.path));
    }
    return checkClock(clip.clock, frames);
}

}  // namespace

Result<ClipId> Store::addClip(const Clip& clip, const ClipFrames& frames) {
    ClipId id;
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(checkNewClip(rows, clip, frames));
        BOOST_OUTCOME_TRY(added, rows.add(clip));
        BOOST_OUTCOME_TRY(kindOf<FramesOfClip>().insert(rows.database(),
                                                        written(FramesOfClip{added.id, frames})));
        id = added.id;
        return Told{toKeep("Added the clip {:s}; clock: {}.", clipName(rows.all(), id),
                           clockText(clip.clock)),
                    {}};
    }));
    return id;
}

Result<void> Store::setClipClock(ClipId id, std::vector<timebase::CaptureRateEvidence> evidence,
                                 std::optional<ClockSetting> clock,
                                 std::vector<ClipRemark> clockRemarks) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(clip, rows.find(id));
        BOOST_OUTCOME_TRY(frames, clipFrames(id));
        BOOST_OUTCOME_TRY(checkClock(clock, *frames));
        Clip changed = clip;
        changed.evidence = std::move(evidence);
        changed.clock = clock;
        changed.clockRemarks = std::move(clockRemarks);
        BOOST_OUTCOME_TRY(rows.change(changed));
        return Told{toKeep("Set the clock of clip {:s}: {}, before {}.", clipName(rows.all(), id),
                           clockText(clock), clockText(clip.clock)),
                    {}};
    });
}

Result<void> Store::setSearchedForShots(ClipId id) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(clip, rows.find(id));
        clip.wasSearchedForShots = true;
        BOOST_OUTCOME_TRY(rows.change(clip));
        return Told{toKeep("Looked for shots in clip {:s}.", clipName(rows.all(), id)), {}};
    });
}

Result<void> Store::setClipPath(ClipId id, const std::string& path) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(clip, rows.find(id));
        if (path.empty()) {
            return fail(ErrorCode::InvalidInput, said("The path of a clip must not be empty."));
        }
        Clip changed = clip;
        changed.path = path;
        BOOST_OUTCOME_TRY(rows.change(changed));
        return Told{toKeep("Found the clip {:s} at {:s}.", clip.path, path), {}};
    });
}

Result<void> Store::removeClips(std::span<const ClipId> ids) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        const std::set<ClipId> clips{ids.begin(), ids.end()};
        std::string name;
        for (const ClipId id : clips) {
            BOOST_OUTCOME_TRY(rows.find(id));
            name = toKeep("the clip {:s}", clipName(rows.all(), id));
        }
        if (clips.size() > 1) {
            name = countToKeep(clips.size(), "clip", "clips");
        }
        std::set<ShotId> shots;
        for (const Shot& shot : rows.all().shots) {
            if (clips.contains(shot.clip)) {
                shots.insert(shot.id);
            }
        }
        const auto isAbout = [&shots](const auto& row) { return shots.contains(row.shot); };
        const auto isOf = [&clips](const auto& row) { return clips.contains(row.clip); };
        BOOST_OUTCOME_TRY(rows.removeIf<SecondLook>(isAbout));
        BOOST_OUTCOME_TRY(rows.removeIf<SecondReading>(isAbout));
        BOOST_OUTCOME_TRY(readings, rows.removeIf<Reading>(isAbout));
        BOOST_OUTCOME_TRY(rows.removeIf<Shot>(isOf));
        BOOST_OUTCOME_TRY(rows.removeIf<ShotCorrection>(isOf));
        for (const ClipId id : clips) {
            BOOST_OUTCOME_TRY(kindOf<FramesOfClip>().erase(rows.database(), id.value));
        }
        BOOST_OUTCOME_TRY(
            rows.removeIf<Clip>([&clips](const Clip& clip) { return clips.contains(clip.id); }));
        return Told{
            toKeep("Removed {} with {} and {}.", name, countToKeep(shots.size(), "shot", "shots"),
                   countToKeep(readings, "reading", "readings")),
            {shots.begin(), shots.end()}};
    });
}

Result<std::shared_ptr<const ClipFrames>> Store::clipFrames(ClipId clip) const {
    return m_project->clipFrames(clip);
}

}  // namespace core::project
