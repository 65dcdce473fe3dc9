#include "ui/doubts/doubt_delegate.h"

#include <QHeaderView>
#include <QPainter>
#include <algorithm>

#include "ui/doubts/doubt_list_model.h"
#include "ui/style/row_ground.h"
#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"
#include "ui/style/turn_mark.h"

namespace ui::doubts {
namespace {

using style::Sign;
using style::TextSize;
using style::Token;

constexpr int kRowPx = 60;
constexpr double kSignLeftPx = 14.0;
constexpr double kSignPx = 20.0;
constexpr double kBallLeftPx = 46.0;
constexpr double kBallPx = 40.0;
constexpr double kCellSignPx = 26.0;
constexpr int kWordsLeftPx = 96;
constexpr int kWordsRightPx = 8;
constexpr int kLeastWidthPx = 220;

struct Line {
    QString words;
    QString behind;  ///< at the right end
    QFont font;
    QColor colour;
    Qt::TextElideMode elide{Qt::ElideRight};
};

void paintLines(QPainter& painter, const QRect& room, std::initializer_list<Line> lines,
                const QFont& behindFont, const QColor& behindColour) {
    int height = 0;
    for (const Line& line : lines) {
        height += QFontMetrics{line.font}.height();
    }
    int top = room.top() + (room.height() - height) / 2;
    for (const Line& line : lines) {
        const QFontMetrics metrics{line.font};
        const QRect place{room.left(), top, room.width(), metrics.height()};
        const int behind =
            line.behind.isEmpty()
                ? 0
                : QFontMetrics{behindFont}.horizontalAdvance(line.behind) + style::kBetweenPx;
        painter.setFont(behindFont);
        painter.setPen(behindColour);
        painter.drawText(place, Qt::AlignRight | Qt::AlignVCenter, line.behind);
        painter.setFont(line.font);
        painter.setPen(line.colour);
        // Drawn letters may be a pixel wider than measured ones: they are not clipped for that.
        painter.drawText(place, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextDontClip,
                         metrics.elidedText(line.words, line.elide, place.width() - behind));
        top += metrics.height();
    }
}

}  // namespace

std::pair<Sign, Token> signOf(const core::doubts::Doubted& item) {
    using core::doubts::Grade;
    if (item.isSettled) {
        return {Sign::Done, Token::Done};
    }
    switch (item.doubts.front().grade) {
        case Grade::Grave:
            return {Sign::Grave, Token::Grave};
        case Grade::Question:
            return {Sign::Question, Token::Question};
        case Grade::Note:
            break;
    }
    return {Sign::Note, Token::Quiet};
}

DoubtDelegate::DoubtDelegate(const DoubtListModel& model, QObject* parent)
    : QStyledItemDelegate{parent}, m_model{model} {}

int DoubtDelegate::rowHeight(const QFont& font) {
    const int lines = 2 * QFontMetrics{font}.height() +
                      QFontMetrics{style::textFont(font, TextSize::Small)}.height();
    return std::max(kRowPx, lines + style::kBetweenPx);
}

void DoubtDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    const auto* item = m_model.itemAt(index.row());
    if (item == nullptr) {
        return;
    }
    const QRect& row = option.rect;
    const QPalette& palette = option.palette;
    painter->save();
    painter->setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter->setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    if (option.state.testFlag(QStyle::State_Selected)) {
        const bool hasKeys = option.widget != nullptr && option.widget->hasFocus();
        style::paintChosenRow(*painter, row, palette,
                              hasKeys ? style::RowBar::Focused : style::RowBar::Unfocused);
    } else if (option.state.testFlag(QStyle::State_MouseOver)) {
        painter->fillRect(row, style::colour(Token::Hover, palette));
    }
    painter->fillRect(QRect{row.left(), row.bottom(), row.width(), 1},
                      style::colour(Token::Line, palette));
    const double middle = row.top() + row.height() / 2.0;
    const auto square = [&](double left, double side) {
        return QRectF{row.left() + left, middle - side / 2.0, side, side};
    };
    const auto [sign, token] = signOf(*item);
    style::drawSign(*painter, sign, square(kSignLeftPx, kSignPx), style::colour(token, palette));
    if (item->shot) {
        style::drawRoundBall(*painter, square(kBallLeftPx, kBallPx),
                             index.data(DoubtListModel::BallRole).value<QImage>(), palette);
    } else {
        style::drawSign(*painter, Sign::Findings,
                        square(kBallLeftPx + (kBallPx - kCellSignPx) / 2.0, kCellSignPx),
                        style::colour(Token::Quiet, palette));
    }
    const QFont body = style::tabularFont(option.font);
    const QColor ink = palette.color(QPalette::Text);
    const QFont strong = style::textFont(body, TextSize::Body, style::Weight::Strong);
    const QFont small = style::textFont(body, TextSize::Small);
    const QRect words = row.adjusted(kWordsLeftPx, 0, -kWordsRightPx, -1);
    const QColor quiet = style::colour(Token::Quiet, palette);
    const QString cell = index.data(DoubtListModel::CellRole).toString();
    const QString which = index.data(DoubtListModel::WhichRole).toString();
    const QString both = cell.isEmpty() ? which : cell + QStringLiteral(" · ") + which;
    const QString numbers = index.data(DoubtListModel::NumbersRole).toString();
    // A long name has the line to itself where there is room for the rest behind the numbers. What
    // is still too long loses its beginning, which the names of one test share.
    const QFontMetrics narrow{small};
    const bool isBehind = narrow.horizontalAdvance(both) > words.width() && !cell.isEmpty() &&
                          QFontMetrics{body}.horizontalAdvance(numbers) + style::kBetweenPx +
                                  narrow.horizontalAdvance(which) <=
                              words.width();
    paintLines(*painter, words,
               {{index.data(DoubtListModel::ReasonRole).toString(), {}, strong, ink},
                {numbers, isBehind ? which : QString{}, body, ink},
                {isBehind ? cell : both, {}, small, quiet, Qt::ElideLeft}},
               small, quiet);
    painter->restore();
}

QSize DoubtDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
    return {kLeastWidthPx, rowHeight(option.font)};
}

void showAsDoubtRows(QTableView& table, const DoubtListModel& model) {
    table.horizontalHeader()->hide();
    table.horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    table.verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table.setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    table.setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    table.setMouseTracking(true);
    table.setItemDelegate(new DoubtDelegate{model, &table});
    fitDoubtRows(table);
}

void fitDoubtRows(QTableView& table) {
    table.verticalHeader()->setDefaultSectionSize(DoubtDelegate::rowHeight(table.font()));
}

}  // namespace ui::doubts
