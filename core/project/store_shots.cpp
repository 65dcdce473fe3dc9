#include "core/project/store_rows.h"
#include "core/project/store_sentences.h"

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

/// Ids of the rows that are about one of the shots.
template <class Entity>
std::vector<Id<Entity>> idsAbout(const Table<Entity>& table, const std::set<ShotId>& shots) {
    std::vector<Id<Entity>> ids;
    for (const Entity& entity : table) {
        if (shots.contains(entity.shot)) {
            ids.push_back(entity.id);
        }
    }
    return ids;
}

/// Clicks sorted by frame. Errors: InvalidInput for two in one frame, OutOfRange for a radius.
Result<std::vector<BallClick>> tidyClicks(std::vector<BallClick> clicks) {
    std::sort(clicks.begin(), clicks.end(),
              [](const BallClick& a, const BallClick& b) { return a.frame < b.frame; });
    for (std::size_t i = 0; i < clicks.size(); ++i) {
        if (i > 0 && clicks[i].frame == clicks[i - 1].frame) {
            return fail(ErrorCode::InvalidInput,
                        fmt::format("There are two clicks on the ball in frame {}. Keep one.",
                                    clicks[i].frame.value));
        }
        if (!std::isfinite(clicks[i].xPx) || !std::isfinite(clicks[i].yPx) ||
            !std::isfinite(clicks[i].radiusPx)) {
            return fail(ErrorCode::NotFinite,
                        fmt::format("The click on the ball in frame {} is not finite.",
                                    clicks[i].frame.value));
        }
        if (clicks[i].radiusPx <= 0.0) {
            return fail(ErrorCode::OutOfRange,
                        fmt::format("The radius of the ball in frame {} must be greater than "
                                    "zero.",
                                    clicks[i].frame.value));
        }
    }
    return clicks;
}

}  // namespace

Result<Shot> SqliteStore::shotOf(ShotId id) const {
    const Shot* shot = m_working.shots.find(id);
    if (shot == nullptr) {
        return fail(ErrorCode::NotFound,
                    fmt::format("There is no shot number {} in the project.", id.value));
    }
    return *shot;
}

Result<std::vector<Shot>> SqliteStore::shotsOf(std::span<const ShotId> ids) const {
    if (ids.empty()) {
        return fail(ErrorCode::InvalidInput, "No shot was chosen. Choose at least one.");
    }
    std::vector<Shot> shots;
    for (const ShotId id : std::set<ShotId>(ids.begin(), ids.end())) {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        shots.push_back(std::move(shot));
    }
    return shots;
}

Result<void> SqliteStore::checkShot(const Shot& shot) const {
    BOOST_OUTCOME_TRY(clip, clipOf(shot.clip));
    if (shot.firstFrame > shot.lastFrame) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("A shot of clip {} would end at frame {}, before its first frame "
                                "{}.",
                                clip.path, shot.lastFrame.value, shot.firstFrame.value));
    }
    for (const timebase::FrameIndex frame : framesNamedBy(shot)) {
        if (frame.value < 0 || frame.value >= clip.frameCount) {
            return fail(ErrorCode::OutOfRange,
                        fmt::format("Frame {} is not in clip {}, which has frames 0 to {}.",
                                    frame.value, clip.path, clip.frameCount - 1));
        }
    }
    if (shot.cell && m_working.cells.find(*shot.cell) == nullptr) {
        return fail(ErrorCode::NotFound,
                    fmt::format("There is no cell number {} in the project.", shot.cell->value));
    }
    return ok();
}

/// Gives the shots of a clip their positions in the film.
Result<void> SqliteStore::renumberShots(ClipId clip) {
    std::vector<Shot> renumbered;
    std::int64_t ordinal = 0;
    for (const Shot* shot : shotsOfClip(m_working, clip)) {
        if (shot->ordinal != ++ordinal) {
            renumbered.push_back(*shot);
            renumbered.back().ordinal = ordinal;
        }
    }
    return changeRows(std::move(renumbered));
}

