#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/project/store/open_project.h"
#include "core/project/text.h"

/// What is kept beside the edits, without steps of undo: what was read from the pictures ahead of
/// the review, the small pictures behind readings, what reading cost a person.
namespace core::project {

Result<void> Store::noteArchive(ShotId shot, const PictureArchive& archive) {
    return m_project->note([&](Rows& rows) -> Result<void> {
        BOOST_OUTCOME_TRY(rows.find(shot));
        BOOST_OUTCOME_TRY(
            rows.database().run("DELETE FROM picture_archive WHERE shot_id = ? OR "
                                "shot_id NOT IN (SELECT id FROM shot)",
                                {shot.value}));
        return kindOf<ArchiveOfShot>().insert(rows.database(),
                                              written(ArchiveOfShot{shot, archive}));
    });
}

Result<std::optional<PictureArchive>> Store::archiveOf(ShotId shot) const {
    BOOST_OUTCOME_TRY(
        found, select<ArchiveOfShot>(m_project->database(), " WHERE shot_id = ?", {shot.value}));
    return found.empty() ? std::optional<PictureArchive>{}
                         : std::optional{std::move(found.front().archive)};
}

Result<void> Store::notePictures(ShotId shot, StoredPictures pictures) {
    CORE_EXPECTS(!pictures.pictures.empty());
    if (pictures.madeAt.empty()) {
        pictures.madeAt = presentTime();
    }
    return m_project->note([&](Rows& rows) -> Result<void> {
        BOOST_OUTCOME_TRY(rows.find(shot));
        const Kind& kind = kindOf<PicturesOfShot>();
        BOOST_OUTCOME_TRY(kind.erase(rows.database(), shot.value));
        return kind.insert(rows.database(), written(PicturesOfShot{shot, std::move(pictures)}));
    });
}

Result<std::optional<StoredPictures>> Store::picturesOf(ShotId shot) const {
    BOOST_OUTCOME_TRY(
        found, select<PicturesOfShot>(m_project->database(), " WHERE shot_id = ?", {shot.value}));
    return found.empty() ? std::optional<StoredPictures>{}
                         : std::optional{std::move(found.front().stored)};
}

Result<std::vector<StoredSize>> Store::pictureSizes() const {
    std::vector<StoredSize> sizes;
    BOOST_OUTCOME_TRY(m_project->database().forEach(
        "SELECT shot_id, made_at, first_frame, last_frame, "
        "coalesce(json_extract(pictures_json, '$[0].turned_deg'), 0), length(pictures) "
        "FROM evidence "
        "ORDER BY shot_id",
        {}, [&sizes](Row row) -> Result<void> {
            Fields from{std::move(row)};
            StoredSize& size = sizes.emplace_back();
            from("shot_id", size.shot.value);
            from("made_at", size.madeAt);
            from("first_frame", size.firstFrame);
            from("last_frame", size.lastFrame);
            from("turned_deg", size.turnedDegrees);
            from("length", size.bytes);
            return ok();  // the table is strict: each is of its type
        }));
    return sizes;
}

Result<void> Store::dropPictures(std::span<const ShotId> shots) {
    if (shots.empty()) {
        return ok();
    }
    BOOST_OUTCOME_TRY(m_project->note([&](Rows& rows) -> Result<void> {
        for (const ShotId shot : shots) {
            BOOST_OUTCOME_TRY(kindOf<PicturesOfShot>().erase(rows.database(), shot.value));
        }
        return ok();
    }));
    return m_project->database().vacuum();  // else the file stays as long as it is
}

Result<void> Store::noteEfforts(std::span<const ReadingEffort> visits) {
    if (visits.empty()) {
        return ok();
    }
    return m_project->note([&](Rows& rows) -> Result<void> {
        std::vector<ReadingEffort> noted{visits.begin(), visits.end()};
        for (ReadingEffort& visit : noted) {
            if (visit.keys < 0 || visit.clicks < 0 || visit.activeSeconds < 0.0) {
                return fail(ErrorCode::OutOfRange,
                            said("A visit to shot {} has a negative count or time. It was "
                                 "not noted.",
                                 visit.shot.value));
            }
            if (visit.reader.empty()) {
                visit.reader = rows.all().reader;
            }
        }
        BOOST_OUTCOME_TRY(rows.add(std::move(noted)));
        return ok();
    });
}

}  // namespace core::project
