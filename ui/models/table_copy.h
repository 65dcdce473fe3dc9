#pragma once

#include <QStringList>
#include <memory>
#include <vector>

class QAction;
class QMimeData;
class QTableView;

namespace ui::models {

/// A table for a spreadsheet, as text with tabs and as an HTML table. Cells are one line each and
/// safe to open (sheetText()).
[[nodiscard]] std::unique_ptr<QMimeData> sheetOf(const QStringList& headers,
                                                 const std::vector<QStringList>& rows);
/// One line, so that a name with a tab or a line break stays in its cell; a text that a spreadsheet
/// would run is guarded (core/report/csv.h).
[[nodiscard]] QString sheetText(const QString& text);
/// The same of a number that people read: with a decimal point in every language, as in CSV.
[[nodiscard]] QString sheetNumber(QString shown);

/// Gives a list the action and the key that copy its chosen rows with all columns that its model
/// has; the list owns it.
QAction* addCopyAction(QTableView& list);

}  // namespace ui::models
