#include "ui/style/data_table.h"

#include <QEvent>
#include <QHeaderView>
#include <QKeyEvent>
#include <QResizeEvent>
#include <QScrollBar>
#include <QTableView>
#include <QTimer>
#include <algorithm>
#include <functional>
#include <utility>

#include "ui/style/tabular_font.h"
#include "ui/style/tokens.h"

namespace ui::style {
namespace {

int rowHeightOf(const QTableView& view) {
    return heightFor(kRowHeightPx, view.fontMetrics().height());
}

/// A table that knows how high a row has to be, and how many it is of use with at least.
class RowsTable : public QTableView {
public:
    explicit RowsTable(double fewestRows) : m_fewestRows{fewestRows} {
        verticalHeader()->setDefaultSectionSize(m_rowHeightPx);
    }

    [[nodiscard]] QSize sizeHint() const override { return withRows(QTableView::sizeHint()); }
    [[nodiscard]] QSize minimumSizeHint() const override {
        return withRows(QTableView::minimumSizeHint());
    }

protected:
    void changeEvent(QEvent* event) override {
        QTableView::changeEvent(event);
        if (event->type() == QEvent::FontChange &&
            verticalHeader()->defaultSectionSize() == m_rowHeightPx) {
            m_rowHeightPx = rowHeightOf(*this);
            verticalHeader()->setDefaultSectionSize(m_rowHeightPx);
            updateGeometry();
        }
    }

private:
    [[nodiscard]] QSize withRows(QSize size) const {
        if (m_fewestRows > 0.0) {
            const double rowsPx = m_fewestRows * verticalHeader()->defaultSectionSize();
            size.setHeight(horizontalHeader()->sizeHint().height() + static_cast<int>(rowsPx));
        }
        return size;
    }

    double m_fewestRows;
    int m_rowHeightPx{rowHeightOf(*this)};  ///< as far as nobody else decides on it
};

/// In a list of rows Home and End go to the first and the last row, where Qt goes along the row.
class MannersOfList : public QObject {
public:
    explicit MannersOfList(QTableView* view) : QObject{view}, m_view{*view} {
        view->installEventFilter(this);
    }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (watched == &m_view && event->type() == QEvent::KeyPress) {
            return goToEnd(*static_cast<QKeyEvent*>(event));
        }
        return QObject::eventFilter(watched, event);
    }

private:
    bool goToEnd(const QKeyEvent& key) {
        const int rows = m_view.model()->rowCount();
        const bool isEnd = key.key() == Qt::Key_Home || key.key() == Qt::Key_End;
        if (!isEnd || key.modifiers() != Qt::NoModifier || rows == 0) {
            return false;
        }
        const int column = std::max(0, m_view.currentIndex().column());
        m_view.setCurrentIndex(
            m_view.model()->index(key.key() == Qt::Key_Home ? 0 : rows - 1, column));
        return true;
    }

    QTableView& m_view;
};

}  // namespace

QTableView* makeTable(QAbstractItemModel* model, double fewestRows) {
    auto* view = new RowsTable{fewestRows};
    view->setModel(model);
    return view;
}

QTableView* makeDataTable(QAbstractItemModel* model, double fewestRows) {
    QTableView* view = makeTable(model, fewestRows);
    view->setSelectionBehavior(QAbstractItemView::SelectRows);
    view->setSelectionMode(QAbstractItemView::SingleSelection);
    view->setEditTriggers(QAbstractItemView::NoEditTriggers);
    view->setShowGrid(false);
    view->setTabKeyNavigation(false);
    view->setFont(style::tabularFont(view->font()));
    view->verticalHeader()->hide();
    view->horizontalHeader()->setHighlightSections(false);
    view->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    view->horizontalHeader()->setStretchLastSection(true);
    new MannersOfList{view};  // the view owns it
    return view;
}

