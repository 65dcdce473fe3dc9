#include "ui/style/rows_layout.h"

#include <QWidget>
#include <algorithm>

namespace ui::style {
namespace {

int heightOf(const std::vector<QLayoutItem*>& row) {
    int height = 0;
    for (const QLayoutItem* item : row) {
        height = std::max(height, item->sizeHint().height());
    }
    return height;
}

int widthOf(const std::vector<QLayoutItem*>& row, int between) {
    int width = -between;
    for (const QLayoutItem* item : row) {
        width += item->sizeHint().width() + between;
    }
    return width;
}

}  // namespace

RowsLayout::RowsLayout(QWidget* parent, Rest rest) : QLayout{parent}, m_rest{rest} {}

RowsLayout::~RowsLayout() = default;

void RowsLayout::addItem(QLayoutItem* item) {
    m_items.emplace_back(item);
}

QLayoutItem* RowsLayout::itemAt(int index) const {
    return index >= 0 && index < count() ? m_items[static_cast<std::size_t>(index)].get() : nullptr;
}

QLayoutItem* RowsLayout::takeAt(int index) {
    if (index < 0 || index >= count()) {
        return nullptr;
    }
    QLayoutItem* taken = m_items[static_cast<std::size_t>(index)].release();
    m_items.erase(m_items.begin() + index);
    return taken;
}

std::vector<RowsLayout::Row> RowsLayout::rowsFor(int width) const {
    std::vector<Row> rows;
    int used = 0;
    for (const auto& item : m_items) {
        if (item->isEmpty()) {
            continue;  // hidden
        }
        const int wanted = item->sizeHint().width();
        if (rows.empty() || used + spacing() + wanted > width) {
            rows.emplace_back();
            used = -spacing();
        }
        rows.back().push_back(item.get());
        used += spacing() + wanted;
    }
    return rows;
}

int RowsLayout::heightForWidth(int width) const {
    int height = -spacing();
    for (const Row& row : rowsFor(width)) {
        height += heightOf(row) + spacing();
    }
    return std::max(height, 0);
}

QSize RowsLayout::minimumSize() const {
    QSize least;
    for (const auto& item : m_items) {
        if (!item->isEmpty()) {
            least = least.expandedTo(item->minimumSize());
        }
    }
    return least;
}

QSize RowsLayout::sizeHint() const {
    const auto rows = rowsFor(QWIDGETSIZE_MAX);
    return rows.empty() ? QSize{} : QSize{widthOf(rows.front(), spacing()), heightOf(rows.front())};
}

void RowsLayout::setGeometry(const QRect& place) {
    QLayout::setGeometry(place);
    const bool isMirrored =
        parentWidget() != nullptr && parentWidget()->layoutDirection() == Qt::RightToLeft;
    int top = place.top();
    for (const Row& row : rowsFor(place.width())) {
        const int height = heightOf(row);
        const int left =
            m_rest == Rest::Shared ? std::max(0, place.width() - widthOf(row, spacing())) : 0;
        int x = place.left();
        for (std::size_t i = 0; i < row.size(); ++i) {
            const int share =
                static_cast<int>((i + 1) * static_cast<std::size_t>(left) / row.size() -
                                 i * static_cast<std::size_t>(left) / row.size());
            const int width = std::min(row[i]->sizeHint().width() + share, place.width());
            const int shown = isMirrored ? place.left() + place.right() + 1 - x - width : x;
            row[i]->setGeometry({shown, top, width, height});
            x += width + spacing();
        }
        top += height + spacing();
    }
}

}  // namespace ui::style
