#include "ui/reading/shot/shot_delegate.h"

#include <QPainter>

#include "core/report/series_look.h"
#include "ui/chart/series_drawing.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/shot_groups.h"
#include "ui/reading/shot/shot_list_model.h"
#include "ui/style/name_lines.h"
#include "ui/style/row_ground.h"
#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"
#include "ui/style/turn_mark.h"

namespace ui::reading {
namespace {

using style::TextSize;
using style::Token;
using style::Weight;

constexpr int kRowBallPx = 34;
constexpr int kRowBallLeftPx = 10;
constexpr int kWordsLeftPx = kRowBallLeftPx + kRowBallPx + 9;
constexpr int kRowRightPx = 8;

struct RateWidths {
    int spin{};
    int sigma{};
};

/// Spin over uncertainty, right aligned.
RateWidths paintRate(QPainter& painter, const QRect& row, const QStyleOptionViewItem& option,
                     const QModelIndex& index) {
    const QString rate = index.data(ShotListModel::RateRole).toString();
    const QString sigma = index.data(ShotListModel::SigmaRole).toString();
    const bool isKept = index.data(ShotListModel::IsKeptRole).toBool();
    const QFont body = style::tabularFont(option.font);
    const QRect place = row.adjusted(0, 4, -kRowRightPx, -4);
    painter.setFont(
        style::textFont(body, TextSize::Number, isKept ? Weight::Strong : Weight::Regular));
    painter.setPen(style::colour(isKept ? Token::Text : Token::Quiet, option.palette));
    const QString shown = rate.isEmpty() ? QStringLiteral("–") : rate;
    RateWidths widths{painter.fontMetrics().horizontalAdvance(shown), 0};
    const Qt::Alignment height = rate.isEmpty() ? Qt::AlignVCenter : Qt::AlignTop;
    painter.drawText(place, static_cast<int>(Qt::AlignRight | height), shown);
    painter.setFont(style::textFont(body, TextSize::Small));
    painter.setPen(style::colour(Token::Quiet, option.palette));
    painter.drawText(place, Qt::AlignRight | Qt::AlignBottom, sigma);
    widths.sigma = rate.isEmpty() ? widths.spin : painter.fontMetrics().horizontalAdvance(sigma);
    return widths;
}

/// The head of a cell: the implement with its whole name, the hitter, and what is decided.
void paintHead(QPainter& painter, const QStyleOptionViewItem& option, const QModelIndex& index) {
    constexpr double kShapePx = 4.0;
    const QRect& row = option.rect;
    const QPalette& palette = option.palette;
    painter.fillRect(row, style::colour(Token::Sunken, palette));
    painter.fillRect(QRect{row.left(), row.bottom(), row.width(), 1},
                     style::colour(Token::Line, palette));
    const QFont strong = style::textFont(option.font, TextSize::Body, Weight::Strong);
    const QFont small = style::textFont(option.font, TextSize::Small);
    const QFontMetrics smallMetrics{small};
    const QRect place = row.adjusted(kRowBallLeftPx, 2, -kRowRightPx, -2);
    const QString hitter = index.data(ShotGroups::HitterRole).toString();
    const QString count = index.data(ShotGroups::CountRole).toString();
    const QStringList lines = style::nameLines(index.data(ShotListModel::CellRole).toString(),
                                               QFontMetrics{strong}, smallMetrics, place.width());
    const bool isOneLine = lines.size() == 1;
    painter.setFont(isOneLine ? strong : small);
    painter.setPen(style::colour(Token::Text, palette));
    const int line = painter.fontMetrics().height();
    const int below = isOneLine ? smallMetrics.height() : 0;
    int top = place.top() + (place.height() - static_cast<int>(lines.size()) * line - below) / 2;
    const int beside = smallMetrics.horizontalAdvance(count);
    for (const QString& name : lines) {
        painter.drawText(QRect{place.left(), top, place.width(), line}, Qt::AlignLeft, name);
        top += line;
    }
    painter.setFont(small);
    painter.setPen(style::colour(Token::Quiet, palette));
    const int lastTop = isOneLine ? top : top - line;
    const QRect last{place.left(), lastTop, place.width(), smallMetrics.height()};
    painter.drawText(last, Qt::AlignRight | Qt::AlignVCenter, count);
    if (hitter.isEmpty()) {
        return;
    }
    const auto look = core::report::seriesLook(
        static_cast<std::size_t>(index.data(ShotGroups::HitterPlaceRole).toInt()));
    const int words = smallMetrics.horizontalAdvance(hitter);
    const int left = isOneLine ? last.left() + static_cast<int>(3.0 * kShapePx)
                               : last.right() - beside - style::kBetweenPx - words;
    style::drawShape(painter, chart::shapeOf(look),
                     {left - 2.0 * kShapePx, last.center().y() + 0.5}, kShapePx,
                     chart::colourOf(look, palette));
    painter.drawText(QRect{left, last.top(), words, last.height()},
                     Qt::AlignLeft | Qt::AlignVCenter, hitter);
}

}  // namespace

void ShotDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    const QRect& row = option.rect;
    const QPalette& palette = option.palette;
    painter->save();
    painter->setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    if (index.data(ShotGroups::IsHeadRole).toBool()) {
        painter->setRenderHint(QPainter::Antialiasing);
        paintHead(*painter, option, index);
        painter->restore();
        return;
    }
    if (option.state.testFlag(QStyle::State_Selected)) {
        style::paintChosenRow(*painter, row, palette, style::RowBar::Focused);
    } else if (option.state.testFlag(QStyle::State_MouseOver)) {
        painter->fillRect(row, style::colour(Token::Hover, palette));
    }
    painter->fillRect(QRect{row.left(), row.bottom(), row.width(), 1},
                      style::colour(Token::Line, palette));
    painter->setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    style::drawRoundBall(
        *painter,
        QRectF{static_cast<double>(row.left() + kRowBallLeftPx),
               row.top() + (row.height() - kRowBallPx) / 2.0, kRowBallPx, kRowBallPx},
        index.data(ShotListModel::BallRole).value<QImage>(), palette);
    const RateWidths rate = paintRate(*painter, row, option, index);
    const QRect words = row.adjusted(kWordsLeftPx, 4, -kRowRightPx - 8, -4);
    painter->setFont(
        style::textFont(style::tabularFont(option.font), TextSize::Body, Weight::Strong));
    painter->setPen(palette.color(QPalette::Text));
    const QString number = index.data(ShotListModel::NumberRole).toString();
    painter->drawText(words, Qt::AlignLeft | Qt::AlignTop, number);
    const int line = painter->fontMetrics().height();
    const int numberWidth = painter->fontMetrics().horizontalAdvance(number) + 7;
    const auto state = static_cast<ShotState>(index.data(ShotListModel::StateRole).toInt());
    const SignLook look = signOf(state);
    const double side = line * 0.85;
    style::drawSign(*painter, look.sign,
                    {words.left() + static_cast<double>(numberWidth),
                     words.top() + (line - side) / 2.0, side, side},
                    style::colour(look.token, palette));
    painter->setFont(style::textFont(option.font, TextSize::Small));
    painter->setPen(style::colour(Token::Quiet, palette));
    const auto& metrics = painter->fontMetrics();
    const int stateLeft = numberWidth + static_cast<int>(side) + 4;
    const QString below = index.data(ShotListModel::CellRole).toString();
    const QString stateWords = below == nameOf(state) ? QString{} : nameOf(state);
    const int stateRoom = words.width() - stateLeft - rate.spin;
    if (metrics.horizontalAdvance(stateWords) <= stateRoom) {  // else the sign says it
        painter->drawText(QRect{words.left() + stateLeft, words.top(), stateRoom, line},
                          Qt::AlignLeft | Qt::AlignVCenter, stateWords);
    }
    painter->drawText(words, Qt::AlignLeft | Qt::AlignBottom,
                      metrics.elidedText(below, Qt::ElideMiddle, words.width() - rate.sigma));
    painter->restore();
}

QSize ShotDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
    return {160, std::max(style::kTwoLineRowPx, 2 * option.fontMetrics.height() + 10)};
}

}  // namespace ui::reading
