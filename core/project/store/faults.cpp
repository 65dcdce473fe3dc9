#include <fmt/format.h>

#include "core/base/words.h"
#include "core/project/store/open_project.h"

/// The check of the file.
namespace core::project {
namespace {

using Faults = std::vector<std::string>;

/// Tables and triggers that a project must have, sorted by name.
std::set<std::string> requiredObjects() {
    std::set<std::string> names;
    const std::string sql = schemaSql();
    for (const std::string_view start : {"CREATE TABLE ", "CREATE TRIGGER "}) {
        for (auto at = sql.find(start); at != std::string::npos; at = sql.find(start, at + 1)) {
            const std::size_t name = at + start.size();
            names.insert(sql.substr(name, sql.find(' ', name) - name));
        }
    }
    return names;
}

Result<void> checkStructure(Database& database, Faults& faults) {
    BOOST_OUTCOME_TRY(integrity, database.query("PRAGMA integrity_check"));
    for (const Row& row : integrity) {
        if (row != Row{std::string{"ok"}}) {
            faults.push_back(said("SQLite finds: {}.", std::get<std::string>(row.front())));
        }
    }
    BOOST_OUTCOME_TRY(dangling, database.query("PRAGMA foreign_key_check"));
    for (const Row& row : dangling) {
        faults.push_back(said("A row of {} refers to a row of {} that is not there.",
                              std::get<std::string>(row.at(0)), std::get<std::string>(row.at(2))));
    }
    for (const std::string& object : requiredObjects()) {
        BOOST_OUTCOME_TRY(found,
                          database.query("SELECT 1 FROM sqlite_schema WHERE name = ?", {object}));
        if (found.empty()) {
            faults.push_back(said("{} is missing from the file.", object));
        }
    }
    return ok();
}

/// What a row is about, as a person knows it, where that can be said.
std::string nameOfRow(const Snapshot* all, const Kind& kind, std::int64_t row) {
    if (all != nullptr && *kind.type == typeid(Reading)) {
        const Reading* reading = all->readings.find({row});
        const Shot* shot = reading != nullptr ? all->shots.find(reading->shot) : nullptr;
        if (shot != nullptr) {
            return said("Reading {} of {}", row, shotName(*all, *shot));
        }
    }
    if (all != nullptr && *kind.type == typeid(Clip)) {
        if (const Clip* clip = all->clips.find({row})) {
            return said("Clip {}", clip->path);
        }
    }
    return said("Row {} of {}", row, kind.table);
}

/// Every row fits its check number and has numbers only, and ids stay below the counter that gives
/// new ones. all: null where it cannot be loaded.
Result<void> checkTable(Database& database, const Kind& kind, const Snapshot* all, Faults& faults) {
    std::int64_t lastId = 0;
    BOOST_OUTCOME_TRY(database.forEach(
        fmt::format("SELECT * FROM {}", kind.table), {}, [&](Row row) -> Result<void> {
            const auto* id = std::get_if<std::int64_t>(&row.front());
            const std::int64_t number = id != nullptr ? *id : 0;
            lastId = std::max(lastId, number);
            const Result<Row> plain = unsealed(std::move(row));
            if (!plain) {
                faults.push_back(
                    said("Row {} of {} does not fit its check number.", number, kind.table));
                return ok();
            }
            if (const char* column = kind.infiniteColumn(plain.value())) {
                faults.push_back(
                    said("{}: {} is no finite number. What rests on it is wrong: "
                         "restore a copy of the file.",
                         nameOfRow(all, kind, number), column));
            }
            return ok();
        }));
    if (!kind.countsIds()) {
        return ok();
    }
    BOOST_OUTCOME_TRY(next, kind.nextId(database));
    if (next <= lastId) {
        faults.push_back(said("The counter of {} would give a number twice.", kind.table));
    }
    return ok();
}

/// Every step of undo can be read both ways, and the place in them is one that there was.
Result<void> checkSteps(Database& database, Faults& faults) {
    const auto place = undoPosition(database);
    if (!place) {
        faults.push_back(place.error().message);
        return ok();
    }
    BOOST_OUTCOME_TRY(next, kindOf<UndoStep>().nextId(database));
    if (place.value().lastDone.value >= next) {
        faults.push_back(said("The place in the steps of undo is behind the last one there was."));
    }
    const std::string all = fmt::format("SELECT * FROM {} ORDER BY id", kindOf<UndoStep>().table);
    return database.forEach(all, {}, [&](Row row) -> Result<void> {
        Result<Row> plain = unsealed(std::move(row));
        if (!plain) {
            return ok();  // said of its table
        }
        Fields from{std::move(plain.value())};
        UndoStep step;
        fields(from, step);
        const auto back = inverted(database, step.changeset);
        const auto touched = touchedRows(database, step.changeset);
        if (!back || !touched || touched.value().empty()) {
            faults.push_back(
                said("Step {} of undo, line {} of the history, is broken: undoing ends there. "
                     "Everything else is as it was.",
                     step.id.value, step.history.value));
        }
        return ok();
    });
}

template <class Entity, class Name>
void checkNames(const Entities<Entity>& table, std::string_view what, Name name, Faults& faults) {
    std::set<std::string> seen;
    for (const Entity& entity : table) {
        if (!seen.insert(name(entity)).second) {
            faults.push_back(said("Two {} have the name {}.", saidText(what), name(entity)));
        }
    }
}

/// The rules that tables cannot state.
void checkRules(const Snapshot& all, Faults& faults) {
    checkNames(
        all.sessions, toSay("filming days"), [](const Session& s) { return s.name; }, faults);
    checkNames(
        all.hitters, toSay("hitters"), [](const Hitter& h) { return h.name; }, faults);
    checkNames(
        all.implements, toSay("implements"),
        [](const Implement& i) { return fmt::format("{} ({})", i.name, i.condition); }, faults);
    if (all.plans.size() > 1) {
        faults.push_back(said("There is more than one plan of the filming day."));
    }
    for (const Clip& clip : all.clips) {
        std::int64_t ordinal = 0;
        for (const Shot* shot : shotsOfClip(all, clip.id)) {
            if (shot->ordinal != ++ordinal) {
                faults.push_back(
                    said("The shots of clip {} are not numbered in order.", clip.path));
                break;
            }
        }
    }
    for (const Shot& shot : all.shots) {
        const Clip* clip = all.clips.find(shot.clip);
        if (clip != nullptr && shot.lastFrame.value >= clip->frameCount) {
            faults.push_back(said("{} ends after its clip.", shotName(all, shot)));
        }
    }
}

}  // namespace

Result<std::vector<std::string>> Store::faults() const {
    Faults faults;
    Database& database = m_project->database();
    BOOST_OUTCOME_TRY(checkStructure(database, faults));
    Result<Snapshot> all = loadSnapshot(database);
    for (const Kind& kind : kinds()) {
        BOOST_OUTCOME_TRY(checkTable(database, kind, all ? &all.value() : nullptr, faults));
    }
    BOOST_OUTCOME_TRY(checkSteps(database, faults));
    if (!all) {
        faults.push_back(all.error().message);
        return faults;
    }
    checkRules(all.value(), faults);
    for (const Clip& clip : all.value().clips) {
        const auto frames = clipFrames(clip.id);
        if (!frames) {
            faults.push_back(frames.error().message);
        } else if (static_cast<std::int64_t>(frames.value()->isKey.size()) != clip.frameCount) {
            faults.push_back(said("Clip {} has more or fewer time stamps than frames.", clip.path));
        }
    }
    return faults;
}

}  // namespace core::project
