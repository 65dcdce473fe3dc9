#include "core/intake/session_for.h"

#include <algorithm>

#include "core/base/words.h"

namespace core::intake {
namespace {

bool isKnown(const project::Snapshot& snapshot, const std::string& name) {
    return std::any_of(snapshot.sessions.begin(), snapshot.sessions.end(),
                       [&name](const project::Session& session) { return session.name == name; });
}

}  // namespace

project::Session newSession(const project::Snapshot& snapshot, const std::string& name,
                            const std::string& date) {
    const plan::Plan& plan = project::planOf(snapshot);
    project::Session session;
    session.date = date;
    session.name = name;
    if (name.empty()) {
        const std::string base = plan.session.empty() ? date : plan.session;
        session.name = base;
        for (int number = 2; isKnown(snapshot, session.name); ++number) {
            session.name = base + ' ' + std::to_string(number);
        }
    }
    session.marking = plan.marking;
    return session;
}

Result<project::SessionId> sessionFor(project::Store& store, const std::string& name,
                                      const std::string& date) {
    const auto snapshot = store.snapshot();
    if (name.empty() && !snapshot->sessions.isEmpty()) {
        return (snapshot->sessions.end() - 1)->id;
    }
    for (const auto& session : snapshot->sessions) {
        if (session.name == name) {
            return session.id;
        }
    }
    return store.addSession(newSession(*snapshot, name, date));
}

}  // namespace core::intake
