#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/project/snapshot.h"
#include "core/report/summary.h"

namespace core::report {

/// One row a shot: where it is, whose it is, how it stands, and its counting reading. RFC 4180.
[[nodiscard]] std::string shotsCsv(const project::Snapshot& snapshot);
/// The same as JSON: {"program", "shots": [{…}]}, null where there is nothing to say.
[[nodiscard]] std::string shotsJson(const project::Snapshot& snapshot);
/// One row a cell, then one row an implement with an empty hitter. RFC 4180.
[[nodiscard]] std::string summaryCsv(const Summary& summary);
/// {"program", "implements": […], "cells": […], "unassigned": {…}}
[[nodiscard]] std::string summaryJson(const Summary& summary);

/// Writes shots.csv, shots.json, summary.csv and summary.json into a folder, which is made when it
/// is not there. Returns the files written. A file of one of these names that this program did not
/// write is left alone and reported.
/// Errors: InvalidInput for such a foreign file (nothing is written); WriteFailed; those of
/// summarise().
Result<std::vector<std::filesystem::path>> exportProject(const project::Snapshot& snapshot,
                                                         const std::filesystem::path& folder);

}  // namespace core::report
