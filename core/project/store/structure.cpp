#include <fmt/format.h>

#include <cmath>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/project/clock_refutation.h"
#include "core/project/store/open_project.h"
#include "core/project/store/sentences.h"
#include "core/project/text.h"

/// Sessions, implements, hitters, cells, the plan, settings.
namespace core::project {
namespace {

/// The name as it is kept. Errors: InvalidInput when nothing is left of it.
Result<std::string> tidyName(const std::string& raw, std::string_view what) {
    if (!isPlainText(raw)) {
        return fail(ErrorCode::InvalidInput,
                    said("The name of the {} is not valid UTF-8. Type it again.", saidText(what)));
    }
    std::string name = trimmed(raw);
    if (name.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("The {} has no name. Give it one.", saidText(what)));
    }
    return name;
}

auto repeatedName(std::string_view what, const std::string& name) {
    return fail(ErrorCode::InvalidInput,
                said("There is a {} named {} already. Choose another name.", saidText(what), name));
}

Result<void> mustBePositive(const std::optional<double>& value, std::string_view otherwise) {
    if (value && !(std::isfinite(*value) && *value > 0.0)) {
        return fail(std::isfinite(*value) ? ErrorCode::OutOfRange : ErrorCode::NotFinite,
                    saidText(otherwise));
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

Result<void> checkSession(const Rows& rows, Session& session) {
    BOOST_OUTCOME_TRY(name, tidyName(session.name, toSay("filming day")));
    session.name = name;
    for (const Session& other : rows.all().sessions) {
        if (other.name == name && other.id != session.id) {
            return repeatedName(toSay("filming day"), name);
        }
    }
    if (!isDate(session.date)) {
        return fail(ErrorCode::InvalidInput,
                    said("The date {} is not of the form 2026-05-03.", session.date));
    }
    BOOST_OUTCOME_TRY(mustBePositive(session.ballDiameterMm,
                                     toSay("The ball's diameter must be greater than zero.")));
    BOOST_OUTCOME_TRY(mustBePositive(session.fieldOfViewDeg,
                                     toSay("The field of view must be greater than zero.")));
    BOOST_OUTCOME_TRY(
        mustBePositive(session.exposureSeconds, toSay("The exposure must be greater than zero.")));
    if (session.fieldOfViewDeg && *session.fieldOfViewDeg >= 180.0) {
        return fail(ErrorCode::OutOfRange, said("The field of view must be below 180 degrees."));
    }
    if (session.readoutSeconds && *session.readoutSeconds != 0.0) {  // 0: all rows at once
        BOOST_OUTCOME_TRY(
            mustBePositive(session.readoutSeconds,
                           toSay("The readout time, if not zero, must be greater than zero.")));
    }
    return ok();
}

Result<void> checkImplement(const Rows& rows, Implement& implement) {
    BOOST_OUTCOME_TRY(name, tidyName(implement.name, toSay("implement")));
    implement.name = name;
    implement.condition = trimmed(implement.condition);
    for (const Implement& other : rows.all().implements) {
        if (other.name == name && other.condition == implement.condition &&
            other.id != implement.id) {
            return repeatedName(toSay("implement"),
                                implement.condition.empty()
                                    ? name
                                    : fmt::format("{} ({})", name, implement.condition));
        }
    }
    return ok();
}

Result<void> checkHitter(const Rows& rows, Hitter& hitter) {
    BOOST_OUTCOME_TRY(name, tidyName(hitter.name, toSay("hitter")));
    hitter.name = name;
    for (const Hitter& other : rows.all().hitters) {
        if (other.name == name && other.id != hitter.id) {
            return repeatedName(toSay("hitter"), name);
        }
    }
    return ok();
}

Result<std::string> settingName(const std::string& key) {
    BOOST_OUTCOME_TRY(name, tidyName(key, toSay("setting")));
    if (name == "reader") {
        return fail(ErrorCode::InvalidInput,
                    said("The setting 'reader' is reserved for the person who reads."));
    }
    return name;
}

Result<void> writeSetting(Rows& rows, const std::string& key, const std::string& value) {
    Database& database = rows.database();
    BOOST_OUTCOME_TRY(present, select<Setting>(database, " WHERE key = ?", {key}));
    if (present.empty()) {
        BOOST_OUTCOME_TRY(insertNew(database, Setting{{}, key, value}));
    } else {
        BOOST_OUTCOME_TRY(
            kindOf<Setting>().update(database, written(Setting{present.front().id, key, value})));
    }
    return rows.reload({{kindOf<Setting>().table, {}}});
}

}  // namespace

Result<SessionId> Store::addSession(const Session& session) {
    Session added = session;
    added.id = {};
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(checkSession(rows, added));
        BOOST_OUTCOME_TRY(kept, rows.add(added));
        added = kept;
        return Told{toKeep("Added the filming day {:s}.", added.name), {}};
    }));
    return added.id;
}

