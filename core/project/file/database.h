#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <initializer_list>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/project/file/row.h"

struct sqlite3;
struct sqlite3_stmt;

namespace core::project {

/// One SQLite connection. Confined. Private to core/project.
///
/// Rollback journal, synchronous FULL, foreign keys on. The file is locked only while something is
/// written, so others may read between two changes; who may write is settled by WriterLock. The
/// journal stays while the file is open: a commit overwrites its header and syncs it, so it holds
/// against a loss of power without a sync of the folder; it is removed on closing
/// (https://www.sqlite.org/pragma.html#pragma_journal_mode, https://www.sqlite.org/lockingv3.html).
///
/// A statement that takes more steps than a file of this size can need is ended as Damaged: pages
/// that name each other in circles would be read without end
/// (https://www.sqlite.org/security.html, section 1).
class Database {
public:
    /// An existing file; an empty one is an empty database. Errors: Busy, WriteFailed
    /// (write-protected), Damaged, Unreadable.
    static Result<std::unique_ptr<Database>> open(const std::filesystem::path& file);
    /// To look at only; transactions that would write are refused with the reason, as Busy. A
    /// change that a stopped program left unfinished is taken back if nobody writes. Errors: as
    /// open().
    static Result<std::unique_ptr<Database>> openToRead(const std::filesystem::path& file,
                                                        std::string reason);
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    /// Runs one or more statements without parameters.
    Result<void> execute(const std::string& sql);
    /// Runs one statement. Prepared statements are kept by their text.
    Result<void> run(const std::string& sql, const Row& parameters = {});
    /// All rows of one query.
    Result<std::vector<Row>> query(const std::string& sql, const Row& parameters = {});
    /// The first cell of the first row; Damaged when there is none or it is no whole number.
    Result<std::int64_t> integer(const std::string& sql, const Row& parameters = {});
    /// Calls use for each row until it fails.
    Result<void> forEach(const std::string& sql, const Row& parameters,
                         const std::function<Result<void>(Row)>& use);

    /// Makes the file as short as its content allows, and brings its length to the disk.
    Result<void> vacuum();

    [[nodiscard]] bool isInTransaction() const noexcept;
    /// Why nothing can be written; empty when it can.
    [[nodiscard]] const std::string& readOnlyReason() const noexcept { return m_readOnlyReason; }
    /// A number that changes when another connection has written.
    Result<std::int64_t> dataVersion() { return integer("PRAGMA data_version"); }
    [[nodiscard]] const std::filesystem::path& file() const noexcept { return m_file; }
    [[nodiscard]] sqlite3* handle() const noexcept { return m_handle; }
    /// The failure of an SQLite call on this connection, in words. code: an SQLite result code.
    [[nodiscard]] Error errorFor(int code) const;

private:
    Database(std::filesystem::path file, std::string readOnlyReason)
        : m_file{std::move(file)}, m_readOnlyReason{std::move(readOnlyReason)} {}
    static Result<std::unique_ptr<Database>> connect(const std::filesystem::path& file,
                                                     std::string readOnlyReason);
    [[nodiscard]] Error refusal(int code) const;
    [[nodiscard]] bool takesTooManySteps() noexcept;
    Result<void> configure();
    Result<void> configureToWrite();
    Result<sqlite3_stmt*> prepared(const std::string& sql, const Row& parameters);

    std::filesystem::path m_file;
    std::string m_readOnlyReason;
    sqlite3* m_handle{};
    std::int64_t m_steps{};  ///< of SQLite's machine, since the last statement began
    std::int64_t m_stepsAllowed{};
    std::map<std::string, sqlite3_stmt*> m_statements;
};

/// A transaction, or a savepoint when one is open already. Undone on destruction unless committed.
class Transaction {
public:
    /// Errors: Busy when the database was opened to read, with the reason.
    static Result<std::unique_ptr<Transaction>> begin(Database& database);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    /// Errors: WriteFailed; the transaction is undone then.
    Result<void> commit();

private:
    Transaction(Database& database, bool isInner) : m_database{database}, m_isInner{isInner} {}
    Database& m_database;
    bool m_isInner;
    bool m_isOpen{true};
};

}  // namespace core::project
