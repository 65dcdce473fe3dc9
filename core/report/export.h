#pragma once

#include <string>

#include "core/project/snapshot.h"
#include "core/report/summary.h"

namespace core::report {

/// One row a shot: where it is, whose it is, how it stands, and its counting reading. RFC 4180.
[[nodiscard]] std::string shotsCsv(const project::Snapshot& snapshot);
/// The same as JSON: {"program", "shots": [{…}]}, null where there is nothing to say.
[[nodiscard]] std::string shotsJson(const project::Snapshot& snapshot);
/// One row a cell. RFC 4180.
[[nodiscard]] std::string summaryCsv(const Summary& summary);
/// One row an implement. RFC 4180.
[[nodiscard]] std::string implementsCsv(const Summary& summary);
/// {"program", "implements": […], "cells": […], "unassigned": {…}}
[[nodiscard]] std::string summaryJson(const Summary& summary);

}  // namespace core::report
