#include <cmath>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/project/store/open_project.h"
#include "core/project/store/sentences.h"
#include "core/project/text.h"

/// Shots: where they are, whose they are, what was pointed at and marked.
namespace core::project {
namespace {

/// Frames that must lie inside the clip.
std::vector<timebase::FrameIndex> framesNamedBy(const Shot& shot) {
    std::vector<timebase::FrameIndex> frames{shot.firstFrame, shot.lastFrame};
    if (shot.strikeFrame) {
        frames.push_back(*shot.strikeFrame);
    }
    for (const BallClick& click : shot.clicks) {
        frames.push_back(click.frame);
    }
    if (shot.marks.start) {
        frames.push_back(shot.marks.start->frame);
    }
    for (const spin::ReturnMark& mark : shot.marks.returns) {
        frames.push_back(mark.frame);
        frames.push_back(mark.frameAfter);
    }
    for (const spin::AngleMark& mark : shot.marks.angles) {
        frames.push_back(mark.frame);
    }
    return frames;
}

/// Clicks sorted by frame. Errors: InvalidInput for two in one frame, OutOfRange for a radius.
Result<std::vector<BallClick>> tidyClicks(std::vector<BallClick> clicks) {
    std::sort(clicks.begin(), clicks.end(),
              [](const BallClick& a, const BallClick& b) { return a.frame < b.frame; });
    for (std::size_t i = 0; i < clicks.size(); ++i) {
        if (i > 0 && clicks[i].frame == clicks[i - 1].frame) {
            return fail(ErrorCode::InvalidInput,
                        said("There are two clicks on the ball in frame {}. Keep one.",
                             clicks[i].frame.value));
        }
        if (!std::isfinite(clicks[i].xPx) || !std::isfinite(clicks[i].yPx) ||
            !std::isfinite(clicks[i].radiusPx)) {
            return fail(
                ErrorCode::NotFinite,
                said("The click on the ball in frame {} is not finite.", clicks[i].frame.value));
        }
        if (clicks[i].radiusPx <= 0.0) {
            return fail(ErrorCode::OutOfRange,
                        said("The radius of the ball in frame {} must be greater than "
                             "zero.",
                             clicks[i].frame.value));
        }
    }
    return clicks;
}

/// Each once. Errors: InvalidInput for none, NotFound.
Result<std::vector<Shot>> shotsOf(const Rows& rows, std::span<const ShotId> ids) {
    if (ids.empty()) {
        return fail(ErrorCode::InvalidInput, said("No shot was chosen. Choose at least one."));
    }
    std::vector<Shot> shots;
    for (const ShotId id : std::set<ShotId>(ids.begin(), ids.end())) {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        shots.push_back(std::move(shot));
    }
    return shots;
}

Result<void> checkShot(const Rows& rows, const Shot& shot) {
    BOOST_OUTCOME_TRY(clip, rows.find(shot.clip));
    if (shot.firstFrame > shot.lastFrame) {
        return fail(ErrorCode::InvalidInput,
                    said("A shot of clip {} would end at frame {}, before its first frame "
                         "{}.",
                         clip.path, shot.lastFrame.value, shot.firstFrame.value));
    }
    for (const timebase::FrameIndex frame : framesNamedBy(shot)) {
        if (frame.value < 0 || frame.value >= clip.frameCount) {
            return fail(ErrorCode::OutOfRange,
                        said("Frame {} is not in clip {}, which has frames 0 to {}.", frame.value,
                             clip.path, clip.frameCount - 1));
        }
    }
    if (shot.cell) {
        BOOST_OUTCOME_TRY(rows.find(*shot.cell));
    }
    return ok();
}

/// Gives the shots of a clip their positions in the film.
Result<void> renumberShots(Rows& rows, ClipId clip) {
    std::vector<Shot> renumbered;
    std::int64_t ordinal = 0;
    for (const Shot* shot : shotsOfClip(rows.all(), clip)) {
        if (shot->ordinal != ++ordinal) {
            renumbered.push_back(*shot);
            renumbered.back().ordinal = ordinal;
        }
    }
    return rows.change(std::move(renumbered));
}

}  // namespace

Result<std::vector<ShotId>> Store::addShots(std::span<const Shot> shots) {
    std::vector<ShotId> ids;
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        if (shots.empty()) {
            return fail(ErrorCode::InvalidInput, said("No shot was given. Give at least one."));
        }
        std::vector<Shot> toAdd{shots.begin(), shots.end()};
        std::set<ClipId> clips;
        for (Shot& shot : toAdd) {
            shot.ordinal = 1;  // until they are numbered below
            if (shot.standing != ShotStanding::Open || !shot.reason.empty() || shot.counting) {
                return fail(
                    ErrorCode::InvalidInput,
                    said("A new shot is open and has no reading. Decide on it afterwards."));
            }
            BOOST_OUTCOME_TRY(checkShot(rows, shot));
            BOOST_OUTCOME_TRY(clicks, tidyClicks(std::move(shot.clicks)));
            shot.clicks = std::move(clicks);
            clips.insert(shot.clip);
        }
        BOOST_OUTCOME_TRY(added, rows.add(std::move(toAdd)));
        for (const Shot& shot : added) {
            ids.push_back(shot.id);
        }
        for (const ClipId clip : clips) {
            BOOST_OUTCOME_TRY(renumberShots(rows, clip));
        }
        BOOST_OUTCOME_TRY(numbered, shotsOf(rows, ids));
        return Told{toKeep("Added {}.", shotsName(rows.all(), numbered)), ids};
    }));
    return ids;
}

