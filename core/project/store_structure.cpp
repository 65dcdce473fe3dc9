#include "core/base/expects.h"
#include "core/project/store_rows.h"
#include "core/project/store_sentences.h"

/// Sessions, implements, hitters, cells, the plan, settings.
namespace core::project {
namespace {

/// The name as it is kept. Errors: InvalidInput when nothing is left of it.
Result<std::string> tidyName(const std::string& raw, const char* what) {
    if (!isPlainText(raw)) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("The name of the {} is not valid UTF-8. Type it again.", what));
    }
    std::string name = trimmed(raw);
    if (name.empty()) {
        return fail(ErrorCode::InvalidInput, fmt::format("The {} has no name. Give it one.", what));
    }
    return name;
}

auto repeatedName(const char* what, const std::string& name) {
    return fail(ErrorCode::InvalidInput,
                fmt::format("There is a {} named {} already. Choose another name.", what, name));
}

template <class Entity>
Result<void> mustExist(const Table<Entity>& table, Id<Entity> id, const char* what) {
    if (table.find(id) == nullptr) {
        return fail(ErrorCode::NotFound,
                    fmt::format("There is no {} number {} in the project.", what, id.value));
    }
    return ok();
}

Result<void> mustBePositive(const std::optional<double>& value, const char* what) {
    if (value && !(std::isfinite(*value) && *value > 0.0)) {
        return fail(std::isfinite(*value) ? ErrorCode::OutOfRange : ErrorCode::NotFinite,
                    fmt::format("The {} must be greater than zero.", what));
    }
    return ok();
}

/// "2026-05-03", digits only; whether the day exists is not judged.
bool isDate(const std::string& date) {
    constexpr std::string_view kForm = "0000-00-00";
    return date.empty() ||
           std::equal(date.begin(), date.end(), kForm.begin(), kForm.end(), [](char c, char form) {
               return form == '0' ? c >= '0' && c <= '9' : c == form;
           });
}

}  // namespace

Result<void> SqliteStore::checkSession(Session& session) const {
    BOOST_OUTCOME_TRY(name, tidyName(session.name, "session"));
    session.name = name;
    for (const Session& other : m_working.sessions) {
        if (other.name == name && other.id != session.id) {
            return repeatedName("session", name);
        }
    }
    if (!isDate(session.date)) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("The date {} is not of the form 2026-05-03.", session.date));
    }
    BOOST_OUTCOME_TRY(mustBePositive(session.ballDiameterMm, "ball's diameter"));
    BOOST_OUTCOME_TRY(mustBePositive(session.fieldOfViewDeg, "field of view"));
    BOOST_OUTCOME_TRY(mustBePositive(session.exposureSeconds, "exposure"));
    if (session.fieldOfViewDeg && *session.fieldOfViewDeg >= 180.0) {
        return fail(ErrorCode::OutOfRange, "The field of view must be below 180 degrees.");
    }
    if (session.readoutSeconds && *session.readoutSeconds != 0.0) {  // 0: all rows at once
        BOOST_OUTCOME_TRY(mustBePositive(session.readoutSeconds, "readout time, if not zero,"));
    }
    return ok();
}

Result<void> SqliteStore::checkImplement(Implement& implement) const {
    BOOST_OUTCOME_TRY(name, tidyName(implement.name, "implement"));
    implement.name = name;
    implement.condition = trimmed(implement.condition);
    for (const Implement& other : m_working.implements) {
        if (other.name == name && other.condition == implement.condition &&
            other.id != implement.id) {
            return repeatedName("implement",
                                implement.condition.empty()
                                    ? name
                                    : fmt::format("{} ({})", name, implement.condition));
        }
    }
    return ok();
}

Result<void> SqliteStore::checkHitter(Hitter& hitter) const {
    BOOST_OUTCOME_TRY(name, tidyName(hitter.name, "hitter"));
    hitter.name = name;
    for (const Hitter& other : m_working.hitters) {
        if (other.name == name && other.id != hitter.id) {
            return repeatedName("hitter", name);
        }
    }
    return ok();
}

Result<SessionId> SqliteStore::addSession(const Session& session) {
    Session added = session;
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(id, nextId("session"));
        added.id = {id};
        BOOST_OUTCOME_TRY(checkSession(added));
        BOOST_OUTCOME_TRY(addRow(added));
        return Told{fmt::format("Added the session {}.", added.name), {}};
    }));
    return added.id;
}

Result<void> SqliteStore::changeSession(const Session& session) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(mustExist(m_working.sessions, session.id, "session"));
        Session changed = session;
        BOOST_OUTCOME_TRY(checkSession(changed));
        BOOST_OUTCOME_TRY(changeRows<Session>({changed}));
        return Told{fmt::format("Changed the session {}.", changed.name), {}};
    });
}

