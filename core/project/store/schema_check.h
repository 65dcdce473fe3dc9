#pragma once

#include "core/base/result.h"
#include "core/project/file/database.h"

namespace core::project {

/// Holds what the file would have SQLite run by itself against what a project has, before any of it
/// runs: no view, no trigger, index, table or condition (CHECK) but those of this format or an
/// older one, no computed column. A file made to harm could keep every command busy for ever, or
/// write where a project does not (https://www.sqlite.org/security.html).
/// Errors: Damaged, with the name of what does not belong there; those of reading the file.
Result<void> checkSchema(Database& database);

}  // namespace core::project
