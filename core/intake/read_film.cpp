#include "core/intake/read_film.h"

#include <utility>

#include "core/intake/add_clip.h"
#include "core/intake/clip_record.h"
#include "core/intake/clip_shots.h"
#include "core/intake/clock_evidence.h"
#include "core/intake/shot_pictures.h"
#include "core/project/clip_clock.h"
#include "core/project/snapshot.h"
#include "core/reading/decoded_frames.h"

namespace core::intake {
namespace {

Result<ReviewersWord> wordOf(const StatedRate& stated, const project::Clip& clip) {
    ReviewersWord word;
    if (stated.framesPerSecond) {
        BOOST_OUTCOME_TRY(rate, timebase::captureRateFromDecimal(*stated.framesPerSecond));
        word.rate = rate;
    } else if (stated.stretch && clip.playbackRate) {
        BOOST_OUTCOME_TRY(rate, timebase::captureRateFromDecimal(
                                    *stated.stretch * clip.playbackRate->fps.toDouble()));
        word.rate = rate;
    }
    return word;
}

/// A project in the memory, of one session, one clip and its shots.
project::Snapshot snapshotOf(const project::Session& session, const project::Clip& clip,
                             std::vector<project::Shot> found) {
    project::Snapshot snapshot;
    for (std::size_t i = 0; i < found.size(); ++i) {
        found[i].ordinal = static_cast<std::int64_t>(i) + 1;
        found[i].id = {found[i].ordinal};
    }
    snapshot.sessions = project::Entities<project::Session>{std::vector{session}};
    snapshot.clips = project::Entities<project::Clip>{std::vector{clip}};
    snapshot.shots = project::Entities<project::Shot>{std::move(found)};
    return snapshot;
}

}  // namespace

Result<FilmReading> readFilm(const std::filesystem::path& file, project::Session session,
                             const StatedRate& stated, std::stop_token stop) {
    BOOST_OUTCOME_TRY(prepared, prepareClip(file, file, stop));
    session.id = {1};
    prepared.clip.id = {1};
    prepared.clip.session = session.id;
    BOOST_OUTCOME_TRY(word, wordOf(stated, prepared.clip));
    BOOST_OUTCOME_TRY(clip, withReviewersWord(prepared.clip, prepared.frames.stamps, word));
    BOOST_OUTCOME_TRY(clock, project::clipClock(*clip.clock, prepared.frames));
    const auto index = indexOf(clip, prepared.frames);
    std::shared_ptr<reading::DecodedFrames> decoded;
    BOOST_OUTCOME_TRY(found,
                      searchShots({clip.id, file, index, clock, std::nullopt}, decoded, stop));
    const auto snapshot = snapshotOf(session, clip, std::move(found));
    FilmReading film{clip, clock.captureRate(), {}};
    for (const project::Shot& shot : snapshot.shots) {
        BOOST_OUTCOME_TRY(request, reading::requestOf(snapshot, shot.id));
        auto read = readShotPictures({shot.id, request, file, index, clock}, decoded, stop, {});
        if (!read && read.error().code == ErrorCode::Cancelled) {
            return read.error();
        }
        film.shots.push_back({shot, std::move(read)});
    }
    return film;
}

}  // namespace core::intake
