#pragma once

#include <set>
#include <typeinfo>

#include "core/project/file/database.h"
#include "core/project/store.h"
#include "core/project/store/fields.h"
#include "core/project/stored_pictures.h"

/// The kinds of rows in a project file. Private to core/project.
///
/// All that is done with rows follows from one list (kinds() in kinds.cpp): their tables, how they
/// are read, written and checked, whether they are undone, and who is told. A new kind is a value
/// (model.h), its place in the snapshot (OfEachKind), its columns (a function fields(),
/// columns.cpp) and its table in that list.
namespace core::project {

// Rows that are not in the snapshot, or not as they are.
struct Setting {
    Id<Setting> id;
    std::string key;
    std::string value;
};
struct FramesOfClip {
    ClipId id;
    ClipFrames frames;
};
struct ArchiveOfShot {
    ShotId id;
    PictureArchive archive;
};
struct PicturesOfShot {
    ShotId id;
    StoredPictures stored;
};
struct HistoryLink {
    Id<HistoryLink> id;
    HistoryId history;
    ShotId shot;  ///< may be gone
};
struct UndoStep {
    Id<UndoStep> id;
    HistoryId history;
    Blob changeset;
};
struct UndoPosition {
    Id<UndoPosition> id{1};
    Id<UndoStep> lastDone;
};

// The columns of each kind, the id first.
void fields(Fields& row, Setting& setting);
void fields(Fields& row, Session& session);
void fields(Fields& row, Implement& implement);
void fields(Fields& row, Hitter& hitter);
void fields(Fields& row, Cell& cell);
void fields(Fields& row, Clip& clip);
void fields(Fields& row, FramesOfClip& of);
void fields(Fields& row, Shot& shot);
void fields(Fields& row, Reading& reading);
void fields(Fields& row, PlanRecord& record);
void fields(Fields& row, ArchiveOfShot& of);
void fields(Fields& row, ShotCorrection& correction);
void fields(Fields& row, SecondLook& look);
void fields(Fields& row, SecondReading& second);
void fields(Fields& row, PicturesOfShot& of);
void fields(Fields& row, ReadingEffort& visit);
void fields(Fields& row, HistoryEntry& entry);
void fields(Fields& row, HistoryLink& link);
void fields(Fields& row, UndoStep& step);
void fields(Fields& row, UndoPosition& position);

/// One kind of rows.
class Kind {
public:
    const std::type_info* type;
    std::string table;
    std::int64_t format;  ///< the first that has it
    bool isUndoable;
    std::string schema;  ///< the statements that make its table
    std::vector<const char*> columns;
    /// What is wrong with a row without its check number; empty when it can be read.
    std::string (*faultOf)(Row row);

    // The following are null for rows that are not in the snapshot.
    /// Takes all rows, or those with the ids, into the snapshot. Errors: Damaged.
    Result<void> (*load)(Database& database, const std::set<std::int64_t>* ids,
                         Snapshot& snapshot){};
    /// The first row that refers to something that is not there, and how.
    std::optional<std::pair<std::int64_t, std::string>> (*dangling)(const Snapshot& snapshot){};
    void (*tell)(const std::set<std::int64_t>& ids, Store::Change& change){};
    void (*addIds)(const Snapshot& snapshot, std::set<std::int64_t>& ids){};

    /// "second reading".
    [[nodiscard]] std::string name() const;
    /// The same in the language of the person.
    [[nodiscard]] std::string words() const;
    /// Whether ids are counted by SQLite and never given twice; else they are those of another row.
    [[nodiscard]] bool countsIds() const;
    /// The first column of an unsealed row with an infinite number; null when there is none. SQLite
    /// keeps what is no number as NULL.
    [[nodiscard]] const char* infiniteColumn(const Row& row) const;
    /// Calls use for each row, without its check number. condition: "" or " WHERE …". Errors:
    /// Damaged with table, row and reason, also when use fails.
    Result<void> forEach(Database& database, const std::string& condition, const Row& parameters,
                         const std::function<Result<void>(Row)>& use) const;
    /// The row to write, with its check number, after a look at everything in it: finite numbers,
    /// plain text, and readable again. Errors: NotFinite, InvalidInput.
    Result<Row> sealedRow(Fields written) const;
    /// A row for an id that has none. Errors: those of sealedRow().
    Result<void> insert(Database& database, Fields written) const;
    Result<void> update(Database& database, Fields written) const;
    Result<void> erase(Database& database, std::int64_t id) const;
    Result<std::int64_t> nextId(Database& database) const;
    [[nodiscard]] Error damaged(const Database& database, std::int64_t row,
                                const std::string& why) const;
    [[nodiscard]] Error missing(std::int64_t id) const;
};

/// All of them, in the order in which their tables are made.
[[nodiscard]] const std::vector<Kind>& kinds();
[[nodiscard]] const Kind& kindOf(const std::type_info& type);
[[nodiscard]] const Kind& kindOfTable(const std::string& table);
template <class Entity>
[[nodiscard]] const Kind& kindOf() {
    static const Kind& kKind = kindOf(typeid(Entity));
    return kKind;
}

/// The statements that make the tables that came with a format, as they are now. A later format
/// that changes one of them adds the step that does so, and keeps the text of before in
/// migrations.cpp.
[[nodiscard]] std::string tablesOfFormat(std::int64_t format);
/// The statements that make an empty project of kSchemaVersion.
[[nodiscard]] std::string schemaSql();
/// Tables whose changes can be undone.
[[nodiscard]] std::vector<std::string> undoableTables();

/// Everything in the file. Errors: Damaged with table, row and reason.
Result<Snapshot> loadSnapshot(Database& database);

/// The entity as a row.
template <class Entity>
[[nodiscard]] Fields written(const Entity& entity) {
    Fields row;
    fields(row, const_cast<Entity&>(entity));  // changes members only while it reads
    return row;
}

/// The entities in the rows of their table. Errors: Damaged with table, row and reason.
template <class Entity>
Result<std::vector<Entity>> select(Database& database, const std::string& condition = {},
                                   const Row& parameters = {}) {
    std::vector<Entity> found;
    const auto take = [&found](Row row) -> Result<void> {
        Fields from{std::move(row)};
        fields(from, found.emplace_back());
        if (const std::string* fault = from.fault()) {
            return fail(ErrorCode::Damaged, *fault);
        }
        return ok();
    };
    BOOST_OUTCOME_TRY(kindOf<Entity>().forEach(database, condition, parameters, take));
    return found;
}

/// A row under the next id, which is given back.
template <class Entity>
Result<Id<Entity>> insertNew(Database& database, Entity entity) {
    const Kind& kind = kindOf<Entity>();
    BOOST_OUTCOME_TRY(id, kind.nextId(database));
    entity.id = {id};
    BOOST_OUTCOME_TRY(kind.insert(database, written(entity)));
    return entity.id;
}

}  // namespace core::project
