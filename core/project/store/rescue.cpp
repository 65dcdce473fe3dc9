#include "core/project/rescue.h"
#include "core/base/kept_words.h"
#include "core/base/words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sqlite3.h>

#include <algorithm>
#include <fstream>
#include <limits>

#include "core/base/files.h"
#include "core/project/file/schema.h"
#include "core/project/store/kinds.h"
#include "core/project/store/open_project.h"
#include "core/project/store/schema_check.h"
#include "core/project/text.h"

namespace core::project {
namespace {

using Id64 = std::int64_t;

constexpr Id64 kFirstId = std::numeric_limits<Id64>::min();
constexpr Id64 kLastId = std::numeric_limits<Id64>::max();
/// Ids that are asked for one by one where pages cannot be read in between.
constexpr Id64 kMostAsked = 20000;
constexpr int kMostRounds = 20;  // of rows that go because those that they refer to went
constexpr std::size_t kMostNamed = 50;
constexpr std::string_view kTimeStamps = toSay("list of time stamps");

/// Reads the rows of a table of a damaged file, around what cannot be read.
class RowReader {
public:
    using Use = std::function<Result<void>(Row)>;

    RowReader(Database& from, const Kind& kind, RescuedKind& told)
        : m_from{from}, m_kind{kind}, m_told{told} {}

    Result<void> read(const Use& use) {
        m_use = &use;
        BOOST_OUTCOME_TRY(isWhole, walk(kFirstId, kLastId, false));
        if (isWhole) {
            return ok();
        }
        const Id64 first = m_last;
        m_last = kLastId;
        BOOST_OUTCOME_TRY(walk(first == kLastId ? kLastId : first + 1, kLastId, true));
        const Id64 last = m_last;
        return askBetween(first, last);
    }

private:
    /// Rows with ids from low to high, or back; whether all could be read. m_last is the last one.
    Result<bool> walk(Id64 low, Id64 high, bool isBackward) {
        const std::string sql =
            fmt::format("SELECT {}, row_check FROM {} WHERE {} BETWEEN ? AND ? ORDER BY {} {}",
                        fmt::join(m_kind.columns, ", "), m_kind.table, m_kind.columns.front(),
                        m_kind.columns.front(), isBackward ? "DESC" : "ASC");
        std::optional<Error> ofUse;
        bool isAny = false;
        const auto done = m_from.forEach(sql, {low, high}, [&](Row row) -> Result<void> {
            const auto* id = std::get_if<Id64>(&row.front());
            if (id == nullptr || (isAny && !(isBackward ? *id < m_last : *id > m_last))) {
                return fail(ErrorCode::Damaged, {});  // pages in circles, which never end
            }
            isAny = true;
            m_last = *id;
            Result<void> used = take(std::move(row));
            if (!used) {
                ofUse = used.error();
            }
            return used;
        });
        if (ofUse) {
            return *ofUse;
        }
        return done.has_value();
    }

    Result<void> askBetween(Id64 first, Id64 last) {
        if (first == kFirstId && last == kLastId) {
            m_told.lost.push_back(said("No {} can be read.", m_kind.words()));
            return ok();
        }
        const Id64 low = first == kFirstId ? std::max<Id64>(1, last - kMostAsked) : first + 1;
        const Id64 high = last == kLastId ? low + kMostAsked : last - 1;
        for (Id64 id = low; id <= std::min(high, low + kMostAsked); ++id) {
            BOOST_OUTCOME_TRY(walk(id, id, false));
        }
        m_told.lost.push_back(
            last == kLastId ? said("A part of the file with {}s behind number {} cannot be read.",
                                   m_kind.words(), first)
                            : said("A part of the file with {}s before number {} cannot be read.",
                                   m_kind.words(), last));
        return ok();
    }

    Result<void> take(Row row) {
        const auto* number = std::get_if<Id64>(&row.front());
        const Id64 id = number != nullptr ? *number : 0;
        const auto plain = unsealed(row);
        const char* infinite = plain ? m_kind.infiniteColumn(plain.value()) : nullptr;
        const std::string fault = !plain                ? said("it does not fit its check number")
                                  : infinite != nullptr ? said("{} is no finite number", infinite)
                                                        : m_kind.faultOf(plain.value());
        if (!fault.empty()) {
            if (m_told.lost.size() < kMostNamed) {
                m_told.lost.push_back(fmt::format("{} {}: {}.", m_kind.words(), id, fault));
            }
            return ok();
        }
        return (*m_use)(std::move(row));
    }

