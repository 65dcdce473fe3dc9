#include "core/project/store/kinds.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "core/base/expects.h"
#include "core/project/file/schema.h"
#include "core/project/text.h"

namespace core::project {
namespace {

// FORMAT.md R10 to R33 explain the columns. Only values that never change carry UNIQUE: a changeset
// that swaps two unique values could not be applied row by row.

constexpr const char* kSettingTable = R"(
CREATE TABLE setting (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    value TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kSessionTable = R"(
CREATE TABLE session (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL CHECK (name <> ''),
    date TEXT NOT NULL CHECK (date = '' OR date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    marking TEXT NOT NULL
        CHECK (marking IN ('three_quarter_dark', 'half_dark', 'band', 'band_with_dot', 'other')),
    ball_diameter_mm REAL CHECK (ball_diameter_mm > 0),
    field_of_view_deg REAL CHECK (field_of_view_deg > 0 AND field_of_view_deg < 180),
    exposure_s REAL CHECK (exposure_s > 0),
    readout_s REAL CHECK (readout_s >= 0),
    note TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kImplementTable = R"(
CREATE TABLE implement (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL CHECK (name <> ''),
    condition TEXT NOT NULL,
    attributes_json TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kHitterTable = R"(
CREATE TABLE hitter (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL CHECK (name <> ''),
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kCellTable = R"(
CREATE TABLE cell (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    session_id INTEGER NOT NULL REFERENCES session (id) DEFERRABLE INITIALLY DEFERRED,
    implement_id INTEGER NOT NULL REFERENCES implement (id) DEFERRABLE INITIALLY DEFERRED,
    hitter_id INTEGER NOT NULL REFERENCES hitter (id) DEFERRABLE INITIALLY DEFERRED,
    row_check INTEGER NOT NULL,
    UNIQUE (session_id, implement_id, hitter_id)
) STRICT;
)";

constexpr const char* kClipTable = R"(
CREATE TABLE clip (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    session_id INTEGER NOT NULL REFERENCES session (id) DEFERRABLE INITIALLY DEFERRED,
    path TEXT NOT NULL CHECK (path <> ''),
    size_bytes INTEGER NOT NULL CHECK (size_bytes >= 0),
    fingerprint TEXT NOT NULL UNIQUE CHECK (fingerprint <> ''),
    frame_count INTEGER NOT NULL CHECK (frame_count > 0),
    width_px INTEGER NOT NULL CHECK (width_px > 0),
    height_px INTEGER NOT NULL CHECK (height_px > 0),
    rotation_deg INTEGER NOT NULL CHECK (rotation_deg IN (0, 90, 180, 270)),
    codec TEXT NOT NULL,
    container TEXT NOT NULL,
    has_sound INTEGER NOT NULL CHECK (has_sound IN (0, 1)),
    playback_rate_num INTEGER CHECK (playback_rate_num > 0),
    playback_rate_den INTEGER CHECK (playback_rate_den > 0),
    evidence_json TEXT NOT NULL,
    clock_kind TEXT CHECK (clock_kind IN ('stamped', 'stretched', 'counted')),
    clock_stretch_num INTEGER CHECK (clock_stretch_num > 0),
    clock_stretch_den INTEGER CHECK (clock_stretch_den > 0),
    clock_counted_num INTEGER CHECK (clock_counted_num > 0),
    clock_counted_den INTEGER CHECK (clock_counted_den > 0),
    clock_relative_sigma REAL CHECK (clock_relative_sigma >= 0),
    remarks_json TEXT NOT NULL,
    clock_remarks_json TEXT NOT NULL,
    lens_focal_length_mm REAL CHECK (lens_focal_length_mm > 0),
    was_searched INTEGER NOT NULL CHECK (was_searched IN (0, 1)),
    row_check INTEGER NOT NULL,
    CHECK ((playback_rate_num IS NULL) = (playback_rate_den IS NULL)),
    CHECK ((clock_kind IS NULL) = (clock_stretch_num IS NULL)),
    CHECK ((clock_kind IS NULL) = (clock_stretch_den IS NULL)),
    CHECK ((clock_kind IS NULL) = (clock_relative_sigma IS NULL)),
    CHECK ((clock_kind IS 'counted') = (clock_counted_num IS NOT NULL)),
    CHECK ((clock_counted_num IS NULL) = (clock_counted_den IS NULL))
) STRICT;
)";

constexpr const char* kClipFramesTable = R"(
CREATE TABLE clip_frames (
    clip_id INTEGER PRIMARY KEY REFERENCES clip (id) DEFERRABLE INITIALLY DEFERRED,
    time_base_num INTEGER NOT NULL CHECK (time_base_num > 0),
    time_base_den INTEGER NOT NULL CHECK (time_base_den > 0),
    ticks BLOB NOT NULL CHECK (length(ticks) > 0 AND length(ticks) % 8 = 0),
    is_key BLOB NOT NULL CHECK (length(is_key) * 8 = length(ticks)),
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kShotTable = R"(
CREATE TABLE shot (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    clip_id INTEGER NOT NULL REFERENCES clip (id) DEFERRABLE INITIALLY DEFERRED,
    cell_id INTEGER REFERENCES cell (id) DEFERRABLE INITIALLY DEFERRED,
    ordinal INTEGER NOT NULL CHECK (ordinal > 0),
    first_frame INTEGER NOT NULL CHECK (first_frame >= 0),
    last_frame INTEGER NOT NULL,
    strike_frame INTEGER CHECK (strike_frame >= 0),
    clicks_json TEXT NOT NULL,
    marks_json TEXT NOT NULL,
    standing TEXT NOT NULL CHECK (standing IN ('open', 'kept', 'set_aside')),
    reason TEXT NOT NULL,
    doubtful INTEGER NOT NULL CHECK (doubtful IN (0, 1)),
    counting_reading_id INTEGER,
    row_check INTEGER NOT NULL,
    CHECK (first_frame <= last_frame),
    CHECK ((standing = 'set_aside') = (reason <> '')),
    CHECK (standing <> 'kept' OR counting_reading_id IS NOT NULL),
    CHECK (standing <> 'open' OR counting_reading_id IS NULL),
    FOREIGN KEY (counting_reading_id, id) REFERENCES reading (id, shot_id)
        DEFERRABLE INITIALLY DEFERRED
) STRICT;
CREATE INDEX shot_by_clip ON shot (clip_id);
)";

constexpr const char* kReadingTable = R"(
CREATE TABLE reading (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    shot_id INTEGER NOT NULL REFERENCES shot (id) DEFERRABLE INITIALLY DEFERRED,
    method TEXT NOT NULL CHECK (method IN ('marks', 'rotation_fit')),
    method_version TEXT NOT NULL,
    reader TEXT NOT NULL,
    made_at TEXT NOT NULL,
    rate_rpm REAL NOT NULL,
    rate_sigma_rpm REAL NOT NULL CHECK (rate_sigma_rpm >= 0),
    interval95_low_rpm REAL NOT NULL,
    interval95_high_rpm REAL NOT NULL,
    bounds_low_rpm REAL,
    bounds_high_rpm REAL,
    clock_relative_sigma REAL NOT NULL CHECK (clock_relative_sigma >= 0),
    inputs_json TEXT NOT NULL,
    counting_habit TEXT CHECK (counting_habit IN ('nearest', 'both', 'after', 'unknown')),
    view_relative_sigma REAL CHECK (view_relative_sigma >= 0),
    row_check INTEGER NOT NULL,
    UNIQUE (id, shot_id),
    CHECK (interval95_low_rpm <= interval95_high_rpm),
    CHECK ((bounds_low_rpm IS NULL) = (bounds_high_rpm IS NULL)),
    CHECK (bounds_low_rpm IS NULL OR bounds_low_rpm <= bounds_high_rpm)
) STRICT;
CREATE INDEX reading_by_shot ON reading (shot_id);
CREATE TRIGGER reading_never_changes BEFORE UPDATE ON reading
BEGIN SELECT RAISE(ABORT, 'a reading is never changed'); END;
)";

constexpr const char* kHistoryTable = R"(
CREATE TABLE history (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    reader TEXT NOT NULL,
    what TEXT NOT NULL CHECK (what <> ''),
    row_check INTEGER NOT NULL
) STRICT;
CREATE TRIGGER history_never_changes BEFORE UPDATE ON history
BEGIN SELECT RAISE(ABORT, 'the history is never changed'); END;
CREATE TRIGGER history_is_never_shortened BEFORE DELETE ON history
BEGIN SELECT RAISE(ABORT, 'the history is never shortened'); END;
)";

constexpr const char* kHistoryShotTable = R"(
CREATE TABLE history_shot (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    history_id INTEGER NOT NULL REFERENCES history (id),
    shot_id INTEGER NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
CREATE INDEX history_shot_by_history ON history_shot (history_id);
CREATE INDEX history_shot_by_shot ON history_shot (shot_id);
CREATE TRIGGER history_shot_never_changes BEFORE UPDATE ON history_shot
BEGIN SELECT RAISE(ABORT, 'the history is never changed'); END;
CREATE TRIGGER history_shot_is_never_shortened BEFORE DELETE ON history_shot
BEGIN SELECT RAISE(ABORT, 'the history is never shortened'); END;
)";

constexpr const char* kUndoStepTable = R"(
CREATE TABLE undo_step (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    history_id INTEGER NOT NULL REFERENCES history (id),
    changeset BLOB NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kUndoPositionTable = R"(
CREATE TABLE undo_position (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    last_done_step_id INTEGER NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kPlanTable = R"(
CREATE TABLE plan (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    plan_json TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kPictureArchiveTable = R"(
CREATE TABLE picture_archive (
    shot_id INTEGER PRIMARY KEY,
    archive_key TEXT NOT NULL,
    archive BLOB NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kSecondLookTable = R"(
CREATE TABLE second_look (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    shot_id INTEGER NOT NULL REFERENCES shot (id) DEFERRABLE INITIALLY DEFERRED,
    reasons TEXT NOT NULL,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kSecondReadingTable = R"(
CREATE TABLE second_reading (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    shot_id INTEGER NOT NULL REFERENCES shot (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL CHECK (position > 0),
    marks_json TEXT NOT NULL,
    reading_id INTEGER REFERENCES reading (id) DEFERRABLE INITIALLY DEFERRED,
    row_check INTEGER NOT NULL
) STRICT;
)";

constexpr const char* kEvidenceTable = R"(
CREATE TABLE evidence (
    shot_id INTEGER PRIMARY KEY,
    made_at TEXT NOT NULL,
    codec TEXT NOT NULL,
    first_frame INTEGER NOT NULL,
    last_frame INTEGER NOT NULL,
    pictures_json TEXT NOT NULL,
    pictures BLOB NOT NULL,
    row_check INTEGER NOT NULL,
    CHECK (first_frame <= last_frame)
) STRICT;
)";

constexpr const char* kShotCorrectionTable = R"(
CREATE TABLE shot_correction (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    clip_id INTEGER NOT NULL REFERENCES clip (id) DEFERRABLE INITIALLY DEFERRED,
    shot_id INTEGER NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('by_hand', 'moved', 'dropped')),
    first_frame INTEGER NOT NULL CHECK (first_frame >= 0),
    last_frame INTEGER NOT NULL,
    row_check INTEGER NOT NULL,
    CHECK (first_frame <= last_frame)
) STRICT;
CREATE INDEX shot_correction_by_clip ON shot_correction (clip_id);
)";

constexpr const char* kReadingEffortTable = R"(
CREATE TABLE reading_effort (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    shot_id INTEGER NOT NULL,
    reader TEXT NOT NULL,
    began_at TEXT NOT NULL,
    keys INTEGER NOT NULL CHECK (keys >= 0),
    clicks INTEGER NOT NULL CHECK (clicks >= 0),
    active_seconds REAL NOT NULL CHECK (active_seconds >= 0),
    names_hidden INTEGER NOT NULL CHECK (names_hidden IN (0, 1)),
    outcome TEXT NOT NULL CHECK (outcome IN ('kept', 'set_aside', 'left')),
    row_check INTEGER NOT NULL
) STRICT;
)";

enum class Undo { No, Yes };

/// A kind whose rows are not in the snapshot.
template <class Entity>
Kind apart(const char* table, std::int64_t format, Undo undo, const char* schema) {
    const auto faultOf = [](Row row) {
        Fields from{std::move(row)};
        Entity entity;
        fields(from, entity);
        const std::string* fault = from.fault();
        return fault != nullptr ? *fault : std::string{};
    };
    return {.type = &typeid(Entity),
            .table = table,
            .format = format,
            .isUndoable = undo == Undo::Yes,
            .schema = schema,
            .columns = written(Entity{}).columns(),
            .faultOf = faultOf};
}

template <class Entity>
Result<void> load(Database& database, const std::set<std::int64_t>* ids, Snapshot& snapshot) {
    Entities<Entity>& table = snapshot.of<Entity>();
    if (ids == nullptr) {
        BOOST_OUTCOME_TRY(all, select<Entity>(database, " ORDER BY id"));
        table = Entities<Entity>{std::move(all)};
        return ok();
    }
    std::vector<Entity> present;
    std::vector<Id<Entity>> gone;
    for (const std::int64_t id : *ids) {
        BOOST_OUTCOME_TRY(found, select<Entity>(database, " WHERE id = ?", {id}));
        if (found.empty()) {
            gone.push_back({id});
        } else {
            present.push_back(std::move(found.front()));
        }
    }
    table = table.changed(std::move(present), std::move(gone));
    return ok();
}

template <class Entity>
std::optional<std::pair<std::int64_t, std::string>> dangling(const Snapshot& snapshot) {
    for (const Entity& entity : snapshot.of<Entity>()) {
        Fields check{snapshot};
        fields(check, const_cast<Entity&>(entity));  // changes members only while it reads
        if (const std::string* fault = check.fault()) {
            return std::pair{entity.id.value, *fault};
        }
    }
    return std::nullopt;
}

template <class Entity>
void tell(const std::set<std::int64_t>& ids, Store::Change& change) {
    for (const std::int64_t id : ids) {
        change.of<Entity>().push_back({id});
    }
}

template <class Entity>
Kind inSnapshot(const char* table, std::int64_t format, Undo undo, const char* schema) {
    Kind kind = apart<Entity>(table, format, undo, schema);
    kind.load = load<Entity>;
    kind.dangling = dangling<Entity>;
    kind.tell = tell<Entity>;
    kind.addIds = [](const Snapshot& snapshot, std::set<std::int64_t>& ids) {
        for (const Entity& entity : snapshot.of<Entity>()) {
            ids.insert(entity.id.value);
        }
    };
    return kind;
}

/// Settings are few and read anew as a whole.
Kind settings() {
    Kind kind = apart<Setting>("setting", 1, Undo::Yes, kSettingTable);
    kind.load = [](Database& database, const std::set<std::int64_t>* /*ids*/,
                   Snapshot& snapshot) -> Result<void> {
        BOOST_OUTCOME_TRY(all, select<Setting>(database));
        snapshot.settings.clear();
        snapshot.reader.clear();
        for (Setting& setting : all) {
            (setting.key == "reader" ? snapshot.reader : snapshot.settings[setting.key]) =
                std::move(setting.value);
        }
        return ok();
    };
    kind.tell = [](const std::set<std::int64_t>& /*ids*/, Store::Change& change) {
        change.settings = true;
    };
    return kind;
}

template <class Predicate>
const Kind& kindThat(Predicate predicate) {
    const auto at = std::find_if(kinds().begin(), kinds().end(), predicate);
    CORE_EXPECTS(at != kinds().end());
    return *at;
}

/// Rows that vanish with a damaged page leave rows that refer to nothing.
Result<void> checkReferences(const Database& database, const Snapshot& all) {
    for (const Kind& kind : kinds()) {
        const auto fault = kind.dangling != nullptr ? kind.dangling(all) : std::nullopt;
        if (fault) {
            return kind.damaged(database, fault->first, fault->second);
        }
    }
    for (const Shot& shot : all.shots) {
        const Reading* counting = shot.counting ? all.readings.find(*shot.counting) : nullptr;
        if (counting != nullptr && counting->shot != shot.id) {
            return kindOf<Shot>().damaged(database, shot.id.value,
                                          "the reading that counts is of another shot");
        }
    }
    return ok();
}

}  // namespace

const std::vector<Kind>& kinds() {
    static const std::vector<Kind> kKinds{
        settings(),
        inSnapshot<Session>("session", 1, Undo::Yes, kSessionTable),
        inSnapshot<Implement>("implement", 1, Undo::Yes, kImplementTable),
        inSnapshot<Hitter>("hitter", 1, Undo::Yes, kHitterTable),
        inSnapshot<Cell>("cell", 1, Undo::Yes, kCellTable),
        inSnapshot<Clip>("clip", 1, Undo::Yes, kClipTable),
        apart<FramesOfClip>("clip_frames", 1, Undo::Yes, kClipFramesTable),
        inSnapshot<Shot>("shot", 1, Undo::Yes, kShotTable),
        inSnapshot<Reading>("reading", 1, Undo::Yes, kReadingTable),
        inSnapshot<PlanRecord>("plan", 2, Undo::Yes, kPlanTable),
        apart<ArchiveOfShot>("picture_archive", 2, Undo::No, kPictureArchiveTable),
        inSnapshot<ShotCorrection>("shot_correction", 3, Undo::Yes, kShotCorrectionTable),
        inSnapshot<SecondLook>("second_look", 3, Undo::Yes, kSecondLookTable),
        inSnapshot<SecondReading>("second_reading", 3, Undo::Yes, kSecondReadingTable),
        apart<PicturesOfShot>("evidence", 3, Undo::No, kEvidenceTable),
        inSnapshot<ReadingEffort>("reading_effort", 4, Undo::No, kReadingEffortTable),
        apart<HistoryEntry>("history", 1, Undo::No, kHistoryTable),
        apart<HistoryLink>("history_shot", 1, Undo::No, kHistoryShotTable),
        apart<UndoStep>("undo_step", 1, Undo::No, kUndoStepTable),
        apart<UndoPosition>("undo_position", 1, Undo::No, kUndoPositionTable),
    };
    return kKinds;
}

const Kind& kindOf(const std::type_info& type) {
    return kindThat([&type](const Kind& kind) { return *kind.type == type; });
}

const Kind& kindOfTable(const std::string& table) {
    return kindThat([&table](const Kind& kind) { return kind.table == table; });
}

std::string tablesOfFormat(std::int64_t format) {
    std::string sql;
    for (const Kind& kind : kinds()) {
        sql += kind.format == format ? kind.schema : std::string{};
    }
    return sql;
}

std::string schemaSql() {
    std::string sql = fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {};",
                                  kApplicationId, kSchemaVersion);
    for (const Kind& kind : kinds()) {
        sql += kind.schema;
    }
    return sql;
}

std::vector<std::string> undoableTables() {
    std::vector<std::string> tables;
    for (const Kind& kind : kinds()) {
        if (kind.isUndoable) {
            tables.push_back(kind.table);
        }
    }
    return tables;
}

std::string Kind::name() const {
    std::string words = table;
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

bool Kind::countsIds() const {
    return schema.find("AUTOINCREMENT") != std::string::npos;
}

Error Kind::damaged(const Database& database, std::int64_t row, const std::string& why) const {
    return {ErrorCode::Damaged,
            fmt::format("{} is damaged: table {}, row {}: {}. Nothing was changed. Restore a copy "
                        "of the file.",
                        database.file().string(), table, row, why)};
}

Error Kind::missing(std::int64_t id) const {
    return {ErrorCode::NotFound,
            fmt::format("There is no {} number {} in the project.", name(), id)};
}

Result<void> Kind::forEach(Database& database, const std::string& condition, const Row& parameters,
                           const std::function<Result<void>(Row)>& use) const {
    return database.forEach(
        fmt::format("SELECT {}, row_check FROM {}{}", fmt::join(columns, ", "), table, condition),
        parameters, [&](Row row) -> Result<void> {
            const auto* id = std::get_if<std::int64_t>(&row.front());
            const std::int64_t number = id != nullptr ? *id : 0;
            Result<Row> plain = unsealed(std::move(row));
            const Result<void> used = plain ? use(std::move(plain).value()) : plain.error();
            if (!used) {
                return damaged(database, number, used.error().message);
            }
            return ok();
        });
}

Result<Row> Kind::sealedRow(Fields written) const {
    if (const std::string* fault = written.fault()) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("A text of the {} is not valid UTF-8: {}", name(), *fault));
    }
    Row& row = written.row();
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (const auto* number = std::get_if<double>(&row[i]);
            number != nullptr && !std::isfinite(*number)) {
            return fail(
                ErrorCode::NotFinite,
                fmt::format("The value {} of the {} is not a finite number.", columns[i], name()));
        }
        if (const auto* text = std::get_if<std::string>(&row[i]);
            text != nullptr && !isPlainText(*text)) {
            return fail(ErrorCode::InvalidInput,
                        fmt::format("The text {} of the {} is not valid UTF-8 or has a character "
                                    "with the code 0. Type it again.",
                                    columns[i], name()));
        }
    }
    if (const std::string fault = faultOf(row); !fault.empty()) {  // numbers within a JSON text
        return fail(
            ErrorCode::NotFinite,
            fmt::format("A number of the {} is not finite or out of range: {}.", name(), fault));
    }
    return sealed(std::move(row));
}

