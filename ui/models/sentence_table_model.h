#pragma once

#include <QAbstractTableModel>
#include <QStringList>
#include <vector>

#include "core/project/ids.h"

namespace ui::models {

/// A table of short texts; behind each row stand a sentence and the shots that it rests on.
/// Confined.
class SentenceTableModel : public QAbstractTableModel {
    Q_OBJECT

public:
    struct Row {
        QStringList cells;
        QString sentence;
        std::vector<core::project::ShotId> shots;
    };

    explicit SentenceTableModel(QStringList headers, QObject* parent = nullptr);

    void show(std::vector<Row> rows);
    [[nodiscard]] const Row& row(int at) const { return m_rows.at(static_cast<std::size_t>(at)); }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    QStringList m_headers;
    std::vector<Row> m_rows;
};

}  // namespace ui::models
