#include "ui/findings/ranking/ranked_delegate.h"

#include <QPainter>
#include <algorithm>

#include "ui/findings/ranking/ranked_look.h"
#include "ui/findings/ranking/ranked_view.h"
#include "ui/style/name_lines.h"
#include "ui/style/row_ground.h"
#include "ui/style/tokens.h"

namespace ui::findings {
namespace {

using models::RankedTableModel;

/// What is needed to write into a cell.
struct Writing {
    QPainter& painter;
    QRect room;
    const QStyleOptionViewItem& option;

    void write(const QString& text, const QFont& font, const QColor& ink,
               Qt::Alignment alignment) const {
        painter.setFont(font);
        painter.setPen(ink);
        painter.drawText(room, static_cast<int>(alignment | Qt::AlignVCenter) | Qt::TextSingleLine,
                         text);
    }
};

/// Of many implements the letters are hundreds; only those that could have room are measured.
QString elidedRight(const QString& text, const QFontMetrics& metrics, int width) {
    const int narrowest = std::max(1, metrics.horizontalAdvance(QLatin1Char{'i'}) / 2);
    return metrics.elidedText(text.left(1 + width / narrowest), Qt::ElideRight, width);
}

void paintRank(const Writing& cell, const QModelIndex& index) {
    const QFont& bold = boldFont(cell.option.font);
    const QString rank = index.data().toString();
    cell.write(rank, bold, cell.option.palette.color(QPalette::Text), Qt::AlignLeft);
    Writing range{cell};
    range.room.setLeft(range.room.left() + QFontMetrics{bold}.horizontalAdvance(rank) + 5);
    range.write(index.data(RankedTableModel::kRangeRole).toString(), smallFont(cell.option.font),
                style::colour(style::Token::Quiet, cell.option.palette), Qt::AlignLeft);
}

void paintName(const Writing& cell, const QModelIndex& index) {
    const QFont& bold = boldFont(cell.option.font);
    const QFont& small = smallBoldFont(cell.option.font);
    const bool haveTwoRoom = 2 * QFontMetrics{small}.height() <= cell.room.height() + 4;
    const auto lines = haveTwoRoom
                           ? style::nameLines(index.data().toString(), QFontMetrics{bold},
                                              QFontMetrics{small}, cell.room.width())
                           : QStringList{QFontMetrics{bold}.elidedText(
                                 index.data().toString(), Qt::ElideLeft, cell.room.width())};
    const QColor ink = cell.option.palette.color(QPalette::Text);
    if (lines.size() == 1) {
        cell.write(lines.front(), bold, ink, Qt::AlignLeft);
        return;
    }
    Writing half{cell};
    half.room.setHeight(cell.room.height() / 2);
    half.write(lines[0], small, ink, Qt::AlignLeft);
    half.room.translate(0, cell.room.height() / 2);
    half.write(lines[1], small, ink, Qt::AlignLeft);
}

void paintRemarks(const Writing& cell, const QModelIndex& index) {
    const auto kind = index.data(RankedTableModel::kRemarkKindRole).value<models::RemarkKind>();
    drawRemarkSign(cell.painter, kind,
                   QPointF{cell.room.left() + 8.0, cell.room.top() + 0.5 * cell.room.height()},
                   cell.option.palette);
    if (cell.room.width() <= kSignPx) {
        return;
    }
    Writing words{cell};
    words.room.setLeft(words.room.left() + kSignPx);
    const QFont& small = smallFont(cell.option.font);
    words.write(elidedRight(index.data().toString(), QFontMetrics{small}, words.room.width()),
                small, style::colour(style::Token::Quiet, cell.option.palette), Qt::AlignLeft);
}

}  // namespace

RankedDelegate::RankedDelegate(RankedView& view) : QStyledItemDelegate{&view}, m_view{view} {}

void RankedDelegate::paintGround(QPainter& painter, const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const {
    const QRect above = option.rect.adjusted(0, 0, 0, -1);  // of the hairline
    if ((option.state & QStyle::State_Selected) != 0) {
        const bool hasBar = index.column() == 0 && index.row() == m_view.currentIndex().row();
        style::paintChosenRow(painter, above, option.palette,
                              !hasBar             ? style::RowBar::None
                              : m_view.hasFocus() ? style::RowBar::Focused
                                                  : style::RowBar::Unfocused);
    }
    painter.setPen(style::colour(style::Token::Line, option.palette));
    painter.drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
}

void RankedDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                           const QModelIndex& index) const {
    painter->setLayoutDirection(Qt::LeftToRight);  // places in a cell are not mirrored
    paintGround(*painter, option, index);
    const Writing cell{*painter, option.rect.adjusted(kCellSidePx, 0, -kCellSidePx, 0), option};
    const QColor ink = option.palette.color(QPalette::Text);
    const QColor quiet = style::colour(style::Token::Quiet, option.palette);
    switch (index.column()) {
        case RankedTableModel::kRank:
            paintRank({*painter, cell.room.adjusted(style::kSelectionBarPx, 0, 0, 0), option},
                      index);
            break;
        case RankedTableModel::kImplement:
            paintName(cell, index);
            break;
        case RankedTableModel::kMean:
            cell.write(index.data().toString(), boldFont(option.font), ink, Qt::AlignRight);
            break;
        case RankedTableModel::kCount:
        case RankedTableModel::kDeviation:
        case RankedTableModel::kInterval:
            cell.write(index.data().toString(), option.font, quiet, Qt::AlignRight);
            break;
        case RankedTableModel::kChart: {
            const QRectF room{option.rect};
            painter->save();
            painter->setClipRect(room);
            drawPlotGround(*painter, m_view.plot(), room, option.palette);
            drawMarks(*painter, m_view.plot(), room,
                      m_view.rows().marksOf(m_view.modelRow(index.row())), option.palette);
            painter->restore();
            break;
        }
        case RankedTableModel::kAlike:
            cell.write(index.data().toString(), boldFont(option.font), ink, Qt::AlignHCenter);
            break;
        case RankedTableModel::kRemarks:
            paintRemarks(cell, index);
            break;
        default:
            cell.write(elidedRight(index.data().toString(), option.fontMetrics, cell.room.width()),
                       option.font, quiet, Qt::AlignLeft);
            break;
    }
}

}  // namespace ui::findings
