#include "core/base/expects.h"
#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/project/store/open_project.h"
#include "core/project/text.h"

/// Steps of undo, and the history.
namespace core::project {
namespace {

constexpr const char* kStepBack = " WHERE id = (SELECT last_done_step_id FROM undo_position)";
constexpr const char* kStepForth =
    " WHERE id = (SELECT min(id) FROM undo_step WHERE id > "
    "(SELECT last_done_step_id FROM undo_position))";

/// None or one. Errors: Damaged.
Result<std::vector<UndoStep>> nextStep(Database& database, OpenProject::Direction direction) {
    return select<UndoStep>(database,
                            direction == OpenProject::Direction::Back ? kStepBack : kStepForth);
}

Result<void> setPosition(Database& database, Id<UndoStep> step) {
    return kindOf<UndoPosition>().update(database, written(UndoPosition{.lastDone = step}));
}

/// What the step did. Errors: Damaged.
Result<std::string> sentenceOf(Database& database, const UndoStep& step) {
    BOOST_OUTCOME_TRY(lines, select<HistoryEntry>(database, " WHERE id = ?", {step.history.value}));
    return lines.empty() ? toKeep("a step") : std::move(lines.front().what);
}

}  // namespace

Result<UndoPosition> undoPosition(Database& database) {
    BOOST_OUTCOME_TRY(positions, select<UndoPosition>(database));
    if (positions.size() != 1) {
        return fail(ErrorCode::Damaged,
                    said("{} is damaged: the place in the steps of undo is lost. Restore a "
                         "copy of the file.",
                         database.file().string()));
    }
    return positions.front();
}

Result<void> OpenProject::appendHistory(const Told& told, const std::string& reader) {
    BOOST_OUTCOME_TRY(
        line, insertNew(*m_database, HistoryEntry{{}, presentTime(), reader, told.sentence, {}}));
    for (const ShotId shot : std::set<ShotId>{told.shots.begin(), told.shots.end()}) {
        BOOST_OUTCOME_TRY(insertNew(*m_database, HistoryLink{{}, line, shot}));
    }
    m_rows.setRevision(line.value);
    return ok();
}

Result<void> OpenProject::startHistory() {
    return transact([&]() -> Result<void> {
        BOOST_OUTCOME_TRY(kindOf<UndoPosition>().insert(*m_database, written(UndoPosition{})));
        return appendHistory({toKeep("Created the project."), {}}, {});
    });
}

Result<TouchedRows> OpenProject::recordStep(ChangeRecorder& recorder, const Told& told,
                                            const std::string& reader) {
    BOOST_OUTCOME_TRY(changeset, recorder.changeset());
    BOOST_OUTCOME_TRY(touched, touchedRows(*m_database, changeset));
    if (touched.empty()) {
        return touched;
    }
    BOOST_OUTCOME_TRY(position, undoPosition(*m_database));
    BOOST_OUTCOME_TRY(
        m_database->run("DELETE FROM undo_step WHERE id > ?", {position.lastDone.value}));
    BOOST_OUTCOME_TRY(appendHistory(told, reader));
    BOOST_OUTCOME_TRY(
        step, insertNew(*m_database, UndoStep{{}, {m_rows.all().revision}, std::move(changeset)}));
    BOOST_OUTCOME_TRY(setPosition(*m_database, step));
    return touched;
}

std::optional<std::string> OpenProject::textOfStep(Direction direction) {
    const auto step = nextStep(*m_database, direction);
    if (!step || step.value().empty()) {
        return std::nullopt;
    }
    const auto sentence = sentenceOf(*m_database, step.value().front());
    return sentence ? std::optional{saidKept(sentence.value())} : std::nullopt;
}

Result<void> OpenProject::move(Direction direction) {
    CORE_EXPECTS(m_depth == 0);  // not inside together()
    const SnapshotPtr before = m_rows.snapshot();
    TouchedRows touched;
    BOOST_OUTCOME_TRY(transact([&]() -> Result<void> {
        BOOST_OUTCOME_TRY(rows, moveInside(direction));
        touched = std::move(rows);
        return ok();
    }));
    publish(*before, touched);
    return ok();
}

Result<TouchedRows> OpenProject::moveInside(Direction direction) {
    const bool isBack = direction == Direction::Back;
    BOOST_OUTCOME_TRY(steps, nextStep(*m_database, direction));
    if (steps.empty()) {
        return fail(ErrorCode::NotFound,
                    isBack ? said("There is nothing to undo.") : said("There is nothing to redo."));
    }
    const UndoStep& step = steps.front();
    BOOST_OUTCOME_TRY(back, inverted(*m_database, step.changeset));
    const Blob& changeset = isBack ? back : step.changeset;
    BOOST_OUTCOME_TRY(applyChangeset(*m_database, changeset));
    BOOST_OUTCOME_TRY(touched, touchedRows(*m_database, changeset));

    BOOST_OUTCOME_TRY(sentence, sentenceOf(*m_database, step));
    BOOST_OUTCOME_TRY(
        links, select<HistoryLink>(*m_database, " WHERE history_id = ?", {step.history.value}));
    Told told{isBack ? toKeep("Undid: {}", sentence) : toKeep("Redid: {}", sentence), {}};
    for (const HistoryLink& link : links) {
        told.shots.push_back(link.shot);
    }
    BOOST_OUTCOME_TRY(appendHistory(told, std::string{m_rows.all().reader}));
    BOOST_OUTCOME_TRY(m_rows.reload(touched));
    BOOST_OUTCOME_TRY(before, m_database->integer("SELECT coalesce(max(id), 0) FROM undo_step "
                                                  "WHERE id < ?",
                                                  {step.id.value}));
    BOOST_OUTCOME_TRY(setPosition(*m_database, isBack ? Id<UndoStep>{before} : step.id));
    return touched;
}

std::optional<std::string> Store::undoText() const {
    return m_project->textOfStep(OpenProject::Direction::Back);
}
std::optional<std::string> Store::redoText() const {
    return m_project->textOfStep(OpenProject::Direction::Forth);
}
Result<void> Store::undo() {
    return m_project->move(OpenProject::Direction::Back);
}
Result<void> Store::redo() {
    return m_project->move(OpenProject::Direction::Forth);
}

Result<std::vector<HistoryEntry>> Store::history() const {
    Database& database = m_project->database();
    BOOST_OUTCOME_TRY(entries, select<HistoryEntry>(database, " ORDER BY id"));
    for (HistoryEntry& entry : entries) {
        entry.what = saidKept(entry.what);
    }
    // A line names its shot when it is about exactly one.
    BOOST_OUTCOME_TRY(database.forEach(
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

Result<std::vector<HistoryEntry>> Store::historyOf(ShotId shot) const {
    BOOST_OUTCOME_TRY(entries,
                      select<HistoryEntry>(m_project->database(),
                                           " WHERE id IN (SELECT history_id FROM history_shot "
                                           "WHERE shot_id = ?) ORDER BY id",
                                           {shot.value}));
    for (HistoryEntry& entry : entries) {
        entry.shot = shot;
        entry.what = saidKept(entry.what);
    }
    return entries;
}

}  // namespace core::project
