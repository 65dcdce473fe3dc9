#pragma once

#include <string_view>

#include "core/base/text_encoding.h"
#include "core/plan/plan.h"

namespace core::plan {

/// Implements out of a table, as pasted from a spreadsheet or read from a file.
struct ImplementTable {
    TextEncoding encoding{TextEncoding::Utf8};  ///< in which the table was read
    std::vector<std::string> attributeNames;    ///< the columns that are neither name nor condition
    std::vector<PlannedImplement> implements;
};

/// Reads a table (core/base/text_table.h) of implements. The column of the names is headed "name"
/// or "implement", else it is the first; the condition is in the column "condition", when there is
/// one; every other column is an attribute, and an empty field an attribute that is not known.
/// Errors: those of readTextTable(); InvalidInput, with row and column, for a row without a name
/// and for an implement that is there twice.
Result<ImplementTable> implementsFromText(std::string_view text);

/// Adds the implements of a table to a plan: those it has already, by name and condition, take the
/// attributes over; new columns stand behind the present ones.
void addToPlan(Plan& plan, const ImplementTable& table);

}  // namespace core::plan
