#include "core/publish/tables/workbook.h"

#include <xlsxwriter.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "core/base/neutral_locale.h"
#include "core/base/words.h"
#include "core/publish/drawing/utf8.h"
#include "core/publish/figures/figure.h"

namespace core::publish {
namespace {

constexpr std::size_t kMaxSheetRows = 1'048'575;  ///< below the header (ECMA-376)
constexpr std::size_t kMaxCellLetters = 32'767;   ///< UTF-16 units in a cell (ECMA-376)

struct SheetStyles {
    lxw_format* heading{};
    lxw_format* whole{};
    lxw_format* number{};
    lxw_format* small{};
    lxw_format* wrapped{};
};

SheetStyles stylesOf(lxw_workbook* workbook) {
    SheetStyles styles{workbook_add_format(workbook), workbook_add_format(workbook),
                       workbook_add_format(workbook), workbook_add_format(workbook),
                       workbook_add_format(workbook)};
    format_set_bold(styles.heading);
    format_set_bottom(styles.heading, LXW_BORDER_THIN);
    format_set_text_wrap(styles.heading);
    format_set_align(styles.heading, LXW_ALIGN_VERTICAL_TOP);
    format_set_num_format(styles.whole, "0");
    format_set_num_format(styles.number, "0.0");
    format_set_num_format(styles.small, "0.0000");
    format_set_text_wrap(styles.wrapped);
    format_set_align(styles.wrapped, LXW_ALIGN_VERTICAL_TOP);
    return styles;
}

/// Cut to what a cell holds; letters outside the basic plane count twice.
std::string sheetText(std::string_view text) {
    std::string cut;
    std::size_t units = 0;
    for (const char32_t letter : lettersOf(plainText(text))) {
        units += letter > 0xFFFF ? 2U : 1U;
        if (units > kMaxCellLetters) {
            break;
        }
        appendUtf8(cut, letter);
    }
    return cut;
}

void writeText(lxw_worksheet* sheet, std::size_t row, std::size_t column, std::string_view text,
               lxw_format* style = nullptr) {
    worksheet_write_string(sheet, static_cast<lxw_row_t>(row), static_cast<lxw_col_t>(column),
                           sheetText(text).c_str(), style);
}

void writeSheetCell(lxw_worksheet* sheet, std::size_t row, std::size_t column,
                    const report::Cell& cell, const report::Field& field,
                    const SheetStyles& styles) {
    const auto atRow = static_cast<lxw_row_t>(row);
    const auto atColumn = static_cast<lxw_col_t>(column);
    if (const auto* truth = std::get_if<bool>(&cell)) {
        worksheet_write_boolean(sheet, atRow, atColumn, *truth ? 1 : 0, nullptr);
    } else if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
        worksheet_write_number(sheet, atRow, atColumn, static_cast<double>(*whole), styles.whole);
    } else if (const auto* number = std::get_if<double>(&cell)) {
        worksheet_write_number(sheet, atRow, atColumn, *number,
                               field.unit == "rpm" ? styles.number : styles.small);
    } else if (const auto* text = std::get_if<std::string>(&cell)) {
        writeText(sheet, row, column, *text);
    }
}

double columnWidth(const report::Field& field) {
    if (field.name == "sentence" || field.name == "reason") {
        return 60.0;
    }
    const double name = static_cast<double>(field.name.size());
    return field.type == report::FieldType::Text ? std::clamp(name, 18.0, 28.0)
                                                 : std::clamp(0.75 * name, 10.0, 18.0);
}

void writeTable(lxw_workbook* workbook, const report::Table& table, const SheetStyles& styles) {
    lxw_worksheet* const sheet = workbook_add_worksheet(workbook, table.name.c_str());
    for (std::size_t column = 0; column < table.fields.size(); ++column) {
        const auto at = static_cast<lxw_col_t>(column);
        worksheet_set_column(sheet, at, at, columnWidth(table.fields[column]), nullptr);
        writeText(sheet, 0, column, table.fields[column].name, styles.heading);
    }
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        for (std::size_t column = 0; column < table.fields.size(); ++column) {
            writeSheetCell(sheet, row + 1, column, table.rows[row][column], table.fields[column],
                           styles);
        }
    }
    worksheet_freeze_panes(sheet, 1, 0);
    worksheet_autofilter(sheet, 0, 0, static_cast<lxw_row_t>(table.rows.size()),
                         static_cast<lxw_col_t>(table.fields.size() - 1));
}

void writeColumns(lxw_workbook* workbook, const std::vector<report::Table>& tables,
                  const Origin& origin, const SheetStyles& styles) {
    lxw_worksheet* const sheet = workbook_add_worksheet(workbook, "columns");
    worksheet_set_column(sheet, 0, 0, 16.0, nullptr);
    worksheet_set_column(sheet, 1, 1, 28.0, nullptr);
    worksheet_set_column(sheet, 2, 2, 10.0, nullptr);
    worksheet_set_column(sheet, 3, 3, 90.0, nullptr);
    writeText(sheet, 0, 0, origin.title, styles.heading);
    writeText(sheet, 1, 0, origin.line());
    std::size_t row = 3;
    writeText(sheet, row, 0, said("sheet"), styles.heading);
    writeText(sheet, row, 1, said("column"), styles.heading);
    writeText(sheet, row, 2, said("unit"), styles.heading);
    writeText(sheet, row, 3, said("meaning"), styles.heading);
    ++row;
    for (const auto& table : tables) {
        writeText(sheet, row, 0, table.name, styles.heading);
        writeText(sheet, row++, 3, table.description, styles.wrapped);
        for (const auto& field : table.fields) {
            writeText(sheet, row, 0, table.name);
            writeText(sheet, row, 1, field.name);
            writeText(sheet, row, 2, field.unit);
            writeText(sheet, row++, 3, field.description, styles.wrapped);
        }
    }
}

}  // namespace

Result<void> writeWorkbook(const std::filesystem::path& file,
                           const std::vector<report::Table>& tables, const Origin& origin) {
    for (const auto& table : tables) {
        if (table.rows.size() > kMaxSheetRows) {
            return fail(ErrorCode::Unsupported, said("The table {} has more rows than a sheet can "
                                                     "hold. The CSV files hold them all.",
                                                     table.name));
        }
    }
    const NeutralLocale decimalPoint;  // libxlsxwriter writes numbers by printf
    lxw_workbook* const workbook = workbook_new(file.c_str());
    if (workbook == nullptr) {
        return fail(ErrorCode::WriteFailed, said("Cannot make {}.", file.string()));
    }
    const std::string title = cutToWidth(origin.title, 200.0, 1.0);
    const std::string comments = sheetText(origin.line());
    const std::string program = origin.program;
    lxw_doc_properties properties{};
    properties.title = const_cast<char*>(title.c_str());        // NOLINT(*-const-cast): the library
    properties.comments = const_cast<char*>(comments.c_str());  // NOLINT(*-const-cast): copies them
    properties.company = const_cast<char*>(program.c_str());    // NOLINT(*-const-cast)
    properties.created = std::max<std::time_t>(origin.lastChangeSeconds(), 1);
    workbook_set_properties(workbook, &properties);
    const SheetStyles styles = stylesOf(workbook);
    writeColumns(workbook, tables, origin, styles);
    for (const auto& table : tables) {
        writeTable(workbook, table, styles);
    }
    const lxw_error status = workbook_close(workbook);
    if (status != LXW_NO_ERROR) {
        return fail(ErrorCode::WriteFailed,
                    said("Cannot write {}: {}.", file.string(), lxw_strerror(status)));
    }
    return ok();
}

}  // namespace core::publish
