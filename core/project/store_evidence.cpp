#include "core/base/expects.h"
#include "core/project/evidence_rows.h"
#include "core/project/sqlite_store.h"
#include "core/project/store_rows.h"
#include "core/project/text.h"

/// The small pictures that stand behind readings.
namespace core::project {

Result<void> SqliteStore::noteEvidence(ShotId shot, PictureEvidence evidence) {
    CORE_EXPECTS(m_depth == 0 && !evidence.pictures.empty());
    BOOST_OUTCOME_TRY(shotOf(shot));
    if (evidence.madeAt.empty()) {
        evidence.madeAt = presentTime();
    }
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
    BOOST_OUTCOME_TRY(
        m_database->run("INSERT OR REPLACE INTO evidence VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                        evidenceRow(shot, evidence)));
    return transaction->commit();
}

Result<std::optional<PictureEvidence>> SqliteStore::evidenceOf(ShotId shot) const {
    BOOST_OUTCOME_TRY(rows,
                      m_database->query("SELECT * FROM evidence WHERE shot_id = ?", {shot.value}));
    if (rows.empty()) {
        return std::optional<PictureEvidence>{};
    }
    BOOST_OUTCOME_TRY(evidence, evidenceFrom(std::move(rows.front())));
    return std::optional{std::move(evidence)};
}

Result<std::vector<EvidenceSize>> SqliteStore::evidenceSizes() const {
    std::vector<EvidenceSize> sizes;
    BOOST_OUTCOME_TRY(m_database->forEach(
        "SELECT shot_id, made_at, first_frame, last_frame, length(pictures) FROM evidence "
        "ORDER BY shot_id",
        {}, [&sizes](Row row) -> Result<void> {
            RowReader reader{std::move(row)};
            EvidenceSize size;
            size.shot = {reader.integer()};
            size.madeAt = reader.text();
            size.firstFrame = {reader.integer()};
            size.lastFrame = {reader.integer()};
            size.bytes = reader.integer();
            sizes.push_back(std::move(size));
            return reader.finish();
        }));
    return sizes;
}

Result<void> SqliteStore::dropEvidence(std::span<const ShotId> shots) {
    CORE_EXPECTS(m_depth == 0);
    if (shots.empty()) {
        return ok();
    }
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
    for (const ShotId shot : shots) {
        BOOST_OUTCOME_TRY(m_database->run("DELETE FROM evidence WHERE shot_id = ?", {shot.value}));
    }
    BOOST_OUTCOME_TRY(transaction->commit());
    return m_database->vacuum();  // else the file stays as long as it is
}

}  // namespace core::project
