#include "core/project/file/database.h"

#include <sqlite3.h>
#include <cerrno>

#include <system_error>

#include "core/base/expects.h"
#include "core/base/words.h"

namespace core::project {
namespace {

// Readers hold a writer up while they take in the whole file, a writer them while it commits.
constexpr int kBusyWaitMs = 5000;
constexpr int kStepsAtOnce = 10'000;
// Steps of SQLite's machine in one statement. The check of the pages, the longest of ours, takes
// 0.2 for each byte of a file with 10,000 shots.
constexpr std::int64_t kStepsOfStatement = 5'000'000;
constexpr std::int64_t kStepsOfByte = 5;
// The longest statement of a schema has 2000 bytes; what SQLite's parser does is not counted.
constexpr int kLongestSql = 65'536;

int bindValue(sqlite3_stmt* statement, int position, const Value& value) {
    struct Binder {
        sqlite3_stmt* statement;
        int position;
        int operator()(std::monostate) const { return sqlite3_bind_null(statement, position); }
        int operator()(std::int64_t number) const {
            return sqlite3_bind_int64(statement, position, number);
        }
        int operator()(double number) const {
            return sqlite3_bind_double(statement, position, number);
        }
        int operator()(const std::string& text) const {
            return sqlite3_bind_text64(statement, position, text.data(), text.size(), SQLITE_STATIC,
                                       SQLITE_UTF8);
        }
        int operator()(const Blob& blob) const {
            return blob.empty() ? sqlite3_bind_zeroblob(statement, position, 0)
                                : sqlite3_bind_blob64(statement, position, blob.data(), blob.size(),
                                                      SQLITE_STATIC);
        }
    };
    return std::visit(Binder{statement, position}, value);
}

Value columnValue(sqlite3_stmt* statement, int column) {
    switch (sqlite3_column_type(statement, column)) {
        case SQLITE_INTEGER:
            return std::int64_t{sqlite3_column_int64(statement, column)};
        case SQLITE_FLOAT:
            return sqlite3_column_double(statement, column);
        case SQLITE_TEXT: {
            const void* text = sqlite3_column_text(statement, column);
            const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement, column));
            return std::string{static_cast<const char*>(text), size};
        }
        case SQLITE_BLOB: {
            const auto* bytes =
                static_cast<const std::uint8_t*>(sqlite3_column_blob(statement, column));
            return Blob(bytes, bytes + sqlite3_column_bytes(statement, column));
        }
        default:
            return {};
    }
}

Row rowOf(sqlite3_stmt* statement) {
    Row row;
    const int columns = sqlite3_column_count(statement);
    row.reserve(static_cast<std::size_t>(columns));
    for (int column = 0; column < columns; ++column) {
        row.push_back(columnValue(statement, column));
    }
    return row;
}

/// Gives a kept statement back for its next use, whatever way the use ended.
struct ResetLater {
    sqlite3_stmt* statement;
    explicit ResetLater(sqlite3_stmt* used) : statement{used} {}
    ~ResetLater() {
        sqlite3_reset(statement);
        sqlite3_clear_bindings(statement);
    }
    ResetLater(const ResetLater&) = delete;
    ResetLater& operator=(const ResetLater&) = delete;
};

}  // namespace

Result<std::unique_ptr<Database>> Database::open(const std::filesystem::path& file) {
    return connect(file, {});
}

Result<std::unique_ptr<Database>> Database::openToRead(const std::filesystem::path& file,
                                                       std::string reason) {
    CORE_EXPECTS(!reason.empty());
    return connect(file, std::move(reason));
}

Result<std::unique_ptr<Database>> Database::connect(const std::filesystem::path& file,
                                                    std::string readOnlyReason) {
    std::unique_ptr<Database> database{new Database{file, std::move(readOnlyReason)}};
    constexpr int kFlags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE;
    // SQLite reads a name that begins with "file:" as a URI where the system switched that on; an
    // absolute path never does.
    const std::string path = std::filesystem::absolute(file).string();
    const int code = sqlite3_open_v2(path.c_str(), &database->m_handle, kFlags, nullptr);
    if ((code & 0xff) == SQLITE_CANTOPEN) {
        return fail(ErrorCode::Unreadable,
                    said("{} cannot be opened. Check that you may read the file and its "
                         "folder.",
                         file.string()));
    }
    if (code != SQLITE_OK) {
        return database->errorFor(code);
    }
    sqlite3_limit(database->m_handle, SQLITE_LIMIT_SQL_LENGTH, kLongestSql);
    const auto isToEnd = [](void* self) {
        return static_cast<Database*>(self)->takesTooManySteps() ? 1 : 0;
    };
    sqlite3_progress_handler(database->m_handle, kStepsAtOnce, isToEnd, database.get());
    BOOST_OUTCOME_TRY(database->configure());
    return database;
}