    Database& m_from;
    const Kind& m_kind;
    RescuedKind& m_told;
    const Use* m_use{};
    Id64 m_last{kFirstId};
};

Result<void> insertSealed(Database& to, const Kind& kind, const Row& row, RescuedKind& told) {
    Result<void> done =
        to.run(fmt::format("INSERT INTO {} ({}, row_check) VALUES ({}?)", kind.table,
                           fmt::join(kind.columns, ", "),
                           fmt::join(std::vector<const char*>(kind.columns.size() + 1, ""), "?, ")),
               row);
    if (done) {
        ++told.saved;
        return ok();
    }
    const int code = sqlite3_errcode(to.handle());
    if ((code & 0xff) != SQLITE_CONSTRAINT) {
        return done;
    }
    // Twice the same, or what the table does not allow.
    told.lost.push_back(fmt::format("{} {}: {}.", kind.words(), std::get<Id64>(row.front()),
                                    sqlite3_errmsg(to.handle())));
    return ok();
}

/// Undone steps describe rows as they were; the place in them is made anew.
bool isTakenOver(const Kind& kind) {
    return kind.table != "undo_step" && kind.table != "undo_position";
}

Result<void> takeRows(Database& from, Database& to, Rescue& rescue) {
    for (const Kind& kind : kinds()) {
        if (!isTakenOver(kind)) {
            continue;
        }
        RescuedKind told{kind.name(), 0, {}};
        RowReader reader{from, kind, told};
        BOOST_OUTCOME_TRY(
            reader.read([&](const Row& row) { return insertSealed(to, kind, row, told); }));
        rescue.kinds.push_back(std::move(told));
    }
    return ok();
}

RescuedKind& toldOf(Rescue& rescue, const Kind& kind) {
    return *std::find_if(rescue.kinds.begin(), rescue.kinds.end(),
                         [&kind](const RescuedKind& each) { return each.name == kind.name(); });
}

std::size_t columnOf(const Kind& kind, std::string_view name) {
    return static_cast<std::size_t>(std::find(kind.columns.begin(), kind.columns.end(), name) -
                                    kind.columns.begin());
}

/// The row as it is, changed and sealed again.
Result<void> rewrite(Database& to, const Kind& kind, Id64 id,
                     const std::function<void(Row&)>& change) {
    BOOST_OUTCOME_TRY(
        rows, to.query(fmt::format("SELECT {} FROM {} WHERE {} = ?", fmt::join(kind.columns, ", "),
                                   kind.table, kind.columns.front()),
                       {id}));
    Row row = rows.at(0);
    change(row);
    std::string assignments;
    for (const char* column : kind.columns) {
        assignments += fmt::format("{} = ?, ", column);
    }
    Row values = sealed(std::move(row));
    values.emplace_back(id);
    return to.run(fmt::format("UPDATE {} SET {}row_check = ? WHERE {} = ?", kind.table, assignments,
                              kind.columns.front()),
                  values);
}

/// A table's rows, or the time stamps of a clip, in words.
std::string lostWords(const std::string& parent) {
    return parent == kTimeStamps ? saidText(parent) : kindOfTable(parent).words();
}

/// A shot stays without its cell or its reading; whatever else refers to what was lost goes too.
Result<void> release(Database& to, const Kind& kind, Id64 id, const std::string& parent,
                     Rescue& rescue) {
    RescuedKind& told = toldOf(rescue, kind);
    if (kind.table == "shot" && parent != "clip") {
        const bool isReading = parent == "reading";
        told.lost.push_back(isReading ? said("shot {} lost its reading and is open.", id)
                                      : said("shot {} lost its implement or hitter.", id));
        return rewrite(to, kind, id, [&](Row& row) {
            if (isReading) {
                row[columnOf(kind, "counting_reading_id")] = std::monostate{};
                auto& standing = row[columnOf(kind, "standing")];
                standing =
                    standing == Value{std::string{"kept"}} ? Value{std::string{"open"}} : standing;
            } else {
                row[columnOf(kind, "cell_id")] = std::monostate{};
            }
        });
    }
    told.lost.push_back(
        said("{} {} belongs to a {} that is lost.", kind.words(), id, lostWords(parent)));
    --told.saved;
    return kind.erase(to, id);
}

Result<void> releaseDangling(Database& to, Rescue& rescue) {
    for (int round = 0; round < kMostRounds; ++round) {
        BOOST_OUTCOME_TRY(dangling, to.query("PRAGMA foreign_key_check"));
        if (dangling.empty()) {
            return ok();
        }
        std::set<std::pair<std::string, Id64>> seen;  // a row may dangle in two ways
        for (const Row& row : dangling) {
            const auto& table = std::get<std::string>(row.at(0));
            const auto id = std::get<Id64>(row.at(1));
            if (seen.emplace(table, id).second) {
                BOOST_OUTCOME_TRY(
                    release(to, kindOfTable(table), id, std::get<std::string>(row.at(2)), rescue));
            }
        }
    }
    return fail(ErrorCode::Damaged, said("The rows that were saved do not hang together."));
}

/// Positions of shots in their clips go up by one.
Result<void> renumberShots(Database& to) {
    BOOST_OUTCOME_TRY(shots, to.query("SELECT id, clip_id, ordinal FROM shot ORDER BY clip_id, "
                                      "first_frame, last_frame, ordinal"));
    const Kind& kind = kindOf<Shot>();
    Id64 clip = 0;
    Id64 ordinal = 0;
    for (const Row& shot : shots) {
        ordinal = std::get<Id64>(shot[1]) == clip ? ordinal + 1 : 1;
        clip = std::get<Id64>(shot[1]);
        if (std::get<Id64>(shot[2]) != ordinal) {
            BOOST_OUTCOME_TRY(rewrite(to, kind, std::get<Id64>(shot[0]),
                                      [&](Row& row) { row[columnOf(kind, "ordinal")] = ordinal; }));
        }
    }
    return ok();
}

/// Clips whose time stamps are lost cannot be opened: they go, and what hangs on them.
Result<void> releaseClipsWithoutFrames(Database& to, Rescue& rescue) {
    BOOST_OUTCOME_TRY(clips, to.query("SELECT id FROM clip WHERE id NOT IN (SELECT clip_id FROM "
                                      "clip_frames)"));
    for (const Row& clip : clips) {
        BOOST_OUTCOME_TRY(
            release(to, kindOf<Clip>(), std::get<Id64>(clip[0]), std::string{kTimeStamps}, rescue));
    }
    return ok();
}

Result<Rescue> fill(const std::filesystem::path& damaged, const std::filesystem::path& fresh,
                    const std::string& name) {
    Rescue rescue;
    BOOST_OUTCOME_TRY(from, Database::open(damaged));
    BOOST_OUTCOME_TRY(checkSchema(*from));
    std::ofstream{fresh}.close();  // an empty file is an empty database
    const auto claim = OpenFileClaim::take(fresh);
    if (!claim) {
        return claim.error();
    }
    BOOST_OUTCOME_TRY(to, Database::open(fresh));
    BOOST_OUTCOME_TRY(to->execute("PRAGMA foreign_keys = OFF"));
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*to));
    BOOST_OUTCOME_TRY(to->execute(schemaSql()));
    BOOST_OUTCOME_TRY(takeRows(*from, *to, rescue));
    BOOST_OUTCOME_TRY(releaseClipsWithoutFrames(*to, rescue));
    BOOST_OUTCOME_TRY(releaseDangling(*to, rescue));
    BOOST_OUTCOME_TRY(renumberShots(*to));
    BOOST_OUTCOME_TRY(kindOf<UndoPosition>().insert(*to, written(UndoPosition{})));
    BOOST_OUTCOME_TRY(insertNew(
        *to, HistoryEntry{{}, presentTime(), {}, toKeep("Rescued from {:s}.", name), {}}));
    BOOST_OUTCOME_TRY(transaction->commit());
    return rescue;
}

