#include "tests/fuzz/planted_values.h"

#include "core/project/file/database.h"
#include "tests/support/must.h"

namespace tests::fuzz {
namespace {

using namespace core::project;

/// The text with a piece of it replaced: where, how much, by what.
std::string spliced(std::string text, Taken& taken) {
    const std::size_t at = taken.number(2) % (text.size() + 1);
    const std::size_t gone = std::min<std::size_t>(taken.byte(), text.size() - at);
    const std::string piece = taken.text();
    return text.replace(at, gone, piece);
}

Value takenValue(const Value& before, Taken& taken) {
    switch (taken.byte() % 7) {
        case 0:
            return {};
        case 1:
            return static_cast<std::int64_t>(taken.number(8));
        case 2:
            return static_cast<std::int64_t>(taken.byte()) - 2;
        case 3: {
            const std::uint64_t bits = taken.number(8);
            return std::bit_cast<double>(bits);
        }
        case 4: {
            const std::string bytes = taken.text();
            return Blob{bytes.begin(), bytes.end()};
        }
        case 5:
            return taken.text();
        default:
            if (const auto* text = std::get_if<std::string>(&before)) {
                return spliced(*text, taken);
            }
            if (const auto* blob = std::get_if<Blob>(&before)) {
                const std::string bytes = spliced({blob->begin(), blob->end()}, taken);
                return Blob{bytes.begin(), bytes.end()};
            }
            return before;
    }
}

std::string textAt(const Row& row, std::size_t column) {
    return std::get<std::string>(row.at(column));
}

void plantValue(Database& database, const std::vector<Row>& tables, Taken& taken) {
    const std::string table = textAt(tables[taken.byte() % tables.size()], 0);
    const int ordinal = taken.byte() % 8;
    auto rows = must(database.query("SELECT rowid, * FROM " + table + " LIMIT 1 OFFSET " +
                                    std::to_string(ordinal)));
    if (rows.empty()) {
        return;
    }
    const Value rowid = rows[0].front();
    Row row{rows[0].begin() + 1, rows[0].end() - 1};
    const std::size_t column = taken.byte() % row.size();
    row[column] = takenValue(row[column], taken);
    const auto columns =
        must(database.query("SELECT name FROM pragma_table_info('" + table + "')"));
    std::string assignments;
    for (const Row& name : columns) {
        assignments += (assignments.empty() ? "" : ", ") + textAt(name, 0) + " = ?";
    }
    Row parameters = sealed(std::move(row));
    parameters.push_back(rowid);
    static_cast<void>(
        database.run("UPDATE " + table + " SET " + assignments + " WHERE rowid = ?", parameters));
}

}  // namespace

void plantValues(const std::filesystem::path& file, Taken& taken) {
    const auto database = must(Database::open(file));
    must(database->execute("PRAGMA foreign_keys = OFF; PRAGMA synchronous = OFF;"));
    const auto triggers =
        must(database->query("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'"));
    const auto tables = must(
        database->query("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE "
                        "'sqlite_%' ORDER BY name"));
    must(database->execute("BEGIN"));
    for (const Row& trigger : triggers) {
        must(database->execute("DROP TRIGGER " + textAt(trigger, 0)));
    }
    for (int most = 0; most < 8 && !taken.isEmpty(); ++most) {
        plantValue(*database, tables, taken);
    }
    for (const Row& trigger : triggers) {
        must(database->execute(textAt(trigger, 1)));
    }
    must(database->execute("COMMIT"));
}

}  // namespace tests::fuzz
