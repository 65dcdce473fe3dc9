#include <cstdio>

#include "core/project/migrations.h"
#include "core/project/schema.h"
#include "core/project/store_rows.h"

namespace core::project {
namespace {

template <class Entity>
Result<void> loadTable(Database& database, Snapshot& snapshot) {
    std::vector<Entity> entities;
    BOOST_OUTCOME_TRY(
        database.forEach(selectRows<Entity>() + " ORDER BY id", {}, [&](Row row) -> Result<void> {
            BOOST_OUTCOME_TRY(entity, entityFrom<Entity>(database, std::move(row)));
            entities.push_back(std::move(entity));
            return ok();
        }));
    tableOf<Entity>(snapshot) = Table<Entity>{std::move(entities)};
    return ok();
}

auto missing(const Database& database, const char* what, std::int64_t where) {
    return fail(ErrorCode::Damaged,
                fmt::format("{} is damaged: {} {} refers to something that is not in the file. "
                            "Nothing was changed. Restore a copy of the file.",
                            database.file().string(), what, where));
}

/// Rows that vanish with a damaged page leave rows that refer to nothing.
Result<void> checkReferences(const Database& database, const Snapshot& all) {
    for (const Cell& cell : all.cells) {
        if (all.sessions.find(cell.session) == nullptr ||
            all.implements.find(cell.implement) == nullptr ||
            all.hitters.find(cell.hitter) == nullptr) {
            return missing(database, "cell", cell.id.value);
        }
    }
    for (const Clip& clip : all.clips) {
        if (all.sessions.find(clip.session) == nullptr) {
            return missing(database, "clip", clip.id.value);
        }
    }
    for (const Shot& shot : all.shots) {
        const Reading* counting = shot.counting ? all.readings.find(*shot.counting) : nullptr;
        const bool countingIsWrong =
            shot.counting && (counting == nullptr || counting->shot != shot.id);
        if (all.clips.find(shot.clip) == nullptr || countingIsWrong ||
            (shot.cell && all.cells.find(*shot.cell) == nullptr)) {
            return missing(database, "shot", shot.id.value);
        }
    }
    for (const ShotCorrection& correction : all.corrections) {
        if (all.clips.find(correction.clip) == nullptr) {
            return missing(database, "shot correction", correction.id.value);
        }
    }
    for (const Reading& reading : all.readings) {
        if (all.shots.find(reading.shot) == nullptr) {
            return missing(database, "reading", reading.id.value);
        }
    }
    for (const SecondLook& look : all.secondLooks) {
        if (all.shots.find(look.shot) == nullptr) {
            return missing(database, "second look", look.id.value);
        }
    }
    for (const SecondReading& second : all.secondReadings) {
        if (all.shots.find(second.shot) == nullptr ||
            (second.reading && all.readings.find(*second.reading) == nullptr)) {
            return missing(database, "second reading", second.id.value);
        }
    }
    return ok();
}

/// No page is missing, and the pages hang together. What follows the last page is no part of the
/// database: a stop between the commit of a VACUUM and the shortening of the file leaves that.
Result<void> checkPages(Database& database) {
    BOOST_OUTCOME_TRY(pages, database.integer("PRAGMA page_count"));
    BOOST_OUTCOME_TRY(pageBytes, database.integer("PRAGMA page_size"));
    const auto size = static_cast<std::int64_t>(std::filesystem::file_size(database.file()));
    if (size < pages * pageBytes) {
        return fail(ErrorCode::Damaged,
                    fmt::format("{} is cut off: it has {} of {} bytes. Copy it again "
                                "or restore a backup.",
                                database.file().string(), size, pages * pageBytes));
    }
    BOOST_OUTCOME_TRY(rows, database.query("PRAGMA quick_check(1)"));
    if (rows.size() == 1 && rows.front() == Row{std::string{"ok"}}) {
        return ok();
    }
    return fail(ErrorCode::Damaged,
                fmt::format("{} is damaged ({}). Nothing was changed. Restore a copy of the file.",
                            database.file().string(),
                            rows.empty() ? std::string{"no answer"}
                                         : std::get<std::string>(rows.front().front())));
}

/// A journal that stayed behind when its project was moved would be played into the new file.
Result<void> refuseForeignJournal(const std::filesystem::path& file) {
    std::filesystem::path journal = file;
    journal += "-journal";
    if (std::filesystem::exists(journal)) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("{} belongs to a project that was moved away. Put it beside that "
                                "project again, or choose another name for the new one.",
                                journal.string()));
    }
    return ok();
}

/// Takes the name for a new project. Errors: InvalidInput when it is taken, WriteFailed.
Result<void> claimName(const std::filesystem::path& file) {
    if (std::FILE* empty = std::fopen(file.c_str(), "wbx")) {
        std::fclose(empty);
        return ok();
    }
    if (std::filesystem::exists(file)) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("{} exists already. Open it, or choose another name for the new "
                                "project.",
                                file.string()));
    }
    return fail(ErrorCode::WriteFailed,
                fmt::format("{} cannot be written. Check that the folder exists and that you may "
                            "write to it.",
                            file.string()));
}