namespace {

/// The same whether the column is hidden or not, for which Qt says zero; the first one never is.
/// Qt measures heads as if they were bold.
int headWidthOf(const QTableView& view, int column) {
    const QHeaderView& heads = *view.horizontalHeader();
    QFont bold = heads.font();
    bold.setBold(true);
    const QFontMetrics metrics{bold};
    const auto advance = [&](int of) {
        return metrics.horizontalAdvance(view.model()->headerData(of, Qt::Horizontal).toString());
    };
    return advance(column) + std::max(0, heads.sectionSizeHint(0) - advance(0));
}

/// With its head and a pixel or two of frame; no column is narrower than Qt lets it be.
int wantedWidthOf(const QTableView& view, int column) {
    const QAbstractItemView& items = view;
    return std::max({items.sizeHintForColumn(column), headWidthOf(view, column),
                     view.horizontalHeader()->minimumSectionSize()});
}

/// What columns may take, whether or not a vertical scroll bar is there: what is decided by it
/// never makes the bar come or go, and is not decided again.
int roomOf(const QTableView& view) {
    return view.maximumViewportSize().width() - view.verticalScrollBar()->sizeHint().width();
}

/// Calls `fit` whenever the view has another width, other texts or larger ones. Owned by its view.
class Fitting : public QObject {
public:
    Fitting(QTableView* view, std::function<void()> fit) : QObject{view}, m_fit{std::move(fit)} {
        // A bar below would hide a row, which other widths may be wanted without, and so on for
        // ever.
        view->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
        view->viewport()->installEventFilter(this);
        view->installEventFilter(this);
        m_later.setSingleShot(true);
        m_later.setInterval(0);
        connect(&m_later, &QTimer::timeout, this, [this, view] {
            // Qt makes columns as wide as their words when rows come, not when words change.
            const int last = view->model()->columnCount() - 1;  // takes what is left
            for (int column = 0; column < last; ++column) {
                view->resizeColumnToContents(column);
            }
            m_fit();
        });
        const auto later = [this] { m_later.start(); };
        const auto* model = view->model();
        connect(model, &QAbstractItemModel::modelReset, this, later);
        connect(model, &QAbstractItemModel::layoutChanged, this, later);
        connect(model, &QAbstractItemModel::dataChanged, this, later);
    }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::FontChange) {
            m_later.start();
        } else if (event->type() == QEvent::Resize && watched != parent()) {
            const auto* resize = static_cast<QResizeEvent*>(event);
            if (resize->size().width() != resize->oldSize().width()) {
                m_fit();
            }
        }
        return QObject::eventFilter(watched, event);
    }

private:
    std::function<void()> m_fit;
    QTimer m_later;
};

void shrinkColumn(QTableView& view, int shrinking) {
    constexpr int kLeastLetters = 12;  // of the column that gives way
    constexpr int kLastShare = 4;      // what the last column may ask for: a quarter of the view
    const int width = roomOf(view);
    const int last = view.model()->columnCount() - 1;
    int others = std::min(wantedWidthOf(view, last), width / kLastShare);
    for (int column = 0; column < last; ++column) {
        const bool isOther = column != shrinking && !view.isColumnHidden(column);
        others += isOther ? view.columnWidth(column) : 0;
    }
    const int wanted = wantedWidthOf(view, shrinking);
    const int least = kLeastLetters * view.fontMetrics().averageCharWidth();
    view.setColumnWidth(shrinking, std::clamp(width - others, std::min(least, wanted), wanted));
}

void makeRoom(QTableView& view, const std::vector<int>& columns) {
    int missing = -roomOf(view);
    for (int column = 0; column < view.model()->columnCount(); ++column) {
        missing += wantedWidthOf(view, column);
    }
    for (const int column : columns) {
        const bool isHidden = missing > 0;
        if (view.isColumnHidden(column) != isHidden) {
            view.setColumnHidden(column, isHidden);
        }
        missing -= isHidden ? wantedWidthOf(view, column) : 0;
    }
}

}  // namespace

void letColumnShrink(QTableView* view, int column) {
    view->horizontalHeader()->setSectionResizeMode(column, QHeaderView::Interactive);
    new Fitting{view, [view, column] { shrinkColumn(*view, column); }};  // the view owns it
}

void hideToMakeRoom(QTableView* view, std::vector<int> columns) {
    new Fitting{view, [view, columns = std::move(columns)] { makeRoom(*view, columns); }};
}

}  // namespace ui::style
