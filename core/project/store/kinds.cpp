#include "core/project/store/kinds.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/project/file/schema.h"
#include "core/project/store/tables.h"
#include "core/project/text.h"

namespace core::project {
namespace {

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

/// The names of all kinds, for the catalogue.
[[maybe_unused]] constexpr std::array kNames{toSay("setting"),
                                             toSay("filming day"),
                                             toSay("implement"),
                                             toSay("hitter"),
                                             toSay("cell"),
                                             toSay("clip"),
                                             toSay("clip frames"),
                                             toSay("shot"),
                                             toSay("reading"),
                                             toSay("plan"),
                                             toSay("picture archive"),
                                             toSay("shot correction"),
                                             toSay("second look"),
                                             toSay("second reading"),
                                             toSay("evidence"),
                                             toSay("reading effort"),
                                             toSay("history"),
                                             toSay("history shot"),
                                             toSay("undo step"),
                                             toSay("undo position")};

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
                                          said("the reading that counts is of another shot"));
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

std::string Kind::words() const {
    return saidText(table == "session" ? "filming day" : name());
}

bool Kind::countsIds() const {
    return schema.find("AUTOINCREMENT") != std::string::npos;
}

Error Kind::damaged(const Database& database, std::int64_t row, const std::string& why) const {
    return {ErrorCode::Damaged,
            said("{} is damaged: table {}, row {}: {}. Nothing was changed. Restore a copy "
                 "of the file.",
                 database.file().string(), table, row, why)};
}

Error Kind::missing(std::int64_t id) const {
    return {ErrorCode::NotFound, said("There is no {} number {} in the project.", words(), id)};
}

const char* Kind::infiniteColumn(const Row& row) const {
    for (std::size_t i = 0; i < std::min(row.size(), columns.size()); ++i) {
        const auto* number = std::get_if<double>(&row[i]);
        if (number != nullptr && !std::isfinite(*number)) {
            return columns[i];
        }
    }
    return nullptr;
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
                    said("A text of the {} is not valid UTF-8: {}", words(), *fault));
    }
    Row& row = written.row();
    if (const char* column = infiniteColumn(row)) {
        return fail(ErrorCode::NotFinite,
                    said("The value {} of the {} is not a finite number.", column, words()));
    }
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (const auto* text = std::get_if<std::string>(&row[i]);
            text != nullptr && !isPlainText(*text)) {
            return fail(ErrorCode::InvalidInput,
                        said("The text {} of the {} is not valid UTF-8 or has a character "
                             "with the code 0. Type it again.",
                             columns[i], words()));
        }
    }
    if (const std::string fault = faultOf(row); !fault.empty()) {  // numbers within a JSON text
        return fail(ErrorCode::NotFinite,
                    said("A number of the {} is not finite or out of range: {}.", words(), fault));
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
