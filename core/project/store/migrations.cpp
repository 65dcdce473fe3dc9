#include "core/project/store/migrations.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <set>

#include "core/base/files.h"
#include "core/base/words.h"
#include "core/project/file/changeset.h"
#include "core/project/json_parts.h"
#include "core/project/store/kinds.h"

namespace core::project {
namespace {

bool haveSameBytes(const std::filesystem::path& one, const std::filesystem::path& other) {
    std::ifstream first{one, std::ios::binary};
    std::ifstream second{other, std::ios::binary};
    using Bytes = std::istreambuf_iterator<char>;
    return first && second && std::equal(Bytes{first}, {}, Bytes{second}, {});
}

/// A copy by SQLite itself: opening the file a second time to copy its bytes would drop the lock on
/// it (see OpenFileClaim). One that an attempt made which was stopped then is the same, and serves.
Result<void> copyBeside(Database& database, std::int64_t version) {
    const std::filesystem::path copy = backupName(database.file(), version);
    BOOST_OUTCOME_TRY(staging, StagingFolder::beside(copy));
    const std::filesystem::path ready = staging.path() / "copy";
    BOOST_OUTCOME_TRY(database.run("VACUUM INTO ?", {ready.string()}));
    if (!std::filesystem::exists(copy)) {
        return moveToPlace(ready, copy);
    }
    if (haveSameBytes(ready, copy)) {
        return ok();
    }
    return fail(ErrorCode::WriteFailed,
                said("{} must be brought to the present format, and the copy to be made "
                     "first, {}, exists already. Move that file away and open the project "
                     "again.",
                     database.file().string(), copy.string()));
}

Result<void> runSteps(Database& database, std::span<const Migration> steps, std::int64_t version,
                      std::int64_t target, const SoundnessCheck& isSound) {
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(database));
    for (std::int64_t now = version; now < target; ++now) {
        const auto step = std::find_if(steps.begin(), steps.end(),
                                       [now](const Migration& each) { return each.from == now; });
        if (step == steps.end()) {
            return fail(ErrorCode::Unsupported,
                        said("{} has format {}, from which this program knows no way to "
                             "format {}.",
                             database.file().string(), now, now + 1));
        }
        BOOST_OUTCOME_TRY(step->run(database));
    }
    BOOST_OUTCOME_TRY(database.execute(fmt::format("PRAGMA user_version = {}", target)));
    BOOST_OUTCOME_TRY(isSound(database));
    return transaction->commit();
}

/// Lets go of the steps that describe rows of a table as it was, and of those that can be undone or
/// redone only together with them.
Result<void> dropStepsOn(Database& database, const std::string& table) {
    BOOST_OUTCOME_TRY(done, database.integer("SELECT last_done_step_id FROM undo_position"));
    BOOST_OUTCOME_TRY(steps, database.query("SELECT id, changeset FROM undo_step ORDER BY id"));
    std::int64_t lastBefore = 0;
    for (const Row& step : steps) {
        const auto id = std::get<std::int64_t>(step[0]);
        const auto touched = touchedRows(database, std::get<Blob>(step[1]));
        if (touched && !touched.value().contains(table)) {
            continue;
        }
        if (id > done) {
            BOOST_OUTCOME_TRY(database.run("DELETE FROM undo_step WHERE id >= ?", {id}));
            break;
        }
        lastBefore = id;
    }
    BOOST_OUTCOME_TRY(database.run("DELETE FROM undo_step WHERE id <= ?", {lastBefore}));
    if (lastBefore < done) {
        return ok();
    }
    return database.run(
        "UPDATE undo_position SET last_done_step_id = ?2, row_check = ?3 "
        "WHERE id = ?1",
        sealed({std::int64_t{1}, std::int64_t{0}}));
}

/// What the columns of format 5 hold: the facts and the remarks on the clock were remarks among
/// others in format 4.
Result<Row> clipOfFormatFive(Row clip) {
    constexpr std::array kOnTheClock{"no_evidence",    "nominal_against_exact", "not_whole_stretch",
                                     "check_decided",  "faster_than_captured",  "stamps_not_used",
                                     "clock_unsettled"};
    struct Split {
        Json remarks = Json::array();
        Json onTheClock = Json::array();
        Value lens;
        bool wasSearched{};
    };
    BOOST_OUTCOME_TRY(split, parsed<Split>(std::get<std::string>(clip.back()), [&](Json all) {
                          Split of;
                          for (Json& remark : all) {
                              const auto kind = remark.at("kind").get<std::string>();
                              if (kind == "lens" && remark.contains("value")) {
                                  of.lens = remark.at("value").get<double>();
                                  remark.erase("value");
                              }
                              const bool isOnTheClock =
                                  std::count(kOnTheClock.begin(), kOnTheClock.end(), kind) > 0;
                              if (kind == "shots_searched") {
                                  of.wasSearched = true;
                              } else {
                                  (isOnTheClock ? of.onTheClock : of.remarks).push_back(remark);
                              }
                          }
                          return of;
                      }));
    clip.back() = split.remarks.dump();
    clip.emplace_back(split.onTheClock.dump());
    clip.push_back(split.lens);
    clip.emplace_back(std::int64_t{split.wasSearched ? 1 : 0});
    return clip;
}

/// From format 4 to 5 (FORMAT.md R33).
Result<void> giveClipsTheirFacts(Database& database) {
    BOOST_OUTCOME_TRY(clips, database.query("SELECT * FROM clip"));
    BOOST_OUTCOME_TRY(dropStepsOn(database, "clip"));
    BOOST_OUTCOME_TRY(database.execute(
        "ALTER TABLE clip DROP COLUMN row_check;"
        "ALTER TABLE clip ADD COLUMN clock_remarks_json TEXT NOT NULL DEFAULT '[]';"
        "ALTER TABLE clip ADD COLUMN lens_focal_length_mm REAL CHECK (lens_focal_length_mm > 0);"
        "ALTER TABLE clip ADD COLUMN was_searched INTEGER NOT NULL DEFAULT 0 "
        "CHECK (was_searched IN (0, 1));"
        "ALTER TABLE clip ADD COLUMN row_check INTEGER NOT NULL DEFAULT 0;"));
    for (Row& clip : clips) {
        BOOST_OUTCOME_TRY(old, unsealed(std::move(clip)));
        BOOST_OUTCOME_TRY(row, clipOfFormatFive(std::move(old)));
        const Row whole = sealed(row);
        const std::size_t first = whole.size() - 5;
        BOOST_OUTCOME_TRY(database.run(
            "UPDATE clip SET remarks_json = ?, clock_remarks_json = ?, lens_focal_length_mm = ?, "
            "was_searched = ?, row_check = ? WHERE id = ?",
            {whole[first], whole[first + 1], whole[first + 2], whole[first + 3], whole[first + 4],
             whole[0]}));
    }
    return ok();
}

/// Relative standard uncertainty from the line of sight of a reading by marks whose returns say
/// their turns; NULL for any other.
Result<Value> viewPartOf(const std::string& inputs) {
    return parsed<Value>(inputs, [](const Json& json) -> Value {
        const Json context = json.value("context", Json::object());
        const Json sight = context.value("line_of_sight", Json::object());
        const Json marks = json.value("marks", Json::object());
        double turns = 0.0;
        for (const Json& mark : marks.value("returns", Json::array())) {
            turns = std::max(turns, mark.value("turns", 0.0));
        }
        const std::string kind = sight.value("kind", "");
        if (!(turns > 0.0) || (kind != "contribution" && kind != "corrected")) {
            return {};
        }
        // A contribution is rectangular within its angle, a correction has a sigma.
        const double sigma = kind == "corrected" ? sight.value("sigma_rad", 0.0)
                                                 : sight.value("angle_rad", 0.0) / std::sqrt(3.0);
        return std::abs(sigma) / (2.0 * kPi * turns);
    });
}

/// From format 5 to 6 (FORMAT.md R34).
Result<void> giveReadingsTheirSharedParts(Database& database) {
    BOOST_OUTCOME_TRY(readings, database.query("SELECT * FROM reading"));
    BOOST_OUTCOME_TRY(counts, database.query("SELECT r.id FROM reading r JOIN shot s ON "
                                             "r.shot_id = s.id JOIN clip c ON s.clip_id = c.id "
                                             "WHERE c.container = 'tally'"));
    std::set<std::int64_t> counted;
    for (const Row& row : counts) {
        counted.insert(std::get<std::int64_t>(row[0]));
    }
    BOOST_OUTCOME_TRY(dropStepsOn(database, "reading"));
    BOOST_OUTCOME_TRY(
        database.execute("DROP TRIGGER reading_never_changes;"
                         "ALTER TABLE reading DROP COLUMN row_check;"
                         "ALTER TABLE reading ADD COLUMN counting_habit TEXT "
                         "CHECK (counting_habit IN ('nearest', 'both', 'after', 'unknown'));"
                         "ALTER TABLE reading ADD COLUMN view_relative_sigma REAL "
                         "CHECK (view_relative_sigma >= 0);"
                         "ALTER TABLE reading ADD COLUMN row_check INTEGER NOT NULL DEFAULT 0;"));
    for (Row& reading : readings) {
        BOOST_OUTCOME_TRY(row, unsealed(std::move(reading)));
        const auto id = std::get<std::int64_t>(row.front());
        const auto view = viewPartOf(std::get<std::string>(row.back()));
        row.push_back(counted.contains(id) ? Value{std::string{"unknown"}} : Value{});
        row.push_back(view ? view.value() : Value{});  // inputs of another form say nothing
        const Row whole = sealed(row);
        const std::size_t first = whole.size() - 3;
        BOOST_OUTCOME_TRY(database.run(
            "UPDATE reading SET counting_habit = ?, view_relative_sigma = ?, row_check = ? "
            "WHERE id = ?",
            {whole[first], whole[first + 1], whole[first + 2], id}));
    }
    return database.execute(
        "CREATE TRIGGER reading_never_changes BEFORE UPDATE ON reading\n"
        "BEGIN SELECT RAISE(ABORT, 'a reading is never changed'); END;");
}

/// Adds columns at the end of the rows of a table, before their check numbers.
Result<void> widen(Database& database, const std::string& table, const std::string& columns,
                   const Row& values) {
    BOOST_OUTCOME_TRY(rows, database.query(fmt::format("SELECT * FROM {}", table)));
    BOOST_OUTCOME_TRY(database.execute(
        fmt::format("ALTER TABLE {0} DROP COLUMN row_check; {1}"
                    "ALTER TABLE {0} ADD COLUMN row_check INTEGER NOT NULL DEFAULT 0;",
                    table, columns)));
    for (Row& old : rows) {
        BOOST_OUTCOME_TRY(row, unsealed(std::move(old)));
        row.insert(row.end(), values.begin(), values.end());
        const Value id = row.front();
        BOOST_OUTCOME_TRY(
            database.run(fmt::format("UPDATE {} SET row_check = ? WHERE id = ?", table),
                         {sealed(std::move(row)).back(), id}));
    }
    return ok();
}

/// From format 6 to 7 (FORMAT.md R35).
Result<void> giveShotsNotesAndStrokes(Database& database) {
    for (const char* table : {"session", "clip", "shot"}) {
        BOOST_OUTCOME_TRY(dropStepsOn(database, table));
    }
    BOOST_OUTCOME_TRY(
        widen(database, "session",
              "ALTER TABLE session ADD COLUMN stroke TEXT NOT NULL DEFAULT 'not_known' "
              "CHECK (stroke IN ('not_known', 'topspin', 'backspin'));",
              {std::string{"not_known"}}));
    BOOST_OUTCOME_TRY(widen(database, "clip",
                            "ALTER TABLE clip ADD COLUMN turned_deg INTEGER NOT NULL DEFAULT 0 "
                            "CHECK (turned_deg IN (0, 90, 180, 270));",
                            {std::int64_t{0}}));
    return widen(database, "shot",
                 "ALTER TABLE shot ADD COLUMN note TEXT NOT NULL DEFAULT '';"
                 "ALTER TABLE shot ADD COLUMN stroke TEXT "
                 "CHECK (stroke IN ('not_known', 'topspin', 'backspin'));",
                 {std::string{}, Value{}});
}

}  // namespace