/// The file is asked for its size only when it may have grown too small a limit.
bool Database::takesTooManySteps() noexcept {
    m_steps += kStepsAtOnce;
    if (m_steps > m_stepsAllowed) {
        std::error_code unknown;
        const auto bytes = std::filesystem::file_size(m_file, unknown);
        m_stepsAllowed =
            kStepsOfStatement + (unknown ? 0 : kStepsOfByte * static_cast<std::int64_t>(bytes));
    }
    return m_steps > m_stepsAllowed;
}

Result<void> Database::configure() {
    sqlite3_busy_timeout(m_handle, kBusyWaitMs);
    sqlite3_db_config(m_handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(m_handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    // A cache of 64 MiB: a step of thousands of shots does not spill, which would sync each time.
    BOOST_OUTCOME_TRY(
        execute("PRAGMA cell_size_check = ON; PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL;"
                "PRAGMA cache_size = -65536;"));
    if (m_readOnlyReason.empty()) {
        return configureToWrite();
    }
    return execute("PRAGMA query_only = ON; BEGIN; SELECT count(*) FROM sqlite_schema; COMMIT;");
}

Result<void> Database::configureToWrite() {
    if (sqlite3_db_readonly(m_handle, "main") == 1) {
        return fail(ErrorCode::WriteFailed,
                    said("{} is write-protected. Allow writing to it, or copy it to a "
                         "folder of your own and open the copy.",
                         m_file.string()));
    }
    BOOST_OUTCOME_TRY(execute("PRAGMA journal_mode = PERSIST;"));
    return execute("BEGIN IMMEDIATE; COMMIT;");  // writes nothing, and says if it could not
}

Database::~Database() {
    for (const auto& [sql, statement] : m_statements) {
        sqlite3_finalize(statement);
    }
    if (m_handle != nullptr && m_readOnlyReason.empty()) {
        // Takes the journal away. Where that fails the next opening finds a journal without
        // content.
        sqlite3_exec(m_handle, "PRAGMA journal_mode = DELETE", nullptr, nullptr, nullptr);
    }
    sqlite3_close(m_handle);
}

Result<void> Database::execute(const std::string& sql) {
    m_steps = 0;
    const int code = sqlite3_exec(m_handle, sql.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) {
        return errorFor(code);
    }
    return ok();
}

Result<sqlite3_stmt*> Database::prepared(const std::string& sql, const Row& parameters) {
    sqlite3_stmt*& statement = m_statements[sql];
    if (statement == nullptr) {
        const int code = sqlite3_prepare_v3(m_handle, sql.c_str(), static_cast<int>(sql.size()),
                                            SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
        if (code != SQLITE_OK) {
            return errorFor(code);
        }
    }
    CORE_EXPECTS(sqlite3_bind_parameter_count(statement) == static_cast<int>(parameters.size()));
    for (std::size_t i = 0; i < parameters.size(); ++i) {
        const int code = bindValue(statement, static_cast<int>(i) + 1, parameters[i]);
        if (code != SQLITE_OK) {
            return errorFor(code);
        }
    }
    return statement;
}

Result<void> Database::forEach(const std::string& sql, const Row& parameters,
                               const std::function<Result<void>(Row)>& use) {
    BOOST_OUTCOME_TRY(statement, prepared(sql, parameters));
    const ResetLater resetLater{statement};
    m_steps = 0;
    int code = sqlite3_step(statement);
    for (; code == SQLITE_ROW; code = sqlite3_step(statement)) {
        BOOST_OUTCOME_TRY(use(rowOf(statement)));
    }
    if (code != SQLITE_DONE) {
        return errorFor(code);
    }
    return ok();
}

Result<void> Database::run(const std::string& sql, const Row& parameters) {
    return forEach(sql, parameters, [](const Row&) -> Result<void> { return ok(); });
}

Result<std::vector<Row>> Database::query(const std::string& sql, const Row& parameters) {
    std::vector<Row> rows;
    BOOST_OUTCOME_TRY(forEach(sql, parameters, [&rows](Row row) -> Result<void> {
        rows.push_back(std::move(row));
        return ok();
    }));
    return rows;
}

Result<std::int64_t> Database::integer(const std::string& sql, const Row& parameters) {
    BOOST_OUTCOME_TRY(rows, query(sql, parameters));
    if (rows.empty() || rows.front().empty() ||
        !std::holds_alternative<std::int64_t>(rows.front().front())) {
        return fail(ErrorCode::Damaged,
                    said("{} is damaged: a number that must be there is missing. Restore a "
                         "copy of the file.",
                         m_file.string()));
    }
    return std::get<std::int64_t>(rows.front().front());
}

Result<void> Database::vacuum() {
    BOOST_OUTCOME_TRY(execute("VACUUM"));
    // SQLite shortens the file after the commit and does not sync that. Only through its own
    // handle: closing another descriptor of the file would drop its locks.
    sqlite3_file* file = nullptr;
    sqlite3_file_control(m_handle, "main", SQLITE_FCNTL_FILE_POINTER, &file);
    const int code = file->pMethods->xSync(file, SQLITE_SYNC_FULL);
    if (code != SQLITE_OK) {
        return errorFor(code);
    }
    return ok();
}

bool Database::isInTransaction() const noexcept {
    return sqlite3_get_autocommit(m_handle) == 0;
}

/// What the disk or the folder has refused, and what to do about it.
Error Database::refusal(int code) const {
    const std::string file = m_file.string();
    const auto sayWriteFailed = [](const std::string& what, const std::string& todo) {
        return Error{
            ErrorCode::WriteFailed,
            said("{} Nothing was changed, and all that was kept before stays. {}", what, todo)};
    };
    std::error_code error;
    if (code == SQLITE_READONLY_DBMOVED || !std::filesystem::exists(m_file, error)) {
        return sayWriteFailed(
            said("{} is not there any more: it was moved, renamed or deleted, or its disk "
                 "was taken away.",
                 file),
            said("Put it back under this name and do it again; or close the project and open it "
                 "where it is now, or restore a backup."));
    }
    if (code == SQLITE_FULL) {
        return sayWriteFailed(said("The disk is full: {} cannot be written.", file),
                              said("Make room on the disk and do it again."));
    }
    // What the system says is kept for failures to open and to write.
    const bool isOfSystem = (code & 0xff) == SQLITE_IOERR || (code & 0xff) == SQLITE_CANTOPEN;
    const int system = isOfSystem && m_handle != nullptr ? sqlite3_system_errno(m_handle) : 0;
    const std::string detail = system != 0           ? std::generic_category().message(system)
                               : m_handle != nullptr ? std::string{sqlite3_errmsg(m_handle)}
                                                     : std::string{sqlite3_errstr(code)};
    const std::string refused = said("{} cannot be written ({}).", file, detail);
    if ((code & 0xff) == SQLITE_READONLY || system == EROFS || system == EACCES ||
        system == EPERM) {
        return sayWriteFailed(
            refused, said("Check that you may write to the file and its folder, and do it again."));
    }
    return sayWriteFailed(
        refused, said("Check that the disk is there, has room and is sound, and that you may "
                      "write to the folder, and do it again."));
}

Error Database::errorFor(int code) const {
    const std::string file = m_file.string();
    const char* detail = m_handle != nullptr ? sqlite3_errmsg(m_handle) : sqlite3_errstr(code);
    if (code == SQLITE_IOERR_READ || code == SQLITE_IOERR_SHORT_READ) {
        return {ErrorCode::Unreadable,
                said("{} cannot be read ({}). Check the disk it lies on.", file, detail)};
    }
    switch (code & 0xff) {  // the primary result code, https://www.sqlite.org/rescode.html
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return {ErrorCode::Busy,
                    said("{} is in use by another program. Close the project there and open "
                         "it again.",
                         file)};
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
        case SQLITE_ERROR:  // a table or column that is not there
        case SQLITE_MISMATCH:
        case SQLITE_CONSTRAINT:  // callers check what people enter before it comes here
            return {ErrorCode::Damaged,
                    said("{} is damaged ({}). Nothing was changed. Restore a copy of the "
                         "file.",
                         file, detail)};
        case SQLITE_INTERRUPT:  // takesTooManySteps()
            return {ErrorCode::Damaged,
                    said("{} is damaged: reading it would not come to an end. Nothing was changed. "
                         "Restore a copy of the file.",
                         file)};
        default:
            return refusal(code);
    }
}

Result<std::unique_ptr<Transaction>> Transaction::begin(Database& database) {
    if (!database.readOnlyReason().empty()) {
        return fail(ErrorCode::Busy, database.readOnlyReason());
    }
    const bool isInner = database.isInTransaction();
    BOOST_OUTCOME_TRY(database.run(isInner ? "SAVEPOINT edit" : "BEGIN IMMEDIATE"));
    return std::unique_ptr<Transaction>{new Transaction{database, isInner}};
}

Transaction::~Transaction() {
    if (!m_isOpen || !m_database.isInTransaction()) {
        return;  // SQLite undoes a transaction by itself when the disk is full or fails
    }
    // A failure here leaves the journal, which the next opening rolls back: nothing to do about it.
    (void)m_database.execute(m_isInner ? "ROLLBACK TO edit; RELEASE edit" : "ROLLBACK");
}

Result<void> Transaction::commit() {
    BOOST_OUTCOME_TRY(m_database.run(m_isInner ? "RELEASE edit" : "COMMIT"));
    m_isOpen = false;
    return ok();
}

}  // namespace core::project
