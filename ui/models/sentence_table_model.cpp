#include "ui/models/sentence_table_model.h"

#include "ui/models/plain_tip.h"

namespace ui::models {

SentenceTableModel::SentenceTableModel(QStringList headers, QObject* parent)
    : QAbstractTableModel{parent}, m_headers{std::move(headers)} {}

void SentenceTableModel::show(std::vector<Row> rows) {
    beginResetModel();
    m_rows = std::move(rows);
    endResetModel();
}

int SentenceTableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int SentenceTableModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_headers.size());
}

QVariant SentenceTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    if (role == Qt::DisplayRole) {
        return row.cells.value(index.column());
    }
    return role == Qt::ToolTipRole ? QVariant{plainTip(row.sentence)} : QVariant{};
}

QVariant SentenceTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    return orientation == Qt::Horizontal && role == Qt::DisplayRole
               ? QVariant{m_headers.value(section)}
               : QVariant{};
}

}  // namespace ui::models
