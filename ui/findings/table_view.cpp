#include "ui/findings/table_view.h"

#include <QHeaderView>
#include <QLabel>
#include <QTableView>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/style/tabular_font.h"

namespace ui::findings {

QTableView* makeFindingsTable(QAbstractItemModel* model) {
    auto* view = new QTableView;
    view->setModel(model);
    view->setSelectionBehavior(QAbstractItemView::SelectRows);
    view->setSelectionMode(QAbstractItemView::SingleSelection);
    view->setEditTriggers(QAbstractItemView::NoEditTriggers);
    view->setAlternatingRowColors(true);
    view->setShowGrid(false);
    view->setTabKeyNavigation(false);
    view->setFont(style::tabularFont(view->font()));
    view->verticalHeader()->hide();
    view->verticalHeader()->setDefaultSectionSize(view->fontMetrics().height() + 6);
    view->horizontalHeader()->setHighlightSections(false);
    view->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    view->horizontalHeader()->setStretchLastSection(true);
    return view;
}

TableView::TableView(QStringList headers, const QString& name, QWidget* parent)
    : QWidget{parent},
      m_rows{new models::SentenceTableModel{std::move(headers), this}},
      m_table{makeFindingsTable(m_rows)},
      m_summary{new QLabel},
      m_sentence{new QLabel} {
    m_table->setAccessibleName(name);
    m_table->setToolTip(QStringLiteral("↑ ↓ choose a row; Enter shows its shots"));
    m_summary->setWordWrap(true);
    m_sentence->setWordWrap(true);
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
