#pragma once

#include <string>

#include "core/project/store.h"

namespace core::intake {

/// A filming day that is not in the project yet, with the marking of the ball that is planned.
/// Without a name it is called as the plan calls it, else after its date (ISO 8601), and
/// numbered where the project has that name.
[[nodiscard]] project::Session newSession(const project::Snapshot& snapshot,
                                          const std::string& name, const std::string& date);

/// The session of a name, or without a name the last one; what is not there is added.
/// Errors: those of project::Store::addSession.
Result<project::SessionId> sessionFor(project::Store& store, const std::string& name,
                                      const std::string& date);

}  // namespace core::intake
