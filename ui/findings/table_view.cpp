#include "ui/findings/table_view.h"

#include <QLabel>
#include <QTableView>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/models/table_copy.h"
#include "ui/style/data_table.h"
#include "ui/style/plain_label.h"

namespace ui::findings {

TableView::TableView(QStringList headers, const QString& name, QWidget* parent)
    : QWidget{parent},
      m_rows{new models::SentenceTableModel{std::move(headers), this}},
      m_table{style::makeDataTable(m_rows)},
      m_summary{new QLabel},
      m_sentence{new QLabel} {
    m_table->setAccessibleName(name);
    m_table->setToolTip(tr("↑ ↓ choose a row; Enter shows its shots"));
    style::letColumnShrink(m_table, 0);
    models::addCopyAction(*m_table);
    for (QLabel* label : {m_summary, m_sentence}) {
        style::showPlainWords(label);
    }
    m_sentence->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(m_summary);
    layout->addWidget(m_table, 1);
    layout->addWidget(m_sentence);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &TableView::sayChosen);
    connect(m_table, &QTableView::activated, this, [this](const QModelIndex& index) {
        Q_EMIT shotsWanted(m_rows->row(index.row()).shots);
    });
}

void TableView::show(const QString& summary, std::vector<models::SentenceTableModel::Row> rows) {
    const int before = m_table->currentIndex().row();
    m_summary->setText(summary);
    m_rows->show(std::move(rows));
    m_table->setVisible(m_rows->rowCount() > 0);
    if (m_rows->rowCount() > 0) {
        m_table->selectRow(std::clamp(before, 0, m_rows->rowCount() - 1));
    }
    sayChosen();
}

void TableView::sayChosen() {
    const auto index = m_table->currentIndex();
    m_sentence->setText(index.isValid() && index.row() < m_rows->rowCount()
                            ? m_rows->row(index.row()).sentence
                            : QString{});
}

}  // namespace ui::findings