const std::vector<Migration>& migrations() {
    static const std::vector<Migration> kSteps{
        {1, [](Database& database) { return database.execute(tablesOfFormat(2)); }},
        {2, [](Database& database) { return database.execute(tablesOfFormat(3)); }},
        {3, [](Database& database) { return database.execute(tablesOfFormat(4)); }},
        {4, giveClipsTheirFacts},
        {5, giveReadingsTheirSharedParts},
        {6, giveShotsNotesAndStrokes}};
    return kSteps;
}

std::filesystem::path backupName(const std::filesystem::path& file, std::int64_t version) {
    return file.parent_path() / fmt::format("{} (format {}){}", file.stem().string(), version,
                                            file.extension().string());
}

Result<void> migrate(Database& database, std::span<const Migration> steps, std::int64_t target,
                     const SoundnessCheck& isSound) {
    BOOST_OUTCOME_TRY(version, database.integer("PRAGMA user_version"));
    if (version == target) {
        return ok();
    }
    BOOST_OUTCOME_TRY(copyBeside(database, version));
    Result<void> done = runSteps(database, steps, version, target, isSound);
    if (!done) {
        std::error_code ignored;  // a copy that stays only makes the next attempt say so
        std::filesystem::remove(backupName(database.file(), version), ignored);
    }
    return done;
}

}  // namespace core::project
