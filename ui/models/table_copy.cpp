#include "ui/models/table_copy.h"

#include <QAction>
#include <QClipboard>
#include <QCoreApplication>
#include <QGuiApplication>
#include <QMimeData>
#include <QTableView>
#include <algorithm>

#include "core/base/words.h"
#include "core/report/csv.h"

namespace ui::models {
namespace {

QString htmlRow(const QStringList& cells, const QString& tag) {
    QString row = QStringLiteral("<tr>");
    for (const QString& cell : cells) {
        row += QStringLiteral("<%1>%2</%1>").arg(tag, cell.toHtmlEscaped());
    }
    return row + QStringLiteral("</tr>\n");
}

QString sheetCell(const QModelIndex& index) {
    const auto side = Qt::Alignment{index.data(Qt::TextAlignmentRole).toInt()};
    const QString shown = index.data().toString();
    return side.testFlag(Qt::AlignRight) ? sheetNumber(shown) : sheetText(shown);
}

void copyChosenRows(const QTableView& list) {
    const auto& model = *list.model();
    auto chosen = list.selectionModel()->selectedRows();
    if (chosen.isEmpty()) {
        return;
    }
    std::sort(chosen.begin(), chosen.end());
    QStringList headers;
    for (int column = 0; column < model.columnCount(); ++column) {
        headers << sheetText(model.headerData(column, Qt::Horizontal, Qt::DisplayRole).toString());
    }
    std::vector<QStringList> rows;
    for (const QModelIndex& index : chosen) {
        QStringList cells;
        for (int column = 0; column < model.columnCount(); ++column) {
            cells << sheetCell(model.index(index.row(), column));
        }
        rows.push_back(std::move(cells));
    }
    QGuiApplication::clipboard()->setMimeData(sheetOf(headers, rows).release());
}

}  // namespace

QString sheetText(const QString& text) {
    return QString::fromStdString(
        core::report::guardedForSpreadsheets(text.simplified().toStdString()));
}

QString sheetNumber(QString shown) {
    return sheetText(shown.replace(QLatin1Char(core::words::decimalSign()), QLatin1Char('.')));
}

std::unique_ptr<QMimeData> sheetOf(const QStringList& headers,
                                   const std::vector<QStringList>& rows) {
    QString text = headers.join(QLatin1Char{'\t'}) + QLatin1Char{'\n'};
    QString html = QStringLiteral("<meta charset=\"utf-8\"><table>\n") +
                   htmlRow(headers, QStringLiteral("th"));
    for (const QStringList& cells : rows) {
        text += cells.join(QLatin1Char{'\t'}) + QLatin1Char{'\n'};
        html += htmlRow(cells, QStringLiteral("td"));
    }
    auto data = std::make_unique<QMimeData>();
    data->setText(text);
    data->setHtml(html + QStringLiteral("</table>"));
    return data;
}

QAction* addCopyAction(QTableView& list) {
    auto* copy =
        new QAction{QCoreApplication::translate("ui::models", "Copy rows as a table"), &list};
    copy->setObjectName(QStringLiteral("copy_rows"));
    copy->setShortcut(QKeySequence::Copy);
    copy->setShortcutContext(Qt::WidgetShortcut);
    QObject::connect(copy, &QAction::triggered, &list, [&list] { copyChosenRows(list); });
    list.addAction(copy);
    return copy;
}

}  // namespace ui::models