Result<void> expectSound(const std::filesystem::path& project) {
    BOOST_OUTCOME_TRY(store, Store::open(project));
    BOOST_OUTCOME_TRY(faults, store->faults());
    if (!faults.empty()) {
        return fail(ErrorCode::Damaged,
                    said("What was saved is no sound project: {}", faults.front()));
    }
    return ok();
}

}  // namespace

std::size_t Rescue::lostCount() const noexcept {
    std::size_t count = 0;
    for (const RescuedKind& kind : kinds) {
        count += kind.lost.size();
    }
    return count;
}

Result<Rescue> rescueProject(const std::filesystem::path& from, const std::filesystem::path& to) {
    if (!mayWrite(to)) {
        return fail(
            ErrorCode::InvalidInput,
            said("{} exists already. Choose another name for what is rescued.", to.string()));
    }
    const auto claim = OpenFileClaim::take(from);
    if (!claim) {
        return claim.error();
    }
    BOOST_OUTCOME_TRY(version, checkFileHeader(from));
    if (version < kSchemaVersion) {
        return fail(ErrorCode::Unsupported,
                    said("{} has the older format {}; only format {} can be rescued. Restore "
                         "a copy of the file.",
                         from.string(), version, kSchemaVersion));
    }
    const auto lock = WriterLock::take(from);
    if (!lock) {
        return lock.error();
    }
    BOOST_OUTCOME_TRY(staging, StagingFolder::beside(to));
    const std::filesystem::path damaged = staging.path() / "damaged";
    const std::filesystem::path fresh = staging.path() / "project";
    std::error_code error;
    std::filesystem::copy_file(from, damaged, error);
    if (error) {
        return fail(ErrorCode::WriteFailed, said("{} cannot be copied to {}: {}.", from.string(),
                                                 damaged.string(), error.message()));
    }
    std::filesystem::path journal = from;
    journal += "-journal";
    std::filesystem::copy_file(journal, damaged.string() + "-journal", error);  // if there is one
    BOOST_OUTCOME_TRY(rescue, fill(damaged, fresh, from.filename().string()));
    BOOST_OUTCOME_TRY(expectSound(fresh));
    BOOST_OUTCOME_TRY(moveToPlace(fresh, to));
    std::erase_if(rescue.kinds,
                  [](const RescuedKind& kind) { return kind.saved == 0 && kind.lost.empty(); });
    return rescue;
}

}  // namespace core::project
