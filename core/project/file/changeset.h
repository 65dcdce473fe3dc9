#pragma once

#include <map>
#include <memory>
#include <set>
#include <string>

#include "core/project/file/database.h"

struct sqlite3_session;

namespace core::project {

/// Rows that a step changed, by table: ids of rows that were added, changed or removed.
using TouchedRows = std::map<std::string, std::set<std::int64_t>>;

/// Records what happens to tables whose first column is the row's id, from its making on, with
/// SQLite's session extension (https://www.sqlite.org/sessionintro.html). Confined.
class ChangeRecorder {
public:
    static Result<std::unique_ptr<ChangeRecorder>> start(Database& database,
                                                         const std::vector<std::string>& tables);
    ~ChangeRecorder();
    ChangeRecorder(const ChangeRecorder&) = delete;
    ChangeRecorder& operator=(const ChangeRecorder&) = delete;
    /// The changes since start, as a changeset; empty when nothing is different now.
    Result<Blob> changeset();

private:
    ChangeRecorder(Database& database, sqlite3_session* session)
        : m_database{database}, m_session{session} {}
    Database& m_database;
    sqlite3_session* m_session;
};

/// The changeset that takes the changes back.
Result<Blob> inverted(const Database& database, const Blob& changeset);
/// Changes the rows as the changeset says. Errors: Damaged when a row is not as it must be before
/// the change; the caller undoes the transaction then.
Result<void> applyChangeset(Database& database, const Blob& changeset);
/// The rows a changeset names.
Result<TouchedRows> touchedRows(const Database& database, const Blob& changeset);

}  // namespace core::project
