#include "core/project/store/schema_check.h"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>
#include <vector>

#include "core/base/words.h"
#include "core/project/store/kinds.h"

namespace core::project {
namespace {

/// One space for every run of white space, none at the ends.
std::string tidied(std::string_view sql) {
    std::string text;
    for (const char c : sql) {
        const bool isSpace = c == ' ' || c == '\n' || c == '\t' || c == '\r';
        if (!isSpace) {
            text += c;
        } else if (!text.empty() && text.back() != ' ') {
            text += ' ';
        }
    }
    while (!text.empty() && (text.back() == ' ' || text.back() == ';')) {
        text.pop_back();
    }
    return text;
}

std::string upper(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) {
        return static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    });
    return text;
}

/// The text up to the bracket that closes the one at `open`; to the end when none does.
std::string bracketed(const std::string& sql, std::size_t open) {
    int depth = 0;
    bool isQuoted = false;
    for (std::size_t at = open; at < sql.size(); ++at) {
        if (sql[at] == '\'') {
            isQuoted = !isQuoted;
        } else if (!isQuoted && sql[at] == '(') {
            ++depth;
        } else if (!isQuoted && sql[at] == ')' && --depth == 0) {
            return sql.substr(open, at + 1 - open);
        }
    }
    return sql.substr(open);
}

bool isOfWord(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/// A word of a statement, in capitals, and where it ends.
struct SqlWord {
    std::string text;
    std::size_t end{};
};

std::vector<SqlWord> wordsOf(const std::string& sql) {
    std::vector<SqlWord> words;
    for (std::size_t at = 0; at < sql.size(); ++at) {
        const std::size_t start = at;
        while (at < sql.size() && isOfWord(sql[at])) {
            ++at;
        }
        if (at > start) {
            words.push_back({upper(sql.substr(start, at - start)), at});
        }
    }
    return words;
}

/// Every condition of a table: the brackets after CHECK. Empty, as none of ours is, where anything
/// else follows the word: brackets in a comment would stand for those behind it.
std::vector<std::string> conditionsOf(const std::string& table) {
    std::vector<std::string> conditions;
    for (const SqlWord& word : wordsOf(table)) {
        if (word.text == "CHECK") {
            const auto open = table.find_first_not_of(' ', word.end);
            const bool isOpen = open != std::string::npos && table[open] == '(';
            conditions.push_back(isOpen ? bracketed(table, open) : std::string{});
        }
    }
    return conditions;
}

/// What a project of the present format has. Older formats have less of it and nothing else.
struct KnownSchema {
    std::set<std::string> tables;
    std::set<std::string> words;  ///< of all tables: no computed column or action has others
    std::set<std::string> conditions;
    std::map<std::string, std::string> others;  ///< triggers and indices, by name
};

std::string wordAfter(const std::string& statement, std::string_view start) {
    const std::size_t name = start.size();
    return statement.substr(name, statement.find(' ', name) - name);
}

void learn(const std::string& statement, KnownSchema& known) {
    if (statement.starts_with("CREATE TABLE ")) {
        known.tables.insert(wordAfter(statement, "CREATE TABLE "));
        for (auto& condition : conditionsOf(statement)) {
            known.conditions.insert(std::move(condition));
        }
        for (auto& word : wordsOf(statement)) {
            known.words.insert(std::move(word.text));
        }
        return;
    }
    for (const std::string_view start :
         {"CREATE INDEX ", "CREATE UNIQUE INDEX ", "CREATE TRIGGER "}) {
        if (statement.starts_with(start)) {
            known.others.emplace(wordAfter(statement, start), statement);
        }
    }
}

/// The statements of the schema: a trigger ends with "END;", the others with ";".
KnownSchema readKnownSchema() {
    KnownSchema known;
    known.words.insert("DEFAULT");  // of columns that a migration added
    const std::string sql = tidied(schemaSql()) + ";";
    for (std::size_t at = 0; at < sql.size();) {
        const bool isTrigger = sql.compare(at, 15, "CREATE TRIGGER ") == 0;
        const std::string_view end = isTrigger ? "END;" : ";";
        const std::size_t stop = sql.find(end, at);
        if (stop == std::string::npos) {
            break;
        }
        learn(tidied(std::string_view{sql}.substr(at, stop + end.size() - at)), known);
        at = sql.find_first_not_of(' ', stop + end.size());
    }
    return known;
}

bool isKnownTable(const KnownSchema& known, const std::string& name, const std::string& sql) {
    if (name == "sqlite_sequence") {
        return true;
    }
    const auto words = wordsOf(sql);
    if (!known.tables.contains(name) ||
        !std::all_of(words.begin(), words.end(),
                     [&known](const SqlWord& word) { return known.words.contains(word.text); })) {
        return false;
    }
    const auto conditions = conditionsOf(sql);
    return std::all_of(conditions.begin(), conditions.end(), [&known](const auto& condition) {
        return known.conditions.contains(condition);
    });
}

/// A row of sqlite_schema: type, name, sql.
bool isKnownObject(const KnownSchema& known, const std::string* type, const std::string* name,
                   const std::string* text) {
    if (type == nullptr || name == nullptr) {
        return false;
    }
    const std::string sql = text != nullptr ? tidied(*text) : std::string{};
    if (*type == "table") {
        return isKnownTable(known, *name, sql);
    }
    const auto other = known.others.find(*name);
    return text == nullptr ? *type == "index"  // SQLite's own, for UNIQUE
                           : other != known.others.end() && other->second == sql;
}

}  // namespace

Result<void> checkSchema(Database& database) {
    static const KnownSchema kKnown = readKnownSchema();
    const auto expectKnown = [&database](const Row& object) -> Result<void> {
        const auto* type = std::get_if<std::string>(&object.at(0));
        const auto* name = std::get_if<std::string>(&object.at(1));
        if (!isKnownObject(kKnown, type, name, std::get_if<std::string>(&object.at(2)))) {
            return fail(ErrorCode::Damaged,
                        said("{} holds something that no project has ({} {}), and is not "
                             "opened: it could do harm. Nothing was changed. Restore a copy "
                             "of the file.",
                             database.file().string(), type != nullptr ? *type : said("an object"),
                             name != nullptr ? *name : said("without a name")));
        }
        return ok();
    };
    return database.forEach("SELECT type, name, sql FROM sqlite_schema", {}, expectKnown);
}

}  // namespace core::project
