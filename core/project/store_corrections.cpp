#include "core/base/expects.h"
#include "core/project/store_rows.h"

/// What a person made of found shots, and how far the unattended work on clips has come.
namespace core::project {

Result<void> SqliteStore::addCorrections(std::span<const ShotCorrection> corrections) {
    return edit([&]() -> Result<Told> {
        std::vector<ShotId> shots;
        for (ShotCorrection correction : corrections) {
            BOOST_OUTCOME_TRY(clip, clipOf(correction.clip));
            if (correction.firstFrame.value < 0 || correction.firstFrame > correction.lastFrame ||
                correction.lastFrame.value >= clip.frameCount) {
                return fail(ErrorCode::OutOfRange,
                            fmt::format("Frames {} to {} are not in clip {}, which has frames 0 "
                                        "to {}.",
                                        correction.firstFrame.value, correction.lastFrame.value,
                                        clip.path, clip.frameCount - 1));
            }
            BOOST_OUTCOME_TRY(id, nextId("shot_correction"));
            correction.id = {id};
            BOOST_OUTCOME_TRY(addRow(correction));
            shots.push_back(correction.shot);
        }
        return Told{fmt::format("Noted {} corrections of shots.", corrections.size()), shots};
    });
}

Result<void> SqliteStore::noteClipSearch(ClipId clip, const ClipSearch& search) {
    CORE_EXPECTS(m_depth == 0);
    BOOST_OUTCOME_TRY(clipOf(clip));
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
    BOOST_OUTCOME_TRY(m_database->run(
        "DELETE FROM clip_search WHERE clip_id = ? OR clip_id NOT IN (SELECT id FROM clip)",
        {clip.value}));
    BOOST_OUTCOME_TRY(
        m_database->run("INSERT INTO clip_search VALUES (?, ?, ?, ?)",
                        sealed({clip.value, search.shotsVersion, valueOf(search.cards)})));
    return transaction->commit();
}

Result<std::map<ClipId, ClipSearch>> SqliteStore::clipSearches() const {
    std::map<ClipId, ClipSearch> searches;
    BOOST_OUTCOME_TRY(
        m_database->forEach("SELECT * FROM clip_search", {}, [&](Row sealedRow) -> Result<void> {
            BOOST_OUTCOME_TRY(row, unsealed(std::move(sealedRow)));
            RowReader reader{std::move(row)};
            const ClipId clip{reader.integer()};
            ClipSearch search;
            search.shotsVersion = reader.text();
            search.cards = reader.optionalText();
            BOOST_OUTCOME_TRY(reader.finish());
            searches.emplace(clip, std::move(search));
            return ok();
        }));
    return searches;
}

}  // namespace core::project