Result<void> Store::changeSession(const Session& session) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(rows.find(session.id));
        Session changed = session;
        BOOST_OUTCOME_TRY(checkSession(rows, changed));
        BOOST_OUTCOME_TRY(rows.change(changed));
        return Told{toKeep("Changed the filming day {:s}.", changed.name), {}};
    });
}

Result<ImplementId> Store::addImplement(const Implement& implement) {
    Implement added = implement;
    added.id = {};
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(checkImplement(rows, added));
        BOOST_OUTCOME_TRY(kept, rows.add(added));
        added = kept;
        return Told{toKeep("Added the implement {:s}.", implementName(rows.all(), added.id)), {}};
    }));
    return added.id;
}

Result<void> Store::changeImplement(const Implement& implement) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(rows.find(implement.id));
        Implement changed = implement;
        BOOST_OUTCOME_TRY(checkImplement(rows, changed));
        const std::string before = implementName(rows.all(), implement.id);
        BOOST_OUTCOME_TRY(rows.change(changed));
        const std::string after = implementName(rows.all(), implement.id);
        return Told{before == after
                        ? toKeep("Changed the implement {:s}.", before)
                        : toKeep("Changed the implement {:s}, now {:s}.", before, after),
                    {}};
    });
}

Result<HitterId> Store::addHitter(const Hitter& hitter) {
    Hitter added = hitter;
    added.id = {};
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(checkHitter(rows, added));
        BOOST_OUTCOME_TRY(kept, rows.add(added));
        added = kept;
        return Told{toKeep("Added the hitter {:s}.", added.name), {}};
    }));
    return added.id;
}

Result<CellId> Store::cellFor(SessionId session, ImplementId implement, HitterId hitter) {
    for (const Cell& cell : m_project->rows().all().cells) {
        if (cell.session == session && cell.implement == implement && cell.hitter == hitter) {
            return cell.id;
        }
    }
    Cell added{{}, session, implement, hitter};
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(rows.find(session));
        BOOST_OUTCOME_TRY(rows.find(implement));
        BOOST_OUTCOME_TRY(rows.find(hitter));
        BOOST_OUTCOME_TRY(kept, rows.add(added));
        added = kept;
        return Told{toKeep("Added the cell {:s}.", cellName(rows.all(), added.id)), {}};
    }));
    return added.id;
}

Result<void> Store::setPlan(const plan::Plan& plan) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(plan::checkPlan(plan));
        const plan::Plan before = planOf(rows.all());
        if (rows.all().plans.isEmpty()) {
            BOOST_OUTCOME_TRY(rows.add(PlanRecord{{}, plan}));
        } else {
            BOOST_OUTCOME_TRY(rows.change(PlanRecord{rows.all().plans.begin()->id, plan}));
        }
        return Told{planSentence(before, plan), {}};
    });
}

Result<void> Store::setReader(const std::string& reader) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(name, tidyName(reader, toSay("reader")));
        BOOST_OUTCOME_TRY(writeSetting(rows, "reader", name));
        return Told{toKeep("{:s} reads from now on.", name), {}};
    });
}

Result<void> Store::setSetting(const std::string& key, const std::string& value) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(name, settingName(key));
        BOOST_OUTCOME_TRY(writeSetting(rows, name, value));
        return Told{value.empty() ? toKeep("Set {:s} to nothing.", name)
                                  : toKeep("Set {:s} to {:s}.", name, value),
                    {}};
    });
}

Result<void> Store::noteSetting(const std::string& key, const std::string& value) {
    return m_project->note([&](Rows& rows) -> Result<void> {
        BOOST_OUTCOME_TRY(name, settingName(key));
        return writeSetting(rows, name, value);
    });
}

Result<void> Store::noteRefutation(ShotId id, const std::string& statement) {
    BOOST_OUTCOME_TRY(shot, m_project->rows().find(id));
    BOOST_OUTCOME_TRY(clip, m_project->rows().find(shot.clip));
    const auto present = refutationOf(m_project->rows().all(), clip);
    const bool isNews =
        statement.empty() ? refutingShot(m_project->rows().all(), clip) == id : !present;
    if (!isNews || !readOnlyReason().empty()) {
        return ok();
    }
    return m_project->noteAndTell([&](Rows& rows) -> Result<TouchedRows> {
        BOOST_OUTCOME_TRY(writeSetting(
            rows, refutationKey(clip.id),
            statement.empty() ? std::string{} : refutationValue(rows.all(), clip, id, statement)));
        return TouchedRows{{kindOf<Setting>().table, {}}};
    });
}

}  // namespace core::project
