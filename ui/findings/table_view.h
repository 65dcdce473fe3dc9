#pragma once

#include <QWidget>
#include <vector>

#include "ui/models/sentence_table_model.h"

class QAbstractItemModel;
class QLabel;
class QTableView;

namespace ui::findings {

/// A read-only table of the findings: rows are chosen whole, Enter activates, Tab leaves it.
[[nodiscard]] QTableView* makeFindingsTable(QAbstractItemModel* model);

/// Where the columns need more than the view is wide, this one gives way: its texts are cut short
/// rather than those of the last column, which takes what is left and at least a little.
void letColumnShrink(QTableView* view, int column);

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
