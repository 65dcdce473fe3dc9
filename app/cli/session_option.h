#pragma once

#include <string>

#include "core/project/store.h"

namespace cli {

/// The session of a name; with an empty name the last one of the project.
/// Errors: NotFound, naming what there is.
inline core::Result<core::project::SessionId> sessionNamed(const core::project::Snapshot& snapshot,
                                                           const std::string& name) {
    std::string known;
    for (const auto& session : snapshot.sessions) {
        if (session.name == name) {
            return session.id;
        }
        known += (known.empty() ? "" : ", ") + session.name;
    }
    if (name.empty() && !snapshot.sessions.isEmpty()) {
        return (snapshot.sessions.end() - 1)->id;
    }
    return core::fail(core::ErrorCode::NotFound,
                      known.empty() ? std::string{"The project has no filming day yet."}
                                    : "The project has no filming day named \"" + name +
                                          "\". It has: " + known + ".");
}

}  // namespace cli
