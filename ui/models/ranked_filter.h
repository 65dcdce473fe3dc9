#pragma once

#include <QSortFilterProxyModel>

namespace ui::models {

/// Rows of a RankedTableModel in the order of any column, and of them those that are looked for.
/// Confined.
class RankedFilter : public QSortFilterProxyModel {
    Q_OBJECT

public:
    explicit RankedFilter(QObject* parent = nullptr);

    /// Every word must occur in name or condition, letters of either case. Of condition and band a
    /// null text is any, an empty one those without.
    void narrow(const QString& words, const QString& condition, const QString& band);

protected:
    [[nodiscard]] bool filterAcceptsRow(int row, const QModelIndex& parent) const override;

private:
    QStringList m_words;
    QString m_condition;
    QString m_band;
};

}  // namespace ui::models
