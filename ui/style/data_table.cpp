#include "ui/style/data_table.h"

#include <QEvent>
#include <QHeaderView>
#include <QTableView>
#include <QTimer>
#include <algorithm>

#include "ui/style/tabular_font.h"
#include "ui/style/tokens.h"

namespace ui::style {

QTableView* makeDataTable(QAbstractItemModel* model) {
    auto* view = new QTableView;
    view->setModel(model);
    view->setSelectionBehavior(QAbstractItemView::SelectRows);
    view->setSelectionMode(QAbstractItemView::SingleSelection);
    view->setEditTriggers(QAbstractItemView::NoEditTriggers);
    view->setShowGrid(false);
    view->setTabKeyNavigation(false);
    view->setFont(style::tabularFont(view->font()));
    view->verticalHeader()->hide();
    view->verticalHeader()->setDefaultSectionSize(
        heightFor(kRowHeightPx, view->fontMetrics().height()));
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

}  // namespace ui::style