Result<std::vector<ShotId>> SqliteStore::addShots(std::span<const Shot> shots) {
    std::vector<ShotId> ids;
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        if (shots.empty()) {
            return fail(ErrorCode::InvalidInput, "No shot was given. Give at least one.");
        }
        BOOST_OUTCOME_TRY(firstId, nextId("shot"));
        std::vector<Shot> added;
        std::set<ClipId> clips;
        for (const Shot& shot : shots) {
            added.push_back(shot);
            added.back().id = {firstId + static_cast<std::int64_t>(ids.size())};
            added.back().ordinal = 1;  // until they are numbered below
            if (shot.standing != ShotStanding::Open || !shot.reason.empty() || shot.counting) {
                return fail(ErrorCode::InvalidInput,
                            "A new shot is open and has no reading. Decide on it afterwards.");
            }
            BOOST_OUTCOME_TRY(checkShot(shot));
            BOOST_OUTCOME_TRY(clicks, tidyClicks(shot.clicks));
            added.back().clicks = clicks;
            BOOST_OUTCOME_TRY(insert(added.back()));
            ids.push_back(added.back().id);
            clips.insert(shot.clip);
        }
        m_working.shots = m_working.shots.changed(added);
        for (const ClipId clip : clips) {
            BOOST_OUTCOME_TRY(renumberShots(clip));
        }
        BOOST_OUTCOME_TRY(numbered, shotsOf(ids));
        return Told{fmt::format("Added {}.", shotsName(m_working, numbered)), ids};
    }));
    return ids;
}

Result<void> SqliteStore::setShotRange(ShotId id, timebase::FrameIndex first,
                                       timebase::FrameIndex last,
                                       std::optional<timebase::FrameIndex> strike) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        const std::string name = shotName(m_working, shot);
        shot.firstFrame = first;
        shot.lastFrame = last;
        shot.strikeFrame = strike;
        BOOST_OUTCOME_TRY(checkShot(shot));
        BOOST_OUTCOME_TRY(changeRows<Shot>({shot}));
        BOOST_OUTCOME_TRY(renumberShots(shot.clip));
        return Told{
            fmt::format("Set {} to frames {} to {}{}.", name, first.value, last.value,
                        strike ? fmt::format(", strike at {}", strike->value) : std::string{}),
            {id}};
    });
}

Result<void> SqliteStore::removeShots(std::span<const ShotId> ids) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shots, shotsOf(ids));
        const std::string name = shotsName(m_working, shots);
        std::set<ShotId> removed;
        std::set<ClipId> clips;
        for (const Shot& shot : shots) {
            removed.insert(shot.id);
            clips.insert(shot.clip);
        }
        std::vector<ReadingId> readings = idsAbout(m_working.readings, removed);
        const std::size_t readingCount = readings.size();
        BOOST_OUTCOME_TRY(removeRows<SecondLook>(idsAbout(m_working.secondLooks, removed)));
        BOOST_OUTCOME_TRY(removeRows<SecondReading>(idsAbout(m_working.secondReadings, removed)));
        BOOST_OUTCOME_TRY(removeRows<Reading>(std::move(readings)));
        BOOST_OUTCOME_TRY(removeRows<Shot>({removed.begin(), removed.end()}));
        for (const ClipId clip : clips) {
            BOOST_OUTCOME_TRY(renumberShots(clip));
        }
        return Told{fmt::format("Removed {} with {} readings.", name, readingCount),
                    {removed.begin(), removed.end()}};
    });
}

Result<void> SqliteStore::assignShots(std::span<const ShotId> ids, std::optional<CellId> cell) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shots, shotsOf(ids));
        for (Shot& shot : shots) {
            shot.cell = cell;
            BOOST_OUTCOME_TRY(checkShot(shot));
        }
        const std::string name = shotsName(m_working, shots);
        BOOST_OUTCOME_TRY(changeRows(shots));
        return Told{cell ? fmt::format("Assigned {} to {}.", name, cellName(m_working, *cell))
                         : fmt::format("Took the assignment of {} away.", name),
                    {ids.begin(), ids.end()}};
    });
}

Result<void> SqliteStore::setClicks(ShotId id, std::vector<BallClick> clicks) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        BOOST_OUTCOME_TRY(tidy, tidyClicks(std::move(clicks)));
        shot.clicks = std::move(tidy);
        BOOST_OUTCOME_TRY(checkShot(shot));
        BOOST_OUTCOME_TRY(changeRows<Shot>({shot}));
        return Told{fmt::format("Pointed at the ball of {} in {} frames.",
                                shotName(m_working, shot), shot.clicks.size()),
                    {id}};
    });
}

Result<void> SqliteStore::setMarks(ShotId id, const spin::MarkSet& marks) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        const std::string sentence = marksSentence(m_working, shot, marks);
        shot.marks = marks;
        BOOST_OUTCOME_TRY(checkShot(shot));
        BOOST_OUTCOME_TRY(changeRows<Shot>({shot}));
        return Told{sentence, {id}};
    });
}

}  // namespace core::project