Result<void> Kind::insert(Database& database, Fields written) const {
    BOOST_OUTCOME_TRY(row, sealedRow(std::move(written)));
    return database.run(
        fmt::format("INSERT INTO {} ({}, row_check) VALUES ({}?)", table, fmt::join(columns, ", "),
                    fmt::join(std::vector<const char*>(columns.size() + 1, ""), "?, ")),
        row);
}

Result<void> Kind::update(Database& database, Fields written) const {
    std::string assignments;
    for (std::size_t i = 1; i < columns.size(); ++i) {
        assignments += fmt::format("{} = ?{}, ", columns[i], i + 1);
    }
    BOOST_OUTCOME_TRY(row, sealedRow(std::move(written)));
    return database.run(fmt::format("UPDATE {} SET {}row_check = ?{} WHERE {} = ?1", table,
                                    assignments, columns.size() + 1, columns.front()),
                        row);
}

Result<void> Kind::erase(Database& database, std::int64_t id) const {
    return database.run(fmt::format("DELETE FROM {} WHERE {} = ?", table, columns.front()), {id});
}

Result<std::int64_t> Kind::nextId(Database& database) const {
    BOOST_OUTCOME_TRY(last, database.integer("SELECT coalesce(max(seq), 0) FROM sqlite_sequence "
                                             "WHERE name = ?",
                                             {table}));
    return last + 1;
}

Result<Snapshot> loadSnapshot(Database& database) {
    Snapshot snapshot;
    for (const Kind& kind : kinds()) {
        if (kind.load != nullptr) {
            BOOST_OUTCOME_TRY(kind.load(database, nullptr, snapshot));
        }
    }
    BOOST_OUTCOME_TRY(revision, database.integer("SELECT max(id) FROM history"));
    snapshot.revision = revision;
    BOOST_OUTCOME_TRY(checkReferences(database, snapshot));
    return snapshot;
}

}  // namespace core::project