Result<ImplementId> SqliteStore::addImplement(const Implement& implement) {
    Implement added = implement;
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(id, nextId("implement"));
        added.id = {id};
        BOOST_OUTCOME_TRY(checkImplement(added));
        BOOST_OUTCOME_TRY(addRow(added));
        return Told{fmt::format("Added the implement {}.", implementName(m_working, added.id)), {}};
    }));
    return added.id;
}

Result<void> SqliteStore::changeImplement(const Implement& implement) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(mustExist(m_working.implements, implement.id, "implement"));
        Implement changed = implement;
        BOOST_OUTCOME_TRY(checkImplement(changed));
        const std::string before = implementName(m_working, implement.id);
        BOOST_OUTCOME_TRY(changeRows<Implement>({changed}));
        const std::string after = implementName(m_working, implement.id);
        return Told{before == after
                        ? fmt::format("Changed the implement {}.", before)
                        : fmt::format("Changed the implement {}, now {}.", before, after),
                    {}};
    });
}

Result<HitterId> SqliteStore::addHitter(const Hitter& hitter) {
    Hitter added = hitter;
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(id, nextId("hitter"));
        added.id = {id};
        BOOST_OUTCOME_TRY(checkHitter(added));
        BOOST_OUTCOME_TRY(addRow(added));
        return Told{fmt::format("Added the hitter {}.", added.name), {}};
    }));
    return added.id;
}

Result<void> SqliteStore::changeHitter(const Hitter& hitter) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(mustExist(m_working.hitters, hitter.id, "hitter"));
        const std::string before = m_working.hitters.find(hitter.id)->name;
        Hitter changed = hitter;
        BOOST_OUTCOME_TRY(checkHitter(changed));
        BOOST_OUTCOME_TRY(changeRows<Hitter>({changed}));
        return Told{fmt::format("Renamed the hitter {} to {}.", before, changed.name), {}};
    });
}

Result<CellId> SqliteStore::cellFor(SessionId session, ImplementId implement, HitterId hitter) {
    for (const Cell& cell : m_working.cells) {
        if (cell.session == session && cell.implement == implement && cell.hitter == hitter) {
            return cell.id;
        }
    }
    Cell added{{}, session, implement, hitter};
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(mustExist(m_working.sessions, session, "session"));
        BOOST_OUTCOME_TRY(mustExist(m_working.implements, implement, "implement"));
        BOOST_OUTCOME_TRY(mustExist(m_working.hitters, hitter, "hitter"));
        BOOST_OUTCOME_TRY(id, nextId("cell"));
        added.id = {id};
        BOOST_OUTCOME_TRY(addRow(added));
        return Told{fmt::format("Added the cell {}.", cellName(m_working, added.id)), {}};
    }));
    return added.id;
}

Result<void> SqliteStore::setPlan(const plan::Plan& plan) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(plan::checkPlan(plan));
        const plan::Plan before = planOf(m_working);
        if (m_working.plans.isEmpty()) {
            BOOST_OUTCOME_TRY(id, nextId("plan"));
            BOOST_OUTCOME_TRY(addRow(PlanRecord{{id}, plan}));
        } else {
            BOOST_OUTCOME_TRY(
                changeRows<PlanRecord>({PlanRecord{m_working.plans.begin()->id, plan}}));
        }
        return Told{planSentence(before, plan), {}};
    });
}

Result<void> SqliteStore::writeSetting(const std::string& key, const std::string& value) {
    BOOST_OUTCOME_TRY(rows, m_database->query("SELECT id FROM setting WHERE key = ?", {key}));
    if (rows.empty()) {
        BOOST_OUTCOME_TRY(id, nextId("setting"));
        BOOST_OUTCOME_TRY(insert(Setting{{id}, key, value}));
    } else {
        const auto* id = std::get_if<std::int64_t>(&rows.front().front());
        BOOST_OUTCOME_TRY(update(Setting{{id != nullptr ? *id : 0}, key, value}));
    }
    return reloadSettings(*m_database, m_working);
}

Result<void> SqliteStore::setReader(const std::string& reader) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(name, tidyName(reader, "reader"));
        BOOST_OUTCOME_TRY(writeSetting("reader", name));
        return Told{fmt::format("{} reads from now on.", name), {}};
    });
}

namespace {

Result<std::string> settingName(const std::string& key) {
    BOOST_OUTCOME_TRY(name, tidyName(key, "setting"));
    if (name == "reader") {
        return fail(ErrorCode::InvalidInput,
                    "The setting 'reader' is reserved. Name the reader by setReader.");
    }
    return name;
}

}  // namespace

Result<void> SqliteStore::setSetting(const std::string& key, const std::string& value) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(name, settingName(key));
        BOOST_OUTCOME_TRY(writeSetting(name, value));
        return Told{fmt::format("Set {} to {}.", name, value.empty() ? "nothing" : value), {}};
    });
}

Result<void> SqliteStore::noteSetting(const std::string& key, const std::string& value) {
    return note([&]() -> Result<void> {
        BOOST_OUTCOME_TRY(name, settingName(key));
        return writeSetting(name, value);
    });
}

}  // namespace core::project
