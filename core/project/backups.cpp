#include "core/project/backups.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <set>

#include "core/base/files.h"
#include "core/base/words.h"
#include "core/project/file/database.h"
#include "core/project/file/file_check.h"
#include "core/project/file/writer_lock.h"
#include "core/project/store.h"
#include "core/project/text.h"

namespace core::project {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kNewestKept = 10;
constexpr std::size_t kDaysKept = 14;
constexpr int kPagesAtOnce = 256;  // a mebibyte: a writer does not notice the wait
constexpr int kBusyPauseMs = 20;
constexpr std::size_t kTimeLength = 20;  // "2026-05-03T09:41:07Z"

/// Colons are not allowed in names everywhere.
std::string timeInName(std::string time) {
    std::replace(time.begin(), time.end(), ':', '.');
    return time;
}

/// The time in "p 2026-05-03T09.41.07Z"; empty when there is none.
std::string timeFromName(const std::string& stem, const std::string& projectStem) {
    if (stem.size() != projectStem.size() + 1 + kTimeLength ||
        stem.compare(0, projectStem.size() + 1, projectStem + " ") != 0) {
        return {};
    }
    std::string time = stem.substr(projectStem.size() + 1);
    constexpr std::string_view kPattern = "dddd-dd-ddTdd.dd.ddZ";
    for (std::size_t i = 0; i < kTimeLength; ++i) {
        const bool isDigit = time[i] >= '0' && time[i] <= '9';
        if (kPattern[i] == 'd' ? !isDigit : time[i] != kPattern[i]) {
            return {};
        }
    }
    time[13] = ':';
    time[16] = ':';
    return time;
}

/// Text that is another when something worth a copy has changed: edits and kept pictures.
Result<std::string> stateOf(const fs::path& file) {
    BOOST_OUTCOME_TRY(database, Database::openToRead(file, said("a copy is being made")));
    BOOST_OUTCOME_TRY(line, database->integer("SELECT coalesce(max(id), 0) FROM history"));
    const auto pictures = database->query(
        "SELECT count(*), coalesce(max(made_at), ''), total(length(pictures)) FROM evidence");
    if (!pictures) {
        return fmt::format("{}", line);  // an older format
    }
    const Row& row = pictures.value().front();
    return fmt::format("{} {} {} {}", line, std::get<std::int64_t>(row[0]),
                       std::get<std::string>(row[1]), std::get<double>(row[2]));
}

/// https://www.sqlite.org/backup.html
Result<void> copyPages(Database& from, sqlite3* to, const std::stop_token& stop) {
    sqlite3_backup* backup = sqlite3_backup_init(to, "main", from.handle(), "main");
    if (backup == nullptr) {
        return cannotWrite(from.file(), sqlite3_errmsg(to));
    }
    int code = SQLITE_OK;
    while (code == SQLITE_OK || code == SQLITE_BUSY || code == SQLITE_LOCKED) {
        if (stop.stop_requested()) {
            break;
        }
        if (code != SQLITE_OK) {
            sqlite3_sleep(kBusyPauseMs);
        }
        code = sqlite3_backup_step(backup, kPagesAtOnce);
    }
    sqlite3_backup_finish(backup);
    if (code == SQLITE_DONE) {
        return ok();
    }
    if (stop.stop_requested()) {
        return fail(ErrorCode::Cancelled, said("The copy was cancelled."));
    }
    return cannotWrite(from.file(), sqlite3_errstr(code));
}

Result<void> copyDatabase(const fs::path& project, const fs::path& to,
                          const std::stop_token& stop) {
    BOOST_OUTCOME_TRY(from, Database::openToRead(project, said("a copy is being made")));
    sqlite3* handle = nullptr;
    const std::string path = fs::absolute(to).string();
    const int code =
        sqlite3_open_v2(path.c_str(), &handle, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
    Result<void> copied = code == SQLITE_OK ? copyPages(*from, handle, stop)
                                            : Result<void>{cannotWrite(to, sqlite3_errstr(code))};
    sqlite3_close(handle);
    return copied;
}

/// A copy is worth nothing unless it can be read.
Result<void> checkCopy(const fs::path& file) {
    const auto store = Store::openReadOnly(file);
    if (!store && store.error().code != ErrorCode::Unsupported) {  // an older format is whole
        return store.error();
    }
    return ok();
}

/// Undoes keepPresent(); the project still has its own name.
void giveBack(const fs::path& project, const fs::path& aside) {
    std::error_code ignored;
    fs::rename(fs::path{aside} += "-journal", fs::path{project} += "-journal", ignored);
    if (fs::exists(project, ignored)) {
        fs::remove(aside, ignored);
    }
}

/// A name beside the project that nobody has.
fs::path nameForPresent(const fs::path& project) {
    const std::string stem = project.stem().string();
    for (int number = 1;; ++number) {
        const std::string count = number > 1 ? fmt::format(" {}", number) : std::string{};
        fs::path name = project.parent_path() / fmt::format("{} (before restoring {}{}){}", stem,
                                                            timeInName(presentTime()), count,
                                                            project.extension().string());
        std::error_code ignored;
        if (!fs::exists(name, ignored)) {
            return name;
        }
    }
}

/// The present file gets a second name; the journal of an unfinished change goes with that one,
/// since it would be played into whatever has the project's name next.
Result<void> keepPresent(const fs::path& project, const fs::path& aside) {
    std::error_code error;
    fs::create_hard_link(project, aside, error);
    if (error) {  // a disk without links
        fs::copy_file(project, aside, fs::copy_options::none, error);
        if (error) {
            return cannotWrite(aside, error.message());
        }
        BOOST_OUTCOME_TRY(syncToDisk(aside));
    }
    fs::path journal = project;
    journal += "-journal";
    if (fs::exists(journal, error)) {
        fs::rename(journal, fs::path{aside} += "-journal", error);
        if (error) {
            return cannotWrite(aside, error.message());
        }
    }
    return ok();
}

}  // namespace

fs::path backupFolder(const fs::path& project) {
    return project.parent_path() / (project.stem().string() + " backups");
}

std::vector<Backup> backupsOf(const fs::path& project) {
    std::vector<Backup> backups;
    std::error_code error;
    for (fs::directory_iterator at{backupFolder(project), error}, end; !error && at != end;
         at.increment(error)) {
        const fs::path& file = at->path();
        const std::string time = timeFromName(file.stem().string(), project.stem().string());
        std::error_code unreadable;
        const auto size = fs::file_size(file, unreadable);
        if (!time.empty() && file.extension() == project.extension() && !unreadable) {
            backups.push_back({file, time, static_cast<std::int64_t>(size)});
        }
    }
    std::sort(backups.begin(), backups.end(),
              [](const Backup& a, const Backup& b) { return a.madeAt > b.madeAt; });
    return backups;
}

std::vector<Backup> backupsToLetGo(std::vector<Backup> backups) {
    std::sort(backups.begin(), backups.end(),
              [](const Backup& a, const Backup& b) { return a.madeAt > b.madeAt; });
    std::vector<Backup> goes;
    std::set<std::string> days;
    for (std::size_t i = 0; i < backups.size(); ++i) {
        const std::string day = backups[i].madeAt.substr(0, 10);
        const bool isNewestOfDay = !days.contains(day) && days.size() < kDaysKept;
        days.insert(day);
        if (i >= kNewestKept && !isNewestOfDay) {
            goes.push_back(backups[i]);
        }
    }
    return goes;
}

Result<void> copyProject(const fs::path& project, const fs::path& to, std::stop_token stop) {
    BOOST_OUTCOME_TRY(staging, StagingFolder::beside(to));
    const fs::path copy = staging.path() / "copy";
    BOOST_OUTCOME_TRY(copyDatabase(project, copy, stop));
    BOOST_OUTCOME_TRY(checkCopy(copy));
    BOOST_OUTCOME_TRY(syncToDisk(copy));
    std::error_code error;
    fs::rename(copy, to, error);
    if (error) {
        return cannotWrite(to, error.message());
    }
    return syncNameToDisk(to);
}

Result<std::optional<Backup>> makeBackup(const fs::path& project, std::stop_token stop) {
    const fs::path folder = backupFolder(project);
    StagingFolder::abandonedIn(folder);  // go with the list: half copies of stopped programs
    const auto before = backupsOf(project);
    BOOST_OUTCOME_TRY(state, stateOf(project));
    if (!before.empty()) {
        const auto newest = stateOf(before.front().file);
        if (newest && newest.value() == state) {
            return std::optional<Backup>{};
        }
    }
    std::error_code error;
    fs::create_directories(folder, error);
    if (error) {
        return cannotWrite(folder, error.message());
    }
    BOOST_OUTCOME_TRY(syncNameToDisk(folder));
    Backup made;
    made.madeAt = presentTime();
    made.file = folder / fmt::format("{} {}{}", project.stem().string(), timeInName(made.madeAt),
                                     project.extension().string());
    BOOST_OUTCOME_TRY(copyProject(project, made.file, stop));
    made.bytes = static_cast<std::int64_t>(fs::file_size(made.file, error));
    for (const Backup& old : backupsToLetGo(backupsOf(project))) {
        // A clock that was set back makes the new copy look like the oldest.
        if (old.file != made.file) {
            fs::remove(old.file, error);  // one that stays is let go the next time
        }
    }
    return std::optional{made};
}

BackupPreview previewOf(const Backup& backup) {
    BackupPreview preview;
    preview.backup = backup;
    const auto store = Store::openReadOnly(backup.file);
    if (!store) {
        preview.trouble = store.error().message;
        return preview;
    }
    const auto snapshot = store.value()->snapshot();
    preview.shots = snapshot->shots.size();
    preview.readings = snapshot->readings.size();
    preview.kept = static_cast<std::size_t>(
        std::count_if(snapshot->shots.begin(), snapshot->shots.end(),
                      [](const Shot& shot) { return shot.standing == ShotStanding::Kept; }));
    const auto history = store.value()->history();
    if (history && !history.value().empty()) {
        preview.lastLine = history.value().back();
    }
    return preview;
}

Result<fs::path> restoreBackup(const fs::path& project, const fs::path& backup) {
    BOOST_OUTCOME_TRY(checkCopy(backup));
    std::error_code error;
    const bool isThere = fs::exists(project, error);
    std::unique_ptr<OpenFileClaim> claim;
    if (isThere) {
        if (fs::equivalent(project, backup, error)) {
            return fail(ErrorCode::InvalidInput,
                        said("The copy to restore is the project itself."));
        }
        BOOST_OUTCOME_TRY(opened, OpenFileClaim::take(project));
        claim = std::move(opened);
    }
    BOOST_OUTCOME_TRY(taken, WriterLock::take(project));
    const std::unique_ptr<WriterLock> lock = std::move(taken);
    const fs::path target = isThere ? fs::canonical(project, error) : project;
    BOOST_OUTCOME_TRY(staging, StagingFolder::beside(target));
    const fs::path copy = staging.path() / "copy";
    fs::copy_file(backup, copy, fs::copy_options::none, error);
    if (error) {
        return cannotWrite(copy, error.message());
    }
    BOOST_OUTCOME_TRY(syncToDisk(copy));
    fs::path aside;
    if (isThere) {
        aside = nameForPresent(target);
        if (const Result<void> keptAside = keepPresent(target, aside); !keptAside) {
            giveBack(target, aside);
            return keptAside.error();
        }
    }
    fs::rename(copy, target, error);
    if (error) {
        const std::string why = error.message();
        if (isThere) {
            giveBack(target, aside);
        }
        return cannotWrite(target, why);
    }
    BOOST_OUTCOME_TRY(syncNameToDisk(target));
    return aside;
}

}  // namespace core::project
