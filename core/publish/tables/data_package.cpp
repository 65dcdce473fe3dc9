#include "core/publish/tables/data_package.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string_view>

#include "core/base/words.h"
#include "core/media/file/sha256.h"
#include "core/publish/drawing/utf8.h"

namespace core::publish {
namespace {

using PackageJson = nlohmann::ordered_json;

std::string_view schemaType(report::FieldType type) {
    switch (type) {
        case report::FieldType::Text:
            return "string";
        case report::FieldType::Whole:
            return "integer";
        case report::FieldType::Number:
            return "number";
        case report::FieldType::Truth:
            return "boolean";
        case report::FieldType::Moment:
            return "datetime";
    }
    return "any";
}

PackageJson fieldJson(const report::Field& field) {
    PackageJson json{{"name", field.name}, {"type", schemaType(field.type)}};
    if (field.type == report::FieldType::Truth) {
        json["trueValues"] = {"true"};
        json["falseValues"] = {"false"};
    }
    if (!field.unit.empty()) {
        json["unit"] = field.unit;
    }
    json["description"] = field.description;
    if (!field.allowed.empty()) {
        json["constraints"] = {{"enum", field.allowed}};
    }
    return json;
}

PackageJson schemaJson(const report::Table& table) {
    PackageJson fields = PackageJson::array();
    for (const auto& field : table.fields) {
        fields.push_back(fieldJson(field));
    }
    PackageJson schema{{"fields", fields}, {"missingValues", PackageJson::array({""})}};
    if (!table.primaryKey.empty()) {
        schema["primaryKey"] = table.primaryKey;
    }
    for (const auto& reference : table.references) {
        schema["foreignKeys"].push_back(
            {{"fields", reference.field},
             {"reference",
              {{"resource", reference.table},
               {"fields",
                reference.fieldThere.empty() ? reference.field : reference.fieldThere}}}});
    }
    return schema;
}

PackageJson resourceJson(const TableFile& file) {
    return {{"profile", "tabular-data-resource"},
            {"name", file.table->name},
            {"path", file.name},
            {"title", file.table->title},
            {"description", file.table->description},
            {"format", "csv"},
            {"mediatype", "text/csv"},
            {"encoding", "utf-8"},
            {"bytes", file.content.size()},
            {"hash", "sha256:" + media::sha256(file.content)},
            {"dialect",
             {{"delimiter", ","},
              {"lineTerminator", "\r\n"},
              {"quoteChar", "\""},
              {"doubleQuote", true},
              {"header", true}}},
            {"schema", schemaJson(*file.table)}};
}

/// Author, licence and how to cite, where they were entered. A licence is named by its identifier
/// ("CC-BY-4.0") or its address, as the standard asks.
void addCredits(PackageJson& package, const Origin& origin) {
    if (!origin.credits.author.empty()) {
        package["contributors"] = PackageJson::array(
            {PackageJson{{"title", singleLine(origin.credits.author)}, {"role", "author"}}});
    }
    if (!origin.credits.licence.empty()) {
        const std::string licence = singleLine(origin.credits.licence);
        if (licence.starts_with("https://") || licence.starts_with("http://")) {
            package["licenses"] = PackageJson::array({PackageJson{{"path", licence}}});
        } else {
            std::string name = licence;
            std::replace(name.begin(), name.end(), ' ', '-');
            package["licenses"] =
                PackageJson::array({PackageJson{{"name", name}, {"title", licence}}});
        }
    }
    if (!origin.credits.citeAs.empty()) {
        package["citation"] = singleLine(origin.credits.citeAs);
    }
}

}  // namespace

std::string dataPackageJson(const std::vector<TableFile>& files, const Origin& origin) {
    PackageJson resources = PackageJson::array();
    for (const auto& file : files) {
        resources.push_back(resourceJson(file));
    }
    PackageJson package{
        {"profile", "tabular-data-package"},
        {"name", "spin-rates"},
        {"title", singleLine(origin.title)},
        {"description", said("Spin rates of a struck ball, read from video, with their "
                             "uncertainty. 1 rpm is one turn a minute. A text that a spreadsheet "
                             "would run as a formula (it begins with = + - @, a tab or a carriage "
                             "return) has an apostrophe in front. Numbers read back exactly.")},
        {"version", "revision " + std::to_string(origin.revision)}};
    if (!origin.lastChange.empty()) {
        package["created"] = origin.lastChange;
    }
    package["written_by"] = origin.program;
    addCredits(package, origin);
    package["resources"] = resources;
    return package.dump(2, ' ', false, PackageJson::error_handler_t::replace) + "\n";
}

}  // namespace core::publish
