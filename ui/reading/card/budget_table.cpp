#include "ui/reading/card/budget_table.h"

#include <QHeaderView>
#include <QResizeEvent>
#include <QScrollBar>

#include "core/base/words.h"
#include "ui/models/number_text.h"
#include "ui/reading/card/reading_words.h"
#include "ui/reading/reading_look.h"
#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"

namespace ui::reading {

using core::spin::BudgetRow;
using core::spin::Distribution;

BudgetTable::BudgetTable(QWidget* parent) : QTableWidget{parent} {
    setAccessibleName(tr("Uncertainty budget"));
    setColumnCount(3);
    setEditTriggers(NoEditTriggers);
    setSelectionMode(NoSelection);
    setFocusPolicy(Qt::NoFocus);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setWordWrap(true);
    verticalHeader()->hide();
    horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(2, QHeaderView::ResizeToContents);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void BudgetTable::setBudget(const core::spin::UncertaintyBudget& budget) {
    const QString unit = QString::fromStdString(budget.unit);
    setRowCount(0);
    setHorizontalHeaderLabels({tr("Contribution"), tr("u / %1").arg(unit), tr("Share / %")});
    for (const BudgetRow& row : budget.rows) {
        addRow(row, unit);
    }
    BudgetRow sum;
    sum.name = tr("Combined").toStdString();
    sum.contribution = budget.combined;
    sum.share = 1.0;
    addRow(sum, unit);
    const QFont& bold = style::textFont(font(), style::TextSize::Body, style::Weight::Strong);
    for (int column = 0; column < columnCount(); ++column) {
        item(rowCount() - 1, column)->setFont(bold);
    }
    item(rowCount() - 1, 0)->setText(tr("Combined"));
    resizeRowsToContents();
    updateGeometry();
}

void BudgetTable::addRow(const BudgetRow& row, const QString& unit) {
    const int at = rowCount();
    insertRow(at);
    const bool isAssessed = row.distribution != Distribution::NotAssessed;
    const QString name = QString::fromStdString(core::saidText(row.name));
    auto* first = new QTableWidgetItem{name + QLatin1Char('\n') + distributionText(row)};
    first->setToolTip(tr("%1\nvalue %2 %3, %4\nsensitivity %5 %6 per %3")
                          .arg(name)
                          .arg(models::numberText(row.value, 'g', 6))
                          .arg(QString::fromStdString(row.unit), distributionText(row))
                          .arg(models::numberText(row.sensitivity, 'g', 4))
                          .arg(unit));
    setItem(at, 0, first);
    const auto number = [&](int column, const QString& text) {
        auto* cell = new QTableWidgetItem{isAssessed ? text : QStringLiteral("–")};
        cell->setFont(style::tabularFont(font()));
        cell->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
        setItem(at, column, cell);
    };
    number(1, valueText(row.contribution, row.contribution));
    number(2, fixedText(100.0 * row.share, 1));
}

int BudgetTable::contentHeight() const {
    int height = horizontalHeader()->sizeHint().height() + 2 * frameWidth();
    for (int row = 0; row < rowCount(); ++row) {
        height += rowHeight(row);
    }
    return height;
}

QSize BudgetTable::sizeHint() const {
    return {220, contentHeight()};
}

QSize BudgetTable::minimumSizeHint() const {
    return {160, contentHeight()};
}

void BudgetTable::resizeEvent(QResizeEvent* event) {
    QTableWidget::resizeEvent(event);
    if (event->size().width() != event->oldSize().width()) {
        resizeRowsToContents();
        updateGeometry();
    }
}

}  // namespace ui::reading
