#pragma once

#include <filesystem>

#include "tests/fuzz/taken.h"

namespace tests::fuzz {

/// Puts values into rows of a project file as another program would: the check numbers fit
/// (FORMAT.md R08), triggers stand in no way. Each value is led by the number of its table, of the
/// row in it and of the column, one byte each. What SQLite refuses is left as it was.
void plantValues(const std::filesystem::path& file, Taken& taken);

}  // namespace tests::fuzz
