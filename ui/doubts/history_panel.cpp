#include "ui/doubts/history_panel.h"

#include <QLineEdit>
#include <QSortFilterProxyModel>
#include <QTableView>
#include <QVBoxLayout>

#include "core/base/words.h"
#include "ui/models/local_time.h"
#include "ui/models/sentence_table_model.h"
#include "ui/style/data_table.h"

namespace ui::doubts {
HistoryPanel::HistoryPanel(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_rows{new models::SentenceTableModel{{tr("When"), tr("Reader"), tr("What")}, this}},
      m_found{new QSortFilterProxyModel{this}} {
    m_found->setSourceModel(m_rows);
    m_found->setFilterKeyColumn(-1);
    m_found->setFilterCaseSensitivity(Qt::CaseInsensitive);
    auto* words = new QLineEdit;
    words->setPlaceholderText(tr("Words to look for, for example a shot or a reader"));
    words->setClearButtonEnabled(true);
    auto* table = style::makeDataTable(m_found);
    table->setAccessibleName(tr("History of the project"));
    table->setToolTip(tr("Enter opens the shot of the line"));
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(words);
    layout->addWidget(table, 1);
    connect(words, &QLineEdit::textChanged, m_found, &QSortFilterProxyModel::setFilterFixedString);
    connect(table, &QTableView::activated, this, [this](const QModelIndex& index) {
        const auto& row = m_rows->row(m_found->mapToSource(index).row());
        if (!row.shots.empty() && m_store.snapshot()->shots.find(row.shots.front()) != nullptr) {
            Q_EMIT shotActivated(row.shots.front());
        }
    });
    m_listening = store.listen([this](const auto&) {
        if (isVisible()) {
            refresh();
        }
    });
}

void HistoryPanel::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

void HistoryPanel::refresh() {
    const auto revision = m_store.snapshot()->revision;
    if (revision == m_shownRevision) {
        return;
    }
    const auto lines = m_store.history();
    if (!lines) {
        Q_EMIT said(QString::fromStdString(lines.error().message));
        return;
    }
    m_shownRevision = revision;
    std::vector<models::SentenceTableModel::Row> rows;
    for (auto at = lines.value().rbegin(); at != lines.value().rend(); ++at) {
        const QString what = QString::fromStdString(at->what);
        models::SentenceTableModel::Row row{
            {models::localTime(at->at, QStringLiteral("yyyy-MM-dd HH:mm:ss")),
             QString::fromStdString(at->reader), what},
            what,
            {}};
        if (at->shot) {
            row.shots.push_back(*at->shot);
        }
        rows.push_back(std::move(row));
    }
    m_rows->show(std::move(rows));
}

}  // namespace ui::doubts
