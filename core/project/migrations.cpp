#include "core/project/migrations.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/project/schema.h"

namespace core::project {
namespace {

/// A copy by SQLite itself: opening the file a second time to copy its bytes would drop the lock on
/// it (see OpenFileClaim). VACUUM INTO refuses to overwrite.
Result<void> copyBeside(Database& database, std::int64_t version) {
    const std::filesystem::path copy = backupName(database.file(), version);
    if (std::filesystem::exists(copy)) {
        return fail(ErrorCode::WriteFailed,
                    fmt::format("{} must be brought to the present format, and the copy to be made "
                                "first, {}, exists already. Move that file away and open the "
                                "project again.",
                                database.file().string(), copy.string()));
    }
    return database.run("VACUUM INTO ?", {copy.string()});
}

Result<void> runSteps(Database& database, std::span<const Migration> steps, std::int64_t version,
                      std::int64_t target) {
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(database));
    for (std::int64_t now = version; now < target; ++now) {
        const auto step = std::find_if(steps.begin(), steps.end(),
                                       [now](const Migration& each) { return each.from == now; });
        if (step == steps.end()) {
            return fail(ErrorCode::Unsupported,
                        fmt::format("{} has format {}, from which this program knows no way to "
                                    "format {}.",
                                    database.file().string(), now, now + 1));
        }
        BOOST_OUTCOME_TRY(step->run(database));
    }
    BOOST_OUTCOME_TRY(database.execute(fmt::format("PRAGMA user_version = {}", target)));
    return transaction->commit();
}

}  // namespace

const std::vector<Migration>& migrations() {
    static const std::vector<Migration> kSteps{
        {1, [](Database& database) { return database.execute(formatTwoTablesSql()); }},
        {2, [](Database& database) { return database.execute(formatThreeTablesSql()); }},
        {3, [](Database& database) { return database.execute(formatFourTablesSql()); }}};
    return kSteps;
}

std::filesystem::path backupName(const std::filesystem::path& file, std::int64_t version) {
    return file.parent_path() / fmt::format("{} (format {}){}", file.stem().string(), version,
                                            file.extension().string());
}

Result<void> migrate(Database& database, std::span<const Migration> steps, std::int64_t target) {
    BOOST_OUTCOME_TRY(version, database.integer("PRAGMA user_version"));
    if (version == target) {
        return ok();
    }
    BOOST_OUTCOME_TRY(copyBeside(database, version));
    const Result<void> done = runSteps(database, steps, version, target);
    if (!done) {
        std::error_code ignored;  // a copy that stays only makes the next attempt say so
        std::filesystem::remove(backupName(database.file(), version), ignored);
    }
    return done;
}

}  // namespace core::project
