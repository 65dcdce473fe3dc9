#include "core/base/expects.h"
#include "core/project/sqlite_store.h"
#include "core/project/store_rows.h"

/// What was read from the pictures ahead of the review.
namespace core::project {

Result<void> SqliteStore::noteArchive(ShotId shot, const PictureArchive& archive) {
    CORE_EXPECTS(m_depth == 0);
    BOOST_OUTCOME_TRY(shotOf(shot));
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
    BOOST_OUTCOME_TRY(m_database->run(
        "DELETE FROM picture_archive WHERE shot_id = ? OR shot_id NOT IN (SELECT id FROM shot)",
        {shot.value}));
    BOOST_OUTCOME_TRY(m_database->run(
        "INSERT INTO picture_archive VALUES (?, ?, ?, ?)",
        sealed({shot.value, archive.key, Blob{archive.bytes.begin(), archive.bytes.end()}})));
    return transaction->commit();
}

Result<std::optional<PictureArchive>> SqliteStore::archiveOf(ShotId shot) const {
    BOOST_OUTCOME_TRY(
        rows, m_database->query("SELECT * FROM picture_archive WHERE shot_id = ?", {shot.value}));
    if (rows.empty()) {
        return std::optional<PictureArchive>{};
    }
    BOOST_OUTCOME_TRY(row, unsealed(std::move(rows.front())));
    RowReader reader{std::move(row)};
    reader.integer();
    PictureArchive archive;
    archive.key = reader.text();
    const Blob bytes = reader.blob();
    archive.bytes.assign(bytes.begin(), bytes.end());
    BOOST_OUTCOME_TRY(reader.finish());
    return std::optional{archive};
}

}  // namespace core::project