Result<void> writeEmptyProject(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(claim, OpenFileClaim::take(file));
    BOOST_OUTCOME_TRY(database, Database::open(file));
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*database));
    BOOST_OUTCOME_TRY(database->execute(schemaSql()));
    BOOST_OUTCOME_TRY(transaction->commit());
    SqliteStore store{std::move(claim), nullptr, std::move(database), Snapshot{}};
    return store.startHistory();
}

/// Puts a finished empty project under a name that claimName() took.
Result<void> createFile(const std::filesystem::path& file) {
    std::filesystem::path part = file;
    part += ".part";
    std::error_code error;
    // Left by a program that was killed here; nobody else works on it while we hold the name.
    std::filesystem::remove(part, error);
    std::filesystem::remove(std::filesystem::path{part} += "-journal", error);
    BOOST_OUTCOME_TRY(claimName(part));
    Result<void> written = writeEmptyProject(part);
    if (written) {
        std::filesystem::rename(part, file, error);
        if (!error) {
            return ok();
        }
        written = fail(ErrorCode::WriteFailed,
                       fmt::format("{} cannot be written: {}.", file.string(), error.message()));
    }
    std::filesystem::remove(part, error);
    return written;
}

std::string readOnlyReasonOf(const std::filesystem::path& file) {
    const auto writer = WriterLock::holder(file);
    return writer ? fmt::format(
                        "{} is open to look at only: {} has it open. Close it there, then "
                        "open it here again to make changes.",
                        file.filename().string(), nameOf(*writer))
                  : fmt::format("{} is open to look at only. Open it again to make changes.",
                                file.filename().string());
}

}  // namespace

Result<void> reloadSettings(Database& database, Snapshot& snapshot) {
    snapshot.settings.clear();
    snapshot.reader.clear();
    return database.forEach(selectRows<Setting>(), {}, [&](Row row) -> Result<void> {
        BOOST_OUTCOME_TRY(setting, entityFrom<Setting>(database, std::move(row)));
        if (setting.key == "reader") {
            snapshot.reader = std::move(setting.value);
        } else {
            snapshot.settings.emplace(std::move(setting.key), std::move(setting.value));
        }
        return ok();
    });
}

Result<Snapshot> loadSnapshot(Database& database) {
    Snapshot snapshot;
    BOOST_OUTCOME_TRY(loadTable<Session>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<Implement>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<Hitter>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<Cell>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<Clip>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<Shot>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<Reading>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<ShotCorrection>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<PlanRecord>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<SecondLook>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<SecondReading>(database, snapshot));
    BOOST_OUTCOME_TRY(loadTable<ReadingEffort>(database, snapshot));
    BOOST_OUTCOME_TRY(reloadSettings(database, snapshot));
    BOOST_OUTCOME_TRY(revision, database.integer("SELECT max(id) FROM history"));
    snapshot.revision = revision;
    BOOST_OUTCOME_TRY(checkReferences(database, snapshot));
    return snapshot;
}

Result<std::unique_ptr<Store>> Store::create(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(refuseForeignJournal(file));
    BOOST_OUTCOME_TRY(claimName(file));
    if (const Result<void> created = createFile(file); !created) {
        std::error_code ignored;  // the empty file that held the name; the failure is told already
        std::filesystem::remove(file, ignored);
        return created.error();
    }
    return open(file);
}

Result<std::unique_ptr<Store>> Store::open(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(claim, OpenFileClaim::take(file));
    BOOST_OUTCOME_TRY(checkFileHeader(file));
    BOOST_OUTCOME_TRY(lock, WriterLock::take(file));
    BOOST_OUTCOME_TRY(database, Database::open(file));
    BOOST_OUTCOME_TRY(checkPages(*database));
    BOOST_OUTCOME_TRY(migrate(*database, migrations(), kSchemaVersion));
    BOOST_OUTCOME_TRY(snapshot, loadSnapshot(*database));
    return std::unique_ptr<Store>{std::make_unique<SqliteStore>(
        std::move(claim), std::move(lock), std::move(database), std::move(snapshot))};
}

Result<std::unique_ptr<Store>> Store::openReadOnly(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(claim, OpenFileClaim::take(file));
    BOOST_OUTCOME_TRY(version, checkFileHeader(file));
    if (version < kSchemaVersion) {
        return fail(ErrorCode::Unsupported,
                    fmt::format("{} has the older format {}. It is brought up to date when it is "
                                "opened for writing.",
                                file.string(), version));
    }
    BOOST_OUTCOME_TRY(database, Database::openToRead(file, readOnlyReasonOf(file)));
    // One moment of the file: its writer waits this long before it goes on.
    BOOST_OUTCOME_TRY(database->execute("BEGIN"));
    BOOST_OUTCOME_TRY(checkPages(*database));
    BOOST_OUTCOME_TRY(snapshot, loadSnapshot(*database));
    Database& shared = *database;
    auto store = std::make_unique<SqliteStore>(std::move(claim), nullptr, std::move(database),
                                               std::move(snapshot));
    BOOST_OUTCOME_TRY(shared.execute("COMMIT"));
    return std::unique_ptr<Store>{std::move(store)};
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
