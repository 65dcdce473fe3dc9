#include <QHeaderView>
#include <QListView>
#include <QPainter>
#include <QStyleOption>
#include <QTableView>
#include <algorithm>

#include "ui/style/row_ground.h"
#include "ui/style/tokens.h"
#include "ui/style/window_parts.h"

namespace ui::style {
namespace {

constexpr double kTabLinePx = 2.0;
constexpr int kScrollInsetPx = 3;
constexpr double kProgressHeightPx = 4.0;

/// Whether the cell is the first of its row, where the bar of the selection stands.
bool isFirstInRow(const QStyleOptionViewItem& option, const QWidget* view) {
    if (const auto* table = qobject_cast<const QTableView*>(view)) {
        return table->horizontalHeader()->sectionPosition(option.index.column()) == 0;
    }
    return option.viewItemPosition == QStyleOptionViewItem::OnlyOne ||
           option.viewItemPosition == QStyleOptionViewItem::Beginning ||
           option.viewItemPosition == QStyleOptionViewItem::Invalid;
}

}  // namespace

void paintChosenRow(QPainter& painter, const QRect& rect, const QPalette& palette, RowBar bar) {
    painter.fillRect(rect, colour(Token::Pale, palette));
    if (bar != RowBar::None) {
        const Token ink = bar == RowBar::Focused ? Token::Ink : Token::Edge;
        painter.fillRect(QRect{rect.topLeft(), QSize{kSelectionBarPx, rect.height()}},
                         colour(ink, palette));
    }
}

void drawItemGround(QPainter& painter, const QStyleOptionViewItem& option, const QWidget* view) {
    const bool isTable = qobject_cast<const QTableView*>(view) != nullptr;
    const QRect room = option.rect.adjusted(0, 0, 0, isTable ? -1 : 0);  // the row's line stays
    if (option.backgroundBrush.style() != Qt::NoBrush) {
        painter.fillRect(room, option.backgroundBrush);
    }
    if (option.state.testFlag(QStyle::State_Selected)) {
        const bool hasFocus = view != nullptr && view->hasFocus();
        const RowBar bar = !isFirstInRow(option, view) ? RowBar::None
                           : hasFocus                  ? RowBar::Focused
                                                       : RowBar::Unfocused;
        paintChosenRow(painter, room, option.palette, bar);
    } else if (option.state.testFlag(QStyle::State_MouseOver) && !isTable) {
        painter.fillRect(room, colour(Token::Hover, option.palette));
    }
}

void drawRowLine(QPainter& painter, const QStyleOption& option, const QWidget* view) {
    const auto* table = qobject_cast<const QTableView*>(view);
    if (table != nullptr && !table->showGrid()) {
        painter.fillRect(QRect{option.rect.left(), option.rect.bottom(), option.rect.width(), 1},
                         colour(Token::Line, option.palette));
    }
}

void drawTabShape(QPainter& painter, const QStyleOptionTab& option) {
    const QRect& rect = option.rect;
    if (option.state.testFlag(QStyle::State_Selected)) {
        painter.fillRect(QRectF{rect.left() + 4.0, rect.bottom() + 1.0 - kTabLinePx,
                                rect.width() - 8.0, kTabLinePx},
                         colour(Token::Ink, option.palette));
    } else if (option.state.testFlag(QStyle::State_MouseOver) &&
               option.state.testFlag(QStyle::State_Enabled)) {
        painter.fillRect(rect.adjusted(0, 0, 0, -1), colour(Token::Hover, option.palette));
    }
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        drawFocusRing(painter, rect.adjusted(1, 2, -1, -4), option.palette);
    }
}

void drawHeadGround(QPainter& painter, const QStyleOption& option, Qt::Orientation orientation) {
    const QRect& rect = option.rect;
    painter.fillRect(rect, colour(Token::Surface, option.palette));
    const QColor edge = colour(Token::Edge, option.palette);
    if (orientation == Qt::Horizontal) {
        painter.fillRect(QRect{rect.left(), rect.bottom(), rect.width(), 1}, edge);
    } else {
        painter.fillRect(QRect{rect.right(), rect.top(), 1, rect.height()}, edge);
        painter.fillRect(QRect{rect.left(), rect.bottom(), rect.width(), 1},
                         colour(Token::Line, option.palette));
    }
}

void drawScrollBar(QPainter& painter, const QStyleOptionSlider& option, const QRect& handle) {
    painter.fillRect(option.rect, colour(Token::Ground, option.palette));
    if (option.minimum == option.maximum) {
        return;
    }
    const bool isHeld = option.state.testFlag(QStyle::State_Sunken) ||
                        option.state.testFlag(QStyle::State_MouseOver);
    const int along = 1;
    const bool isUpright = option.orientation == Qt::Vertical;
    const QRectF bar = QRectF{handle}.adjusted(
        isUpright ? kScrollInsetPx : along, isUpright ? along : kScrollInsetPx,
        isUpright ? -kScrollInsetPx : -along, isUpright ? -along : -kScrollInsetPx);
    const double radius = std::min(bar.width(), bar.height()) / 2.0;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour(isHeld ? Token::Quiet : Token::Edge, option.palette));
    painter.drawRoundedRect(bar, radius, radius);
    painter.restore();
}

void drawProgressGroove(QPainter& painter, const QStyleOption& option) {
    const double y = QRectF{option.rect}.center().y() - kProgressHeightPx / 2;
    painter.fillRect(QRectF{static_cast<double>(option.rect.left()), y,
                            static_cast<double>(option.rect.width()), kProgressHeightPx},
                     colour(Token::Line, option.palette));
}

void drawProgressBar(QPainter& painter, const QStyleOptionProgressBar& option) {
    const QRectF all{option.rect};
    const double y = all.center().y() - kProgressHeightPx / 2;
    const double range = option.maximum - option.minimum;
    const double share =
        range > 0.0 ? std::clamp((option.progress - option.minimum) / range, 0.0, 1.0) : 1.0;
    painter.fillRect(QRectF{all.left(), y, share * all.width(), kProgressHeightPx},
                     colour(Token::Ink, option.palette));
}

}  // namespace ui::style
