#include "core/intake/tally_sheet.h"

#include <algorithm>
#include <fstream>
#include <sstream>

#include "core/base/alike.h"
#include "core/base/number.h"
#include "core/base/words.h"
#include "core/intake/tally_words.h"

/// From the fields of a table to a sheet with its header.
namespace core::intake {
namespace {

constexpr std::array<std::string_view, kTallyRoles> kRoleNames{
    toSay("leave out"),    toSay("implement"), toSay("condition"),       toSay("hitter"),
    toSay("shot"),         toSay("frames"),    toSay("frames per turn"), toSay("start frame"),
    toSay("return frame"), toSay("turns"),     toSay("capture rate"),    toSay("attribute")};

struct ShapeText {
    TallyShape shape;
    std::string_view name;
    std::string_view words;
};
constexpr std::array kShapes{
    ShapeText{TallyShape::ShotRows, "shots", toSay("one row for each shot")},
    ShapeText{TallyShape::CellRows, "cells",
              toSay("one row for each implement and hitter, one column for each shot")},
    ShapeText{TallyShape::HitterBlocks, "hitters",
              toSay("one row for each implement, the hitters side by side")}};

std::size_t filledOf(const TextRow& row) {
    return static_cast<std::size_t>(std::count_if(
        row.fields.begin(), row.fields.end(), [](const auto& field) { return !field.empty(); }));
}

/// No number stands in it but those that count shots up from 1.
bool isHeaderLike(const TextRow& row) {
    int last = 0;
    for (const std::string& field : row.fields) {
        if (!isNumber(field)) {
            continue;
        }
        const auto shot = shotHeader(field);
        if (!shot || (shot->number != 1 && shot->number != last + 1)) {
            return false;
        }
        last = shot->number;
    }
    return true;
}

std::size_t shotsNumberedIn(const TextRow& row) {
    return static_cast<std::size_t>(
        std::count_if(row.fields.begin(), row.fields.end(),
                      [](const auto& field) { return shotHeader(field).has_value(); }));
}

/// The first row that is no title. Titles stand above a header, one field alone in a row; a word
/// that could name a column ("Counts") is a title only where the header names columns as well.
std::vector<TextRow>::iterator afterTitles(std::vector<TextRow>& rows) {
    const auto namesColumn = [](const std::string& field) {
        return roleOfHeader(field).has_value();
    };
    const auto header = std::find_if_not(rows.begin(), rows.end(), [](const TextRow& row) {
        return filledOf(row) == 1 && !row.fields.front().empty();
    });
    if (header == rows.end() || !isHeaderLike(*header)) {
        return rows.begin();
    }
    const bool couldBeHeader = std::any_of(
        rows.begin(), header, [&](const TextRow& row) { return namesColumn(row.fields.front()); });
    const bool isHeader =
        !couldBeHeader || (!header->fields.front().empty() &&
                           std::any_of(header->fields.begin(), header->fields.end(), namesColumn));
    return isHeader ? header : rows.begin();
}

/// Whether a row below the first one of a header numbers the shots of its blocks.
bool isSecondHeader(const TextRow& first, const TextRow& second) {
    const std::string& name = second.fields.front();
    return isHeaderLike(second) && shotsNumberedIn(second) > 1 && shotsNumberedIn(first) == 0 &&
           (name.empty() || roleOfHeader(name) || first.fields.front().empty());
}

void takeHeaders(TallySheet& sheet, const TextRow& upper, const TextRow& lower) {
    std::string over;
    for (std::size_t i = 0; i < lower.fields.size(); ++i) {
        over = upper.fields[i].empty() ? over : upper.fields[i];
        if (lower.fields[i].empty()) {
            sheet.headers[i] = upper.fields[i];
            over.clear();
        } else {
            sheet.headers[i] = lower.fields[i];
            sheet.upperHeaders[i] = over;
        }
    }
}

}  // namespace

std::string_view roleName(TallyRole role) noexcept {
    return kRoleNames[static_cast<std::size_t>(role)];
}

std::string_view roleWords(TallyRole role) {
    return words::inLanguage(roleName(role));
}

std::optional<TallyRole> roleNamed(std::string_view name) {
    for (std::size_t i = 0; i < kRoleNames.size(); ++i) {
        if (alikeKey(name) == alikeKey(kRoleNames[i]) ||
            alikeKey(name) == alikeKey(words::inLanguage(kRoleNames[i]))) {
            return static_cast<TallyRole>(i);
        }
    }
    return std::nullopt;
}

std::string_view shapeName(TallyShape shape) noexcept {
    return kShapes[static_cast<std::size_t>(shape)].name;
}

std::optional<TallyShape> shapeNamed(std::string_view name) noexcept {
    for (const ShapeText& known : kShapes) {
        if (known.name == name) {
            return known.shape;
        }
    }
    return std::nullopt;
}

std::string_view shapeWords(TallyShape shape) {
    return words::inLanguage(kShapes[static_cast<std::size_t>(shape)].words);
}

Result<TallySheet> tallySheetFrom(std::string_view bytes) {
    BOOST_OUTCOME_TRY(grid, readTextGrid(bytes));
    if (grid.rows.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("The table is empty. It needs names in the first row and counts below."));
    }
    TallySheet sheet;
    sheet.encoding = grid.encoding;
    sheet.separator = grid.separator;
    sheet.headers.resize(grid.columns);
    sheet.upperHeaders.resize(grid.columns);
    auto row = afterTitles(grid.rows);
    if (isHeaderLike(*row)) {
        const auto first = row++;
        if (row != grid.rows.end() && isSecondHeader(*first, *row)) {
            takeHeaders(sheet, *first, *row++);
        } else {
            sheet.headers = first->fields;
        }
    }
    sheet.rows.assign(std::make_move_iterator(row), std::make_move_iterator(grid.rows.end()));
    return sheet;
}

