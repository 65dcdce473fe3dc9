#include "core/plan/implement_table.h"

#include <algorithm>

#include "core/base/text_table.h"
#include "core/base/words.h"

namespace core::plan {
namespace {

auto sameImplement(const PlannedImplement& wanted) {
    return [&wanted](const PlannedImplement& other) {
        return other.name == wanted.name && other.condition == wanted.condition;
    };
}

auto wrongRow(const TextRow& row, std::size_t column, const std::string& what) {
    return fail(ErrorCode::InvalidInput,
                said("Row {}, column {}: {}", row.number, columnLetters(column), what));
}

/// Which columns are which; a position beyond the last column: there is none.
struct Roles {
    std::size_t name{};
    std::size_t condition{};

    [[nodiscard]] bool isAttribute(std::size_t column) const {
        return column != name && column != condition;
    }
};

Roles rolesOf(const TextTable& table) {
    const std::size_t none = table.columns.size();
    Roles roles{table.column("name").value_or(table.column("implement").value_or(0)),
                table.column("condition").value_or(none)};
    if (roles.condition == roles.name) {
        roles.condition = none;
    }
    return roles;
}

PlannedImplement implementOf(const TextTable& table, const TextRow& row, const Roles& roles) {
    PlannedImplement implement;
    for (std::size_t i = 0; i < row.fields.size(); ++i) {
        if (i == roles.name) {
            implement.name = row.fields[i];
        } else if (i == roles.condition) {
            implement.condition = row.fields[i];
        } else if (!row.fields[i].empty()) {
            implement.attributes[table.columns[i]] = row.fields[i];
        }
    }
    return implement;
}

}  // namespace

Result<ImplementTable> implementsFromText(std::string_view text) {
    BOOST_OUTCOME_TRY(table, readTextTable(text));
    const Roles roles = rolesOf(table);
    ImplementTable result;
    result.encoding = table.encoding;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        if (roles.isAttribute(i)) {
            result.attributeNames.push_back(table.columns[i]);
        }
    }
    for (const TextRow& row : table.rows) {
        PlannedImplement implement = implementOf(table, row, roles);
        if (implement.name.empty()) {
            return wrongRow(row, roles.name, said("the implement has no name."));
        }
        if (std::any_of(result.implements.begin(), result.implements.end(),
                        sameImplement(implement))) {
            return wrongRow(
                row, roles.name,
                said("the implement {} is there twice. Give each a name or a condition of its own.",
                     implement.name));
        }
        result.implements.push_back(std::move(implement));
    }
    if (result.implements.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("The table has a header and no implement below it. The first row names "
                         "the columns, for example name, condition, mass."));
    }
    return result;
}

void addToPlan(Plan& plan, const ImplementTable& table) {
    for (const std::string& name : table.attributeNames) {
        if (std::find(plan.attributeNames.begin(), plan.attributeNames.end(), name) ==
            plan.attributeNames.end()) {
            plan.attributeNames.push_back(name);
        }
    }
    for (const PlannedImplement& implement : table.implements) {
        const auto known =
            std::find_if(plan.implements.begin(), plan.implements.end(), sameImplement(implement));
        if (known == plan.implements.end()) {
            plan.implements.push_back(implement);
            continue;
        }
        for (const auto& [column, value] : implement.attributes) {
            known->attributes[column] = value;
        }
    }
}

}  // namespace core::plan
