#include <fstream>

#include "core/base/files.h"
#include "core/base/words.h"
#include "core/project/file/schema.h"
#include "core/project/store/migrations.h"
#include "core/project/store/open_project.h"
#include "core/project/store/schema_check.h"

namespace core::project {
namespace {

/// No page is missing, and the pages hang together. What follows the last page is no part of the
/// database: a stop between the commit of a VACUUM and the shortening of the file leaves that.
Result<void> checkPages(Database& database) {
    BOOST_OUTCOME_TRY(pages, database.integer("PRAGMA page_count"));
    BOOST_OUTCOME_TRY(pageBytes, database.integer("PRAGMA page_size"));
    const auto size = static_cast<std::int64_t>(std::filesystem::file_size(database.file()));
    if (size < pages * pageBytes) {
        return fail(ErrorCode::Damaged, said("{} is cut off: it has {} of {} bytes. Copy the file "
                                             "again or restore a copy of the project.",
                                             database.file().string(), size, pages * pageBytes));
    }
    BOOST_OUTCOME_TRY(rows, database.query("PRAGMA quick_check(1)"));
    if (rows.size() == 1 && rows.front() == Row{std::string{"ok"}}) {
        return ok();
    }
    return fail(
        ErrorCode::Damaged,
        said("{} is damaged ({}). Nothing was changed. Restore a copy of the file.",
             database.file().string(),
             rows.empty() ? said("no answer") : std::get<std::string>(rows.front().front())));
}

/// A journal that stayed behind when its project was moved would be played into the new file.
Result<void> refuseForeignJournal(const std::filesystem::path& file) {
    std::filesystem::path journal = file;
    journal += "-journal";
    std::error_code error;  // of a name that is too long; writing says that
    if (std::filesystem::exists(journal, error)) {
        return fail(ErrorCode::InvalidInput,
                    said("{} belongs to a project that was moved away. Put it beside that "
                         "project again, or choose another name for the new one.",
                         journal.string()));
    }
    return ok();
}

Result<void> writeEmptyProject(const std::filesystem::path& file) {
    std::ofstream{file}.close();  // an empty file is an empty database
    BOOST_OUTCOME_TRY(claim, OpenFileClaim::take(file));
    BOOST_OUTCOME_TRY(database, Database::open(file));
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*database));
    BOOST_OUTCOME_TRY(database->execute(schemaSql()));
    BOOST_OUTCOME_TRY(transaction->commit());
    OpenProject project{std::move(claim), nullptr, std::move(database), Snapshot{}};
    return project.startHistory();
}

std::string readOnlyReasonOf(const std::filesystem::path& file) {
    const auto writer = WriterLock::holder(file);
    return writer ? said(
                        "{} is open to look at only: {} has it open. Close it there, then "
                        "open it here again to make changes.",
                        file.filename().string(), nameOf(*writer))
                  : said("{} is open to look at only. Open it again to make changes.",
                         file.filename().string());
}

}  // namespace

Result<std::unique_ptr<Store>> Store::create(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(refuseForeignJournal(file));
    if (!mayWrite(file)) {
        return fail(ErrorCode::InvalidInput,
                    said("{} exists already. Open it, or choose another name for the new "
                         "project.",
                         file.string()));
    }
    BOOST_OUTCOME_TRY(staging, StagingFolder::beside(file));
    const std::filesystem::path ready = staging.path() / "project";
    BOOST_OUTCOME_TRY(writeEmptyProject(ready));
    BOOST_OUTCOME_TRY(moveToPlace(ready, file));
    return open(file);
}

Result<std::unique_ptr<Store>> Store::open(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(claim, OpenFileClaim::take(file));
    BOOST_OUTCOME_TRY(checkFileHeader(file));
    BOOST_OUTCOME_TRY(lock, WriterLock::take(file));
    BOOST_OUTCOME_TRY(database, Database::open(file));
    BOOST_OUTCOME_TRY(checkSchema(*database));
    BOOST_OUTCOME_TRY(checkPages(*database));
    const auto loads = [](Database& upToDate) -> Result<void> {
        BOOST_OUTCOME_TRY(loadSnapshot(upToDate));
        return ok();
    };
    BOOST_OUTCOME_TRY(migrate(*database, migrations(), kSchemaVersion, loads));
    BOOST_OUTCOME_TRY(snapshot, loadSnapshot(*database));
    return std::make_unique<Store>(std::make_unique<OpenProject>(
        std::move(claim), std::move(lock), std::move(database), std::move(snapshot)));
}

Result<std::unique_ptr<Store>> Store::openReadOnly(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(claim, OpenFileClaim::take(file));
    BOOST_OUTCOME_TRY(version, checkFileHeader(file));
    if (version < kSchemaVersion) {
        return fail(ErrorCode::Unsupported,
                    said("{} has the older format {}. It is brought up to date when it is "
                         "opened for writing.",
                         file.string(), version));
    }
    BOOST_OUTCOME_TRY(database, Database::openToRead(file, readOnlyReasonOf(file)));
    // One moment of the file: its writer waits this long before it goes on.
    BOOST_OUTCOME_TRY(database->execute("BEGIN"));
    BOOST_OUTCOME_TRY(checkSchema(*database));
    BOOST_OUTCOME_TRY(checkPages(*database));
    BOOST_OUTCOME_TRY(snapshot, loadSnapshot(*database));
    auto project = std::make_unique<OpenProject>(std::move(claim), nullptr, std::move(database),
                                                 std::move(snapshot));
    BOOST_OUTCOME_TRY(project->database().execute("COMMIT"));
    return std::make_unique<Store>(std::move(project));
}

Result<std::unique_ptr<Store>> Store::openToRead(const std::filesystem::path& file) {
    auto store = openReadOnly(file);
    if (store || store.error().code != ErrorCode::Unsupported) {
        return store;
    }
    BOOST_OUTCOME_TRY(upToDate, open(file));
    upToDate.reset();
    return openReadOnly(file);
}

}  // namespace core::project
