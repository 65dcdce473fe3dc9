#pragma once

#include <QWidget>
#include <vector>

#include "ui/models/sentence_table_model.h"

class QLabel;
class QTableView;

namespace ui::findings {

/// A summary, a table, and below it what is said of the chosen row. Confined.
class TableView : public QWidget {
    Q_OBJECT

public:
    TableView(QStringList headers, const QString& name, QWidget* parent = nullptr);

    void show(const QString& summary, std::vector<models::SentenceTableModel::Row> rows);

Q_SIGNALS:
    /// The shots that the chosen row rests on are wanted.
    void shotsWanted(const std::vector<core::project::ShotId>& shots);

private:
    void sayChosen();

    models::SentenceTableModel* m_rows;
    QTableView* m_table;
    QLabel* m_summary;
    QLabel* m_sentence;
};

}  // namespace ui::findings
