#include "ui/models/ranked_filter.h"

#include <algorithm>

#include "ui/models/ranked_table_model.h"

namespace ui::models {

RankedFilter::RankedFilter(QObject* parent) : QSortFilterProxyModel{parent} {
    setSortRole(RankedTableModel::kSortRole);
    setSortCaseSensitivity(Qt::CaseInsensitive);
}

void RankedFilter::narrow(const QString& words, const QString& condition, const QString& band) {
    m_words = words.simplified().split(QLatin1Char{' '}, Qt::SkipEmptyParts);
    m_condition = condition;
    m_band = band;
    invalidateFilter();
}

bool RankedFilter::filterAcceptsRow(int row, const QModelIndex& parent) const {
    const QModelIndex index = sourceModel()->index(row, RankedTableModel::kImplement, parent);
    const QString condition = index.data(RankedTableModel::kConditionRole).toString();
    if (!m_condition.isNull() && condition != m_condition) {
        return false;
    }
    if (!m_band.isNull() && index.data(RankedTableModel::kBandRole).toString() != m_band) {
        return false;
    }
    const QString text = index.data().toString() + QLatin1Char{' '} + condition;
    return std::all_of(m_words.begin(), m_words.end(), [&text](const QString& word) {
        return text.contains(word, Qt::CaseInsensitive);
    });
}

}  // namespace ui::models
