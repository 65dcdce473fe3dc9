#include "core/project/shot_reading.h"
#include "core/project/store_rows.h"
#include "core/project/store_sentences.h"

/// Clips and their time stamps.
namespace core::project {
namespace {

/// A clock that can be used with the frames. Errors: InvalidInput, OutOfRange.
Result<void> checkClock(const std::optional<ClockSetting>& clock, const ClipFrames& frames) {
    if (!clock) {
        return ok();
    }
    if (clock->counted && clock->kind != timebase::ClockKind::Counted) {
        return fail(ErrorCode::InvalidInput,
                    "Only a counted clock has a capture rate of its own. Leave it out, or count "
                    "the frames.");
    }
    if (clock->stretch <= timebase::Rational{0}) {
        return fail(ErrorCode::OutOfRange, "The stretch of a clock must be greater than zero.");
    }
    BOOST_OUTCOME_TRY(clipClock(*clock, frames));
    return ok();
}

}  // namespace

Result<Clip> SqliteStore::clipOf(ClipId id) const {
    const Clip* clip = m_working.clips.find(id);
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound,
                    fmt::format("There is no clip number {} in the project.", id.value));
    }
    return *clip;
}

Result<void> SqliteStore::checkNewClip(const Clip& clip, const ClipFrames& frames) const {
    if (m_working.sessions.find(clip.session) == nullptr) {
        return fail(ErrorCode::NotFound,
                    fmt::format("There is no session number {} for the clip {}. Add the session "
                                "first.",
                                clip.session.value, clip.path));
    }
    for (const Clip& other : m_working.clips) {
        if (other.fingerprint == clip.fingerprint) {
            return fail(ErrorCode::InvalidInput,
                        fmt::format("{} has the same content as the clip {}, which the project has "
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
                    fmt::format("The facts of the clip {} do not fit together: it needs a path, a "
                                "fingerprint, a size, a turn by quarter turns, and one time stamp "
                                "for each of its {} frames.",
                                clip.path, clip.frameCount));
    }
    return checkClock(clip.clock, frames);
}

Result<ClipId> SqliteStore::addClip(const Clip& clip, const ClipFrames& frames) {
    Clip added = clip;
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(checkNewClip(clip, frames));
        BOOST_OUTCOME_TRY(id, nextId("clip"));
        added.id = {id};
        BOOST_OUTCOME_TRY(addRow(added));
        BOOST_OUTCOME_TRY(insert(FramesOfClip{added.id, frames}));
        return Told{fmt::format("Added the clip {}; clock: {}.", clipName(m_working, added.id),
                                clockText(added.clock)),
                    {}};
    }));
    return added.id;
}

Result<void> SqliteStore::setClipClock(ClipId id,
                                       std::vector<timebase::CaptureRateEvidence> evidence,
                                       std::optional<ClockSetting> clock,
                                       std::vector<ClipRemark> clockRemarks) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(clip, clipOf(id));
        BOOST_OUTCOME_TRY(frames, clipFrames(id));
        BOOST_OUTCOME_TRY(checkClock(clock, *frames));
        Clip changed = clip;
        changed.evidence = std::move(evidence);
        changed.clock = clock;
        changed.clockRemarks = std::move(clockRemarks);
        BOOST_OUTCOME_TRY(changeRows<Clip>({changed}));
        return Told{fmt::format("Set the clock of clip {}: {}, before {}.", clipName(m_working, id),
                                clockText(clock), clockText(clip.clock)),
                    {}};
    });
}

Result<void> SqliteStore::setSearchedForShots(ClipId id) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(clip, clipOf(id));
        clip.wasSearchedForShots = true;
        BOOST_OUTCOME_TRY(changeRows<Clip>({clip}));
        return Told{fmt::format("Looked for shots in clip {}.", clipName(m_working, id)), {}};
    });
}

Result<void> SqliteStore::setClipPath(ClipId id, const std::string& path) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(clip, clipOf(id));
        if (path.empty()) {
            return fail(ErrorCode::InvalidInput, "The path of a clip must not be empty.");
        }
        Clip changed = clip;
        changed.path = path;
        BOOST_OUTCOME_TRY(changeRows<Clip>({changed}));
        return Told{fmt::format("Found the clip {} at {}.", clip.path, path), {}};
    });
}

Result<void> SqliteStore::removeClip(ClipId id) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(clip, clipOf(id));
        std::vector<ShotId> shots;
        for (const Shot* shot : shotsOfClip(m_working, id)) {
            shots.push_back(shot->id);
        }
        const std::string name = clipName(m_working, clip.id);
        if (!shots.empty()) {
            BOOST_OUTCOME_TRY(removeShots(shots));
        }
        std::vector<CorrectionId> corrections;
        for (const ShotCorrection& correction : m_working.corrections) {
            if (correction.clip == id) {
                corrections.push_back(correction.id);
            }
        }
        BOOST_OUTCOME_TRY(removeRows<ShotCorrection>(std::move(corrections)));
        BOOST_OUTCOME_TRY(erase<FramesOfClip>(id.value));
        BOOST_OUTCOME_TRY(removeRows<Clip>({id}));
        return Told{fmt::format("Removed the clip {} with {} shots.", name, shots.size()), shots};
    });
}

Result<std::shared_ptr<const ClipFrames>> SqliteStore::clipFrames(ClipId id) const {
    BOOST_OUTCOME_TRY(clip, clipOf(id));
    if (auto held = m_frames[id].lock()) {
        return held;
    }
    BOOST_OUTCOME_TRY(
        rows, m_database->query(selectRows<FramesOfClip>() + " WHERE clip_id = ?", {id.value}));
    if (rows.empty()) {
        return fail(ErrorCode::Damaged,
                    fmt::format("{} is damaged: the time stamps of clip {} are missing. Restore a "
                                "copy of the file.",
                                file().string(), clip.path));
    }
    BOOST_OUTCOME_TRY(of, entityFrom<FramesOfClip>(*m_database, std::move(rows.front())));
    auto frames = std::make_shared<const ClipFrames>(std::move(of.frames));
    m_frames[id] = frames;
    return frames;
}

}  // namespace core::project
