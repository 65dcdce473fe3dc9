#include "ui/findings/table_view.h"

#include <QEvent>
#include <QHeaderView>
#include <QLabel>
#include <QTableView>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/findings/plain_label.h"
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

namespace {

/// Gives one column its width anew whenever the view or what stands in it changes. Owned by its
/// view.
class ShrinkingColumn : public QObject {
public:
    ShrinkingColumn(QTableView* view, int column) : QObject{view}, m_view{view}, m_column{column} {
        m_view->horizontalHeader()->setSectionResizeMode(column, QHeaderView::Interactive);
        m_view->viewport()->installEventFilter(this);
        const auto later = [this] { QTimer::singleShot(0, this, [this] { fit(); }); };
        const auto* model = m_view->model();
        connect(model, &QAbstractItemModel::modelReset, this, later);
        connect(model, &QAbstractItemModel::layoutChanged, this, later);
        connect(model, &QAbstractItemModel::dataChanged, this, later);
    }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::Resize) {
            fit();
        }
        return QObject::eventFilter(watched, event);
    }

private:
    [[nodiscard]] int wantedWidth(int column) const {
        const QAbstractItemView* view = m_view;
        return std::max(view->sizeHintForColumn(column),
                        m_view->horizontalHeader()->sectionSizeHint(column));
    }

    void fit() const {
        constexpr int kLeastLetters = 12;  // of the column that gives way
        constexpr int kLastShare = 4;  // what the last column may ask for: a quarter of the view
        const int width = m_view->viewport()->width();
        const int last = m_view->model()->columnCount() - 1;
        int others = std::min(wantedWidth(last), width / kLastShare);
        for (int column = 0; column < last; ++column) {
            const bool isOther = column != m_column && !m_view->isColumnHidden(column);
            others += isOther ? m_view->columnWidth(column) : 0;
        }
        const int wanted = wantedWidth(m_column);
        const int least = kLeastLetters * m_view->fontMetrics().averageCharWidth();
        m_view->setColumnWidth(m_column,
                               std::clamp(width - others, std::min(least, wanted), wanted));
    }

    QTableView* m_view;
    int m_column;
};

}  // namespace

void letColumnShrink(QTableView* view, int column) {
    new ShrinkingColumn{view, column};  // the view owns it
}

TableView::TableView(QStringList headers, const QString& name, QWidget* parent)
    : QWidget{parent},
      m_rows{new models::SentenceTableModel{std::move(headers), this}},
      m_table{makeFindingsTable(m_rows)},
      m_summary{new QLabel},
      m_sentence{new QLabel} {
    m_table->setAccessibleName(name);
    m_table->setToolTip(QStringLiteral("↑ ↓ choose a row; Enter shows its shots"));
    letColumnShrink(m_table, 0);
    for (QLabel* label : {m_summary, m_sentence}) {
        showPlainWords(label);
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