Result<TallySheet> readTallySheet(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(bytes, readTextFile(file));
    auto sheet = tallySheetFrom(bytes);
    if (!sheet) {
        return fail(sheet.error().code, file.filename().string() + ": " + sheet.error().message);
    }
    return sheet;
}

std::string columnLabel(const TallySheet& sheet, std::size_t column) {
    const std::string& header = sheet.headers[column];
    const std::string& upper = sheet.upperHeaders[column];
    if (header.empty()) {
        return said("column {}", columnLetters(column));
    }
    return upper.empty() ? header : upper + " " + header;
}

std::optional<std::size_t> columnLabelled(const TallySheet& sheet, std::string_view label) {
    for (std::size_t i = 0; i < sheet.headers.size(); ++i) {
        if (alikeKey(columnLabel(sheet, i)) == alikeKey(label)) {
            return i;
        }
    }
    for (std::size_t i = 0; i < sheet.headers.size(); ++i) {
        if (columnLetters(i) == label) {
            return i;
        }
    }
    return std::nullopt;
}

std::string describeSheet(const TallySheet& sheet, const TallyLayout& layout) {
    const auto encoding = encodingName(sheet.encoding);
    const auto shape = shapeWords(shapeOf(layout));
    switch (sheet.separator) {
        case '\t':
            return said("Read as {}, separated by tabs: {}.", encoding, shape);
        case ';':
            return said("Read as {}, separated by semicolons: {}.", encoding, shape);
        default:
            return said("Read as {}, separated by commas: {}.", encoding, shape);
    }
}

Result<std::string> readTextFile(const std::filesystem::path& file) {
    std::error_code problem;
    if (!std::filesystem::is_regular_file(file, problem)) {
        return fail(ErrorCode::NotFound, said("There is no file {}.", file.string()));
    }
    std::ifstream stream{file, std::ios::binary};
    std::ostringstream text;
    text << stream.rdbuf();
    if (!stream.is_open() || stream.bad()) {
        return fail(ErrorCode::Unreadable,
                    said("{} cannot be read. Check that you may read it.", file.string()));
    }
    return text.str();
}

}  // namespace core::intake
