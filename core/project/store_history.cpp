#include "core/base/expects.h"
#include "core/project/store_rows.h"

/// Steps of undo, and the history.
namespace core::project {
namespace {

constexpr const char* kStepRow = "SELECT id, history_id, changeset, row_check FROM undo_step ";
constexpr const char* kStepBack = "WHERE id = (SELECT last_done_step_id FROM undo_position)";
constexpr const char* kStepForth =
    "WHERE id = (SELECT min(id) FROM undo_step WHERE id > "
    "(SELECT last_done_step_id FROM undo_position))";

/// One step of undo.
struct Step {
    std::int64_t id{};
    std::int64_t history{};
    Blob changeset;
};

/// Nothing when there is no such step. Errors: Damaged.
Result<std::optional<Step>> readStep(Database& database, const char* which) {
    BOOST_OUTCOME_TRY(rows, database.query(std::string{kStepRow} + which));
    if (rows.empty()) {
        return std::optional<Step>{};
    }
    Result<Row> plain = unsealed(std::move(rows.front()));
    RowReader from{plain ? std::move(plain).value() : Row{}};
    Step step{from.integer(), from.integer(), from.blob()};
    if (!from.finish()) {
        return fail(ErrorCode::Damaged,
                    fmt::format("{} is damaged: a step of undo cannot be read. The project itself "
                                "is whole.",
                                database.file().string()));
    }
    return std::optional{std::move(step)};
}

}  // namespace

Result<void> SqliteStore::appendHistory(const Told& told) {
    BOOST_OUTCOME_TRY(id, nextId("history"));
    BOOST_OUTCOME_TRY(
        insert(HistoryEntry{{id}, presentTime(), m_snapshot->reader, told.sentence, {}}));
    std::vector<ShotId> shots = told.shots;
    std::sort(shots.begin(), shots.end());
    shots.erase(std::unique(shots.begin(), shots.end()), shots.end());
    BOOST_OUTCOME_TRY(firstLink, nextId("history_shot"));
    std::int64_t link = firstLink;
    for (const ShotId shot : shots) {
        BOOST_OUTCOME_TRY(m_database->run("INSERT INTO history_shot VALUES (?, ?, ?, ?)",
                                          sealed({link++, id, shot.value})));
    }
    m_working.revision = id;
    return ok();
}

Result<void> SqliteStore::startHistory() {
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
    BOOST_OUTCOME_TRY(m_database->run("INSERT INTO undo_position VALUES (?, ?, ?)",
                                      sealed({std::int64_t{1}, std::int64_t{0}})));
    BOOST_OUTCOME_TRY(appendHistory({"Created the project.", {}}));
    BOOST_OUTCOME_TRY(transaction->commit());
    m_snapshot = std::make_shared<const Snapshot>(m_working);
    return ok();
}

Result<std::int64_t> SqliteStore::position() const {
    BOOST_OUTCOME_TRY(
        rows, m_database->query("SELECT id, last_done_step_id, row_check FROM undo_position"));
    if (rows.size() == 1) {
        const Result<Row> plain = unsealed(std::move(rows.front()));
        const auto* step = plain ? std::get_if<std::int64_t>(&plain.value().at(1)) : nullptr;
        if (step != nullptr) {
            return *step;
        }
    }
    return fail(ErrorCode::Damaged,
                fmt::format("{} is damaged: the place in the steps of undo is lost. Restore a copy "
                            "of the file.",
                            file().string()));
}

Result<void> SqliteStore::setPosition(std::int64_t step) {
    const Row row = sealed({std::int64_t{1}, step});
    return m_database->run(
        "UPDATE undo_position SET last_done_step_id = ?2, row_check = ?3 WHERE id = ?1", row);
}

Result<TouchedRows> SqliteStore::recordStep(ChangeRecorder& recorder, const Told& told) {
    BOOST_OUTCOME_TRY(changeset, recorder.changeset());
    BOOST_OUTCOME_TRY(touched, touchedRows(*m_database, changeset));
    if (touched.empty()) {
        return touched;
    }
    BOOST_OUTCOME_TRY(last, position());
    BOOST_OUTCOME_TRY(m_database->run("DELETE FROM undo_step WHERE id > ?", {last}));
    BOOST_OUTCOME_TRY(appendHistory(told));
    BOOST_OUTCOME_TRY(id, nextId("undo_step"));
    BOOST_OUTCOME_TRY(m_database->run("INSERT INTO undo_step VALUES (?, ?, ?, ?)",
                                      sealed({id, m_working.revision, std::move(changeset)})));
    BOOST_OUTCOME_TRY(setPosition(id));
    return touched;
}

std::optional<std::string> SqliteStore::textOfStep(const char* whichStep) const {
    const auto step = readStep(*m_database, whichStep);
    if (!step || !step.value()) {
        return std::nullopt;
    }
    const auto lines = historyWhere("WHERE id = ?", {step.value()->history});
    if (!lines || lines.value().empty()) {
        return std::nullopt;
    }
    return lines.value().front().what;
}

std::optional<std::string> SqliteStore::undoText() const {
    return textOfStep(kStepBack);
}
std::optional<std::string> SqliteStore::redoText() const {
    return textOfStep(kStepForth);
}
Result<void> SqliteStore::undo() {
    return move(Direction::Back);
}
Result<void> SqliteStore::redo() {
    return move(Direction::Forth);
}

Result<void> SqliteStore::move(Direction direction) {
    CORE_EXPECTS(m_depth == 0);  // not inside together()
    Result<TouchedRows> touched = moveInside(direction);
    if (!touched) {
        m_working = *m_snapshot;
        return touched.error();
    }
    publish(touched.value());
    return ok();
}

Result<TouchedRows> SqliteStore::moveInside(Direction direction) {
    const bool isBack = direction == Direction::Back;
    BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
    BOOST_OUTCOME_TRY(checkNobodyElseWrote());
    BOOST_OUTCOME_TRY(step, readStep(*m_database, isBack ? kStepBack : kStepForth));
    if (!step) {
        return fail(ErrorCode::NotFound,
                    isBack ? "There is nothing to undo." : "There is nothing to redo.");
    }
    BOOST_OUTCOME_TRY(back, inverted(*m_database, step->changeset));
    const Blob& changeset = isBack ? back : step->changeset;
    BOOST_OUTCOME_TRY(applyChangeset(*m_database, changeset));
    BOOST_OUTCOME_TRY(touched, touchedRows(*m_database, changeset));
    BOOST_OUTCOME_TRY(reload(touched));

    BOOST_OUTCOME_TRY(lines, historyWhere("WHERE id = ?", {step->history}));
    BOOST_OUTCOME_TRY(links, m_database->query("SELECT shot_id FROM history_shot "
                                               "WHERE history_id = ?",
                                               {step->history}));
    Told told{fmt::format("{}: {}", isBack ? "Undid" : "Redid",
                          lines.empty() ? std::string{"a step"} : lines.front().what),
              {}};
    for (const Row& link : links) {
        told.shots.push_back({std::get<std::int64_t>(link.front())});
    }
    BOOST_OUTCOME_TRY(appendHistory(told));
    BOOST_OUTCOME_TRY(before, m_database->integer("SELECT coalesce(max(id), 0) FROM undo_step "
                                                  "WHERE id < ?",
                                                  {step->id}));
    BOOST_OUTCOME_TRY(setPosition(isBack ? before : step->id));
    BOOST_OUTCOME_TRY(transaction->commit());
    return touched;
}

Result<std::vector<HistoryEntry>> SqliteStore::historyWhere(const std::string& condition,
                                                            const Row& parameters) const {
    std::vector<HistoryEntry> entries;
    BOOST_OUTCOME_TRY(m_database->forEach(
        selectRows<HistoryEntry>() + " " + condition, parameters, [&](Row row) -> Result<void> {
            BOOST_OUTCOME_TRY(entry, entityFrom<HistoryEntry>(*m_database, std::move(row)));
            entries.push_back(std::move(entry));
            return ok();
        }));
    return entries;
}

Result<std::vector<HistoryEntry>> SqliteStore::history() const {
    BOOST_OUTCOME_TRY(entries, historyWhere("ORDER BY id", {}));
    // A line names its shot when it is about exactly one.
    BOOST_OUTCOME_TRY(m_database->forEach(
        "SELECT history_id, min(shot_id) FROM history_shot GROUP BY history_id "
        "HAVING count(*) = 1",
        {}, [&entries](const Row& row) -> Result<void> {
            const HistoryId id{std::get<std::int64_t>(row.at(0))};
            const auto at = std::lower_bound(
                entries.begin(), entries.end(), id,
                [](const HistoryEntry& entry, HistoryId key) { return entry.id < key; });
            if (at != entries.end() && at->id == id) {
                at->shot = ShotId{std::get<std::int64_t>(row.at(1))};
            }
            return ok();
        }));
    return entries;
}

Result<std::vector<HistoryEntry>> SqliteStore::historyOf(ShotId shot) const {
    BOOST_OUTCOME_TRY(
        entries, historyWhere("WHERE id IN (SELECT history_id FROM history_shot WHERE shot_id = ?) "
                              "ORDER BY id",
                              {shot.value}));
    for (HistoryEntry& entry : entries) {
        entry.shot = shot;
    }
    return entries;
}

}  // namespace core::project
