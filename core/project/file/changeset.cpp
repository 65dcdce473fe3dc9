#include "core/project/file/changeset.h"

// The session interface is declared only for programs that say they want it; Debian's library has
// both options on (sqlite3_compileoption_used).
#define SQLITE_ENABLE_SESSION
#define SQLITE_ENABLE_PREUPDATE_HOOK
#include <sqlite3.h>

#include <algorithm>

#include "core/base/words.h"

namespace core::project {
namespace {

struct FreeLater {
    void operator()(void* memory) const { sqlite3_free(memory); }
};

Result<Blob> takeBytes(const Database& database, int code, int size, void* bytes) {
    const std::unique_ptr<void, FreeLater> owned{bytes};
    if (code != SQLITE_OK) {
        return database.errorFor(code);
    }
    const auto* first = static_cast<const std::uint8_t*>(bytes);
    return size == 0 ? Blob{} : Blob(first, first + size);
}

/// SQLite takes changesets through pointers to memory it does not change.
void* memoryOf(const Blob& changeset) {
    return const_cast<std::uint8_t*>(changeset.data());
}

int refuseConflicts(void* /*context*/, int /*kind*/, sqlite3_changeset_iter* /*at*/) {
    return SQLITE_CHANGESET_ABORT;
}

/// Reads through a changeset as sqlite3session.c describes it ("Changeset Blob Format"): SQLite
/// 3.40 itself never ends on one whose table name has no end.
class ChangesetReader {
public:
    explicit ChangesetReader(const Blob& bytes) : m_bytes{bytes} {}

    [[nodiscard]] bool isWhole() {
        while (m_isWhole && m_at < m_bytes.size()) {
            const auto kind = next();
            if (kind == 'T') {
                readTable();
            } else if (kind == SQLITE_INSERT || kind == SQLITE_DELETE || kind == SQLITE_UPDATE) {
                skip(1);  // whether it is indirect
                const std::uint64_t records = kind == SQLITE_UPDATE ? 2 : 1;
                for (std::uint64_t i = 0; m_isWhole && i < records * m_columns; ++i) {
                    readValue();
                }
            } else {
                m_isWhole = false;
            }
        }
        return m_isWhole;
    }

private:
    unsigned char next() {
        if (m_at >= m_bytes.size()) {
            m_isWhole = false;
            return 0;
        }
        return static_cast<unsigned char>(m_bytes[m_at++]);
    }
    void skip(std::uint64_t count) {
        m_isWhole = m_isWhole && count <= m_bytes.size() - m_at;
        m_at += m_isWhole ? static_cast<std::size_t>(count) : 0;
    }
    /// "Variable-length integers" of https://www.sqlite.org/fileformat2.html, of at most five
    /// bytes.
    std::uint64_t number() {
        constexpr int kMostBytes = 5;
        std::uint64_t value = 0;
        for (int i = 0; i < kMostBytes; ++i) {
            const unsigned char byte = next();
            value = (value << 7U) | (byte & 0x7fU);
            if ((byte & 0x80U) == 0) {
                return value;
            }
        }
        m_isWhole = false;
        return 0;
    }
    void readTable() {
        m_columns = number();
        m_isWhole = m_isWhole && m_columns > 0;
        skip(m_columns);  // which of them are the key
        while (m_isWhole && next() != 0) {
        }
    }
    void readValue() {
        switch (next()) {
            case 0:  // not changed
            case SQLITE_NULL:
                break;
            case SQLITE_INTEGER:
            case SQLITE_FLOAT:
                skip(sizeof(std::int64_t));
                break;
            case SQLITE_TEXT:
            case SQLITE_BLOB:
                skip(number());
                break;
            default:
                m_isWhole = false;
        }
    }

    const Blob& m_bytes;
    std::size_t m_at{};
    std::uint64_t m_columns{};
    bool m_isWhole{true};
};

Error damagedStep(const Database& database) {
    return {ErrorCode::Damaged,
            said("{} is damaged: a step of undo does not fit the project. Nothing was "
                 "changed. Restore a copy of the file.",
                 database.file().string())};
}

}  // namespace

Result<std::unique_ptr<ChangeRecorder>> ChangeRecorder::start(
    Database& database, const std::vector<std::string>& tables) {
    sqlite3_session* session = nullptr;
    int code = sqlite3session_create(database.handle(), "main", &session);
    if (code != SQLITE_OK) {
        return database.errorFor(code);
    }
    std::unique_ptr<ChangeRecorder> recorder{new ChangeRecorder{database, session}};
    for (const std::string& table : tables) {
        code = sqlite3session_attach(session, table.c_str());
        if (code != SQLITE_OK) {
            return database.errorFor(code);
        }
    }
    return recorder;
}

ChangeRecorder::~ChangeRecorder() {
    sqlite3session_delete(m_session);
}

Result<Blob> ChangeRecorder::changeset() {
    int size = 0;
    void* bytes = nullptr;
    const int code = sqlite3session_changeset(m_session, &size, &bytes);
    return takeBytes(m_database, code, size, bytes);
}

Result<Blob> inverted(const Database& database, const Blob& changeset) {
    int size = 0;
    void* bytes = nullptr;
    if (!ChangesetReader{changeset}.isWhole()) {
        return damagedStep(database);
    }
    const int code = sqlite3changeset_invert(static_cast<int>(changeset.size()),
                                             memoryOf(changeset), &size, &bytes);
    if (code != SQLITE_OK) {
        sqlite3_free(bytes);
        return damagedStep(database);
    }
    return takeBytes(database, code, size, bytes);
}

Result<void> applyChangeset(Database& database, const Blob& changeset) {
    if (!ChangesetReader{changeset}.isWhole()) {
        return damagedStep(database);
    }
    const int code = sqlite3changeset_apply(database.handle(), static_cast<int>(changeset.size()),
                                            memoryOf(changeset), nullptr, refuseConflicts, nullptr);
    if (code == SQLITE_ABORT || code == SQLITE_CORRUPT || code == SQLITE_SCHEMA) {
        return damagedStep(database);
    }
    if (code != SQLITE_OK) {
        return database.errorFor(code);
    }
    return ok();
}

Result<TouchedRows> touchedRows(const Database& database, const Blob& changeset) {
    sqlite3_changeset_iter* at = nullptr;
    if (!ChangesetReader{changeset}.isWhole() ||
        sqlite3changeset_start(&at, static_cast<int>(changeset.size()), memoryOf(changeset)) !=
            SQLITE_OK) {
        return damagedStep(database);
    }
    TouchedRows touched;
    while (sqlite3changeset_next(at) == SQLITE_ROW) {
        const char* table = nullptr;
        int columns = 0;
        int operation = 0;
        sqlite3changeset_op(at, &table, &columns, &operation, nullptr);
        sqlite3_value* id = nullptr;  // the first column of every undoable table, never changed
        const int code = operation == SQLITE_INSERT ? sqlite3changeset_new(at, 0, &id)
                                                    : sqlite3changeset_old(at, 0, &id);
        if (code == SQLITE_OK && id != nullptr) {
            touched[table].insert(sqlite3_value_int64(id));
        }
    }
    if (sqlite3changeset_finalize(at) != SQLITE_OK) {
        return damagedStep(database);
    }
    return touched;
}

}  // namespace core::project
