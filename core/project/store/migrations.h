#pragma once

#include <functional>
#include <span>
#include <vector>

#include "core/project/file/database.h"

/// Bringing a file of an older version up to date. Private to core/project.
namespace core::project {

/// One step, from one version to the next. Runs inside a transaction; must not commit. A step that
/// writes rows of data seals them (row.h).
struct Migration {
    std::int64_t from{};
    std::function<Result<void>(Database&)> run;
};

/// The steps from version 1 on, in order: 2 adds the plan.
[[nodiscard]] const std::vector<Migration>& migrations();

/// Says what is wrong with a file that was brought up to date, before that is committed.
using SoundnessCheck = std::function<Result<void>(Database&)>;

/// Runs the steps that lead from the file's version to `target` in one transaction, after a copy
/// beside the file, named as backupName() says. Nothing to do: no copy.
/// Errors: WriteFailed (the copy cannot be written or exists already); Unsupported (a step is
/// missing); errors of a step and of the check. The file is then as before, and no copy stays.
Result<void> migrate(
    Database& database, std::span<const Migration> steps, std::int64_t target,
    const SoundnessCheck& isSound = [](Database&) -> Result<void> { return ok(); });

/// "name (format 1).turnmark" for "name.turnmark".
[[nodiscard]] std::filesystem::path backupName(const std::filesystem::path& file,
                                               std::int64_t version);

}  // namespace core::project
