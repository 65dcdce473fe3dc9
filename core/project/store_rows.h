#pragma once

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "core/project/sqlite_store.h"
#include "core/project/text.h"

/// Reading and writing of rows by entity. Private to core/project.
namespace core::project {

template <>
inline Table<Session>& tableOf(Snapshot& snapshot) {
    return snapshot.sessions;
}
template <>
inline Table<Implement>& tableOf(Snapshot& snapshot) {
    return snapshot.implements;
}
template <>
inline Table<Hitter>& tableOf(Snapshot& snapshot) {
    return snapshot.hitters;
}
template <>
inline Table<Cell>& tableOf(Snapshot& snapshot) {
    return snapshot.cells;
}
template <>
inline Table<Clip>& tableOf(Snapshot& snapshot) {
    return snapshot.clips;
}
template <>
inline Table<Shot>& tableOf(Snapshot& snapshot) {
    return snapshot.shots;
}
template <>
inline Table<Reading>& tableOf(Snapshot& snapshot) {
    return snapshot.readings;
}

template <>
inline Table<ShotCorrection>& tableOf(Snapshot& snapshot) {
    return snapshot.corrections;
}

template <>
inline Table<PlanRecord>& tableOf(Snapshot& snapshot) {
    return snapshot.plans;
}

template <>
inline Table<SecondLook>& tableOf(Snapshot& snapshot) {
    return snapshot.secondLooks;
}
template <>
inline Table<SecondReading>& tableOf(Snapshot& snapshot) {
    return snapshot.secondReadings;
}
template <>
inline Table<ReadingEffort>& tableOf(Snapshot& snapshot) {
    return snapshot.efforts;
}

/// "SELECT …, row_check FROM table", to which a condition may be added.
template <class Entity>
std::string selectRows() {
    return fmt::format("SELECT {}, row_check FROM {}", fmt::join(RowsOf<Entity>::columns, ", "),
                       RowsOf<Entity>::table);
}

/// The entity in a row that was read with its check number. Errors: Damaged with table, row,
/// reason.
template <class Entity>
Result<Entity> entityFrom(const Database& database, Row row) {
    const Value id = row.front();
    Result<Row> plain = unsealed(std::move(row));
    Result<Entity> entity =
        plain ? RowsOf<Entity>::read(std::move(plain).value()) : Result<Entity>{plain.error()};
    if (!entity) {
        const auto* number = std::get_if<std::int64_t>(&id);
        return fail(ErrorCode::Damaged,
                    fmt::format("{} is damaged: table {}, row {}: {}. Nothing was changed. Restore "
                                "a copy of the file.",
                                database.file().string(), RowsOf<Entity>::table,
                                number != nullptr ? *number : 0, entity.error().message));
    }
    return entity;
}

/// The row of an entity, sealed, after a look at everything in it: finite numbers, plain text, and
/// readable again. Errors: NotFinite, InvalidInput.
template <class Entity>
Result<Row> rowToWrite(const Entity& entity) {
    Row row;
    try {
        row = RowsOf<Entity>::write(entity);
    } catch (const std::exception& notText) {  // nlohmann::json meets a text that is not UTF-8
        return fail(ErrorCode::InvalidInput, fmt::format("A text of the {} is not valid UTF-8: {}",
                                                         RowsOf<Entity>::table, notText.what()));
    }
    for (std::size_t i = 0; i < row.size(); ++i) {
        const std::string& column = RowsOf<Entity>::columns[i];
        if (const auto* number = std::get_if<double>(&row[i]);
            number != nullptr && !std::isfinite(*number)) {
            return fail(ErrorCode::NotFinite,
                        fmt::format("The value {} of the {} is not a finite number.", column,
                                    RowsOf<Entity>::table));
        }
        if (const auto* text = std::get_if<std::string>(&row[i]);
            text != nullptr && !isPlainText(*text)) {
            return fail(ErrorCode::InvalidInput,
                        fmt::format("The text {} of the {} is not valid UTF-8 or has a character "
                                    "with the code 0. Type it again.",
                                    column, RowsOf<Entity>::table));
        }
    }
    if (const auto again = RowsOf<Entity>::read(row); !again) {  // numbers within a JSON text
        return fail(ErrorCode::NotFinite,
                    fmt::format("A number of the {} is not finite or out of range: {}.",
                                RowsOf<Entity>::table, again.error().message));
    }
    return sealed(std::move(row));
}

template <class Entity>
Result<void> SqliteStore::insert(const Entity& entity) {
    const auto& columns = RowsOf<Entity>::columns;
    BOOST_OUTCOME_TRY(row, rowToWrite(entity));
    return m_database->run(
        fmt::format("INSERT INTO {} ({}, row_check) VALUES ({}?)", RowsOf<Entity>::table,
                    fmt::join(columns, ", "),
                    fmt::join(std::vector<const char*>(columns.size() + 1, ""), "?, ")),
        row);
}

template <class Entity>
Result<void> SqliteStore::update(const Entity& entity) {
    const auto& columns = RowsOf<Entity>::columns;
    std::string assignments;
    for (std::size_t i = 1; i < columns.size(); ++i) {
        assignments += fmt::format("{} = ?{}, ", columns[i], i + 1);
    }
    BOOST_OUTCOME_TRY(row, rowToWrite(entity));
    return m_database->run(
        fmt::format("UPDATE {} SET {}row_check = ?{} WHERE {} = ?1", RowsOf<Entity>::table,
                    assignments, columns.size() + 1, columns.front()),
        row);
}

template <class Entity>
Result<void> SqliteStore::erase(std::int64_t id) {
    return m_database->run(fmt::format("DELETE FROM {} WHERE {} = ?", RowsOf<Entity>::table,
                                       RowsOf<Entity>::columns.front()),
                           {id});
}

template <class Entity>
Result<void> SqliteStore::addRow(const Entity& entity) {
    BOOST_OUTCOME_TRY(insert(entity));
    Table<Entity>& table = tableOf<Entity>(m_working);
    table = table.changed({entity});
    return ok();
}

template <class Entity>
Result<void> SqliteStore::changeRows(std::vector<Entity> entities) {
    for (const Entity& entity : entities) {
        BOOST_OUTCOME_TRY(update(entity));
    }
    Table<Entity>& table = tableOf<Entity>(m_working);
    table = table.changed(std::move(entities));
    return ok();
}

template <class Entity>
Result<void> SqliteStore::removeRows(std::vector<Id<Entity>> ids) {
    for (const Id<Entity> id : ids) {
        BOOST_OUTCOME_TRY(erase<Entity>(id.value));
    }
    Table<Entity>& table = tableOf<Entity>(m_working);
    table = table.changed({}, std::move(ids));
    return ok();
}

}  // namespace core::project
