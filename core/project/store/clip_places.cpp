#include <cmath>
#include <set>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/project/store/open_project.h"
#include "core/project/store/sentences.h"

/// Clips turned by a person, and clips moved between filming days.
namespace core::project {
namespace {

/// Clockwise, in a picture of this size before the turn.
void turnClick(BallClick& click, int degrees, int width, int height) {
    const BallClick before = click;
    switch (degrees) {
        case 90:
            click.xPx = height - before.yPx;
            click.yPx = before.xPx;
            break;
        case 180:
            click.xPx = width - before.xPx;
            click.yPx = height - before.yPx;
            break;
        case 270:
            click.xPx = before.yPx;
            click.yPx = width - before.xPx;
            break;
        default:
            break;
    }
}

/// Angles count counter-clockwise. Whole turns that were said stay what they are.
void turnMarks(spin::MarkSet& marks, int degrees) {
    const double angle = fromDegrees(degrees).radians;
    for (spin::AngleMark& mark : marks.angles) {
        const double turned = mark.angle.radians - angle;
        mark.angle = {mark.turns ? turned : std::remainder(turned, 2.0 * kPi)};
    }
}

Clip turned(Clip clip, int degrees) {
    clip.rotationDegrees = (clip.rotationDegrees + degrees) % 360;
    clip.turnedDegrees = (clip.turnedDegrees + degrees) % 360;
    if (degrees % 180 != 0) {
        std::swap(clip.width, clip.height);
    }
    return clip;
}

std::string clipsName(const Snapshot& snapshot, const std::set<ClipId>& clips) {
    return clips.size() == 1 ? toKeep("the clip {:s}", clipName(snapshot, *clips.begin()))
                             : countToKeep(clips.size(), "clip", "clips");
}

/// Everything in a clip's pictures that a person pointed at or marked.
Result<std::vector<ShotId>> turnPlaces(Rows& rows, const Clip& before, int degrees) {
    std::vector<Shot> shots;
    std::vector<ShotId> ids;
    std::vector<SecondReading> seconds;
    for (const Shot* shot : shotsOfClip(rows.all(), before.id)) {
        shots.push_back(*shot);
        ids.push_back(shot->id);
        for (BallClick& click : shots.back().clicks) {
            turnClick(click, degrees, before.width, before.height);
        }
        turnMarks(shots.back().marks, degrees);
    }
    const std::set<ShotId> touched{ids.begin(), ids.end()};
    for (const SecondReading& second : rows.all().secondReadings) {
        if (touched.contains(second.shot)) {
            seconds.push_back(second);
            turnMarks(seconds.back().marks, degrees);
        }
    }
    BOOST_OUTCOME_TRY(rows.change(std::move(shots)));
    BOOST_OUTCOME_TRY(rows.change(std::move(seconds)));
    return ids;
}

/// The cell of the same implement and hitter on another day, made when there is none.
Result<CellId> cellOn(Rows& rows, SessionId session, const Cell& cell) {
    for (const Cell& other : rows.all().cells) {
        if (other.session == session && other.implement == cell.implement &&
            other.hitter == cell.hitter) {
            return other.id;
        }
    }
    BOOST_OUTCOME_TRY(added, rows.add(Cell{{}, session, cell.implement, cell.hitter}));
    return added.id;
}

}  // namespace

Result<void> Store::turnClips(std::span<const ClipId> ids, int degrees) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        if (degrees < 0 || degrees >= 360 || degrees % 90 != 0) {
            return fail(ErrorCode::OutOfRange,
                        said("A clip is turned by 0, 90, 180 or 270 degrees, not by {}.", degrees));
        }
        const std::set<ClipId> clips{ids.begin(), ids.end()};
        std::vector<ShotId> about;
        for (const ClipId id : clips) {
            BOOST_OUTCOME_TRY(clip, rows.find(id));
            const int further = (degrees - clip.turnedDegrees + 360) % 360;
            if (isTally(clip) || further == 0) {
                continue;  // a table has no pictures
            }
            BOOST_OUTCOME_TRY(shots, turnPlaces(rows, clip, further));
            BOOST_OUTCOME_TRY(rows.change(turned(clip, further)));
            about.insert(about.end(), shots.begin(), shots.end());
        }
        return Told{toKeep("Turned {} by {} degrees from what the file says.",
                           clipsName(rows.all(), clips), degrees),
                    about};
    });
}

Result<void> Store::moveClips(std::span<const ClipId> ids, SessionId session) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(day, rows.find(session));
        const std::set<ClipId> clips{ids.begin(), ids.end()};
        std::vector<ShotId> about;
        for (const ClipId id : clips) {
            BOOST_OUTCOME_TRY(clip, rows.find(id));
            if (clip.session == session) {
                continue;
            }
            clip.session = session;
            std::vector<Shot> shots;
            for (const Shot* shot : shotsOfClip(rows.all(), id)) {
                shots.push_back(*shot);
            }
            for (Shot& shot : shots) {
                about.push_back(shot.id);
                if (shot.cell) {
                    BOOST_OUTCOME_TRY(cell, rows.find(*shot.cell));
                    BOOST_OUTCOME_TRY(moved, cellOn(rows, session, cell));
                    shot.cell = moved;
                }
            }
            BOOST_OUTCOME_TRY(rows.change(clip));
            BOOST_OUTCOME_TRY(rows.change(std::move(shots)));
        }
        return Told{
            toKeep("Moved {} to the filming day {:s}.", clipsName(rows.all(), clips), day.name),
            about};
    });
}

}  // namespace core::project
