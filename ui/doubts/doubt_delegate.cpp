#include "ui/doubts/doubt_delegate.h"

#include <QHeaderView>
#include <QPainter>
#include <QPainterPath>
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

void paintThumbnail(QPainter& painter, const QRectF& place, const QImage& ball,
                    const QPalette& palette) {
    if (ball.isNull()) {
        style::drawBall(painter, place.center(), place.width() / 2.0 - 1.0, 0.0,
                        style::BallLook::Outline, palette);
        return;
    }
    QPainterPath round;
    round.addEllipse(place);
    painter.save();
    painter.setClipPath(round);
    painter.drawImage(place, ball);
    painter.restore();
}

struct Line {
    QString words;
    const QFont& font;
    QColor colour;
    Qt::TextElideMode elide;
};

void paintLines(QPainter& painter, const QRect& room, std::initializer_list<Line> lines) {
    int height = 0;
    for (const Line& line : lines) {
        height += QFontMetrics{line.font}.height();
    }
    int top = room.top() + (room.height() - height) / 2;
    for (const Line& line : lines) {
        const QFontMetrics metrics{line.font};
        painter.setFont(line.font);
        painter.setPen(line.colour);
        painter.drawText(QRect{room.left(), top, room.width(), metrics.height()},
                         Qt::AlignLeft | Qt::AlignVCenter,
                         metrics.elidedText(line.words, line.elide, room.width()));
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
        paintThumbnail(*painter, square(kBallLeftPx, kBallPx),
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
    paintLines(*painter, row.adjusted(kWordsLeftPx, 0, -kWordsRightPx, -1),
               {{index.data(DoubtListModel::ReasonRole).toString(), strong, ink, Qt::ElideRight},
                {index.data(DoubtListModel::NumbersRole).toString(), body, ink, Qt::ElideRight},
                {index.data(DoubtListModel::WhoseRole).toString(), small,
                 style::colour(Token::Quiet, palette), Qt::ElideMiddle}});
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