Result<void> Store::setShotRange(ShotId id, timebase::FrameIndex first, timebase::FrameIndex last,
                                 std::optional<timebase::FrameIndex> strike) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        const std::string name = shotNameToKeep(rows.all(), shot);
        shot.firstFrame = first;
        shot.lastFrame = last;
        shot.strikeFrame = strike;
        BOOST_OUTCOME_TRY(checkShot(rows, shot));
        BOOST_OUTCOME_TRY(rows.change(shot));
        BOOST_OUTCOME_TRY(renumberShots(rows, shot.clip));
        return Told{strike ? toKeep("Set {} to frames {} to {}, strike at {}.", name, first.value,
                                    last.value, strike->value)
                           : toKeep("Set {} to frames {} to {}.", name, first.value, last.value),
                    {id}};
    });
}

Result<void> Store::removeShots(std::span<const ShotId> ids) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shots, shotsOf(rows, ids));
        const std::string name = shotsName(rows.all(), shots);
        std::set<ShotId> removed;
        std::set<ClipId> clips;
        for (const Shot& shot : shots) {
            removed.insert(shot.id);
            clips.insert(shot.clip);
        }
        const auto isAbout = [&removed](const auto& row) { return removed.contains(row.shot); };
        BOOST_OUTCOME_TRY(rows.removeIf<SecondLook>(isAbout));
        BOOST_OUTCOME_TRY(rows.removeIf<SecondReading>(isAbout));
        BOOST_OUTCOME_TRY(readings, rows.removeIf<Reading>(isAbout));
        BOOST_OUTCOME_TRY(rows.removeIf<Shot>(
            [&removed](const Shot& shot) { return removed.contains(shot.id); }));
        for (const ClipId clip : clips) {
            BOOST_OUTCOME_TRY(renumberShots(rows, clip));
        }
        return Told{
            toKeep("Removed {} with {}.", name, countToKeep(readings, "reading", "readings")),
            {removed.begin(), removed.end()}};
    });
}

Result<void> Store::assignShots(std::span<const ShotId> ids, std::optional<CellId> cell) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shots, shotsOf(rows, ids));
        for (Shot& shot : shots) {
            shot.cell = cell;
            BOOST_OUTCOME_TRY(checkShot(rows, shot));
        }
        const std::string name = shotsName(rows.all(), shots);
        BOOST_OUTCOME_TRY(rows.change(shots));
        return Told{cell ? toKeep("Assigned {} to {:s}.", name, cellName(rows.all(), *cell))
                         : toKeep("Removed the assignment of {}.", name),
                    {ids.begin(), ids.end()}};
    });
}

Result<void> Store::setClicks(ShotId id, std::vector<BallClick> clicks) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        BOOST_OUTCOME_TRY(tidy, tidyClicks(std::move(clicks)));
        shot.clicks = std::move(tidy);
        BOOST_OUTCOME_TRY(checkShot(rows, shot));
        BOOST_OUTCOME_TRY(rows.change(shot));
        return Told{toKeep("Pointed at the ball of {} in {}.", shotNameToKeep(rows.all(), shot),
                           countToKeep(shot.clicks.size(), "frame", "frames")),
                    {id}};
    });
}

Result<void> Store::setShotNote(ShotId id, const std::string& note) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        if (!isPlainText(note)) {
            return fail(ErrorCode::InvalidInput,
                        said("The note is not valid UTF-8. Type it again."));
        }
        shot.note = trimmed(note);
        BOOST_OUTCOME_TRY(rows.change(shot));
        return Told{shot.note.empty()
                        ? toKeep("Removed the note of {}.", shotNameToKeep(rows.all(), shot))
                        : toKeep("Noted of {}: {:s}", shotNameToKeep(rows.all(), shot), shot.note),
                    {id}};
    });
}

Result<void> Store::setShotStroke(std::span<const ShotId> ids, std::optional<Stroke> stroke) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shots, shotsOf(rows, ids));
        for (Shot& shot : shots) {
            shot.stroke = stroke;
        }
        const std::string name = shotsName(rows.all(), shots);
        BOOST_OUTCOME_TRY(rows.change(shots));
        return Told{toKeep("The stroke of {}: {}.", name,
                           stroke ? strokeText(*stroke) : toKeep("as on the filming day")),
                    {ids.begin(), ids.end()}};
    });
}

Result<void> Store::setMarks(ShotId id, const spin::MarkSet& marks) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        const std::string sentence = marksSentence(rows.all(), shot, marks);
        shot.marks = marks;
        BOOST_OUTCOME_TRY(checkShot(rows, shot));
        BOOST_OUTCOME_TRY(rows.change(shot));
        return Told{sentence, {id}};
    });
}

Result<void> Store::addCorrections(std::span<const ShotCorrection> corrections) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        std::vector<ShotId> shots;
        for (const ShotCorrection& correction : corrections) {
            BOOST_OUTCOME_TRY(clip, rows.find(correction.clip));
            if (correction.firstFrame.value < 0 || correction.firstFrame > correction.lastFrame ||
                correction.lastFrame.value >= clip.frameCount) {
                return fail(ErrorCode::OutOfRange,
                            said("Frames {} to {} are not in clip {}, which has frames 0 "
                                 "to {}.",
                                 correction.firstFrame.value, correction.lastFrame.value, clip.path,
                                 clip.frameCount - 1));
            }
            shots.push_back(correction.shot);
        }
        BOOST_OUTCOME_TRY(
            rows.add(std::vector<ShotCorrection>{corrections.begin(), corrections.end()}));
        return Told{toKeep("Noted {} of shots.",
                           countToKeep(corrections.size(), "correction", "corrections")),
                    shots};
    });
}

}  // namespace core::project
