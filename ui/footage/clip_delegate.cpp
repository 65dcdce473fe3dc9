#include "ui/footage/clip_delegate.h"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>

#include "ui/bridge/clip_pictures.h"
#include "ui/chart/series_drawing.h"
#include "ui/style/name_lines.h"
#include "ui/style/row_ground.h"
#include "ui/style/sign.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"
#include "ui/style/turn_mark.h"

namespace ui::footage {
namespace {

using models::ClipTableModel;
using style::TextSize;
using style::Token;
using style::Weight;

constexpr QSize kClipPicturePx{76, 42};
constexpr int kClipSidePx = 10;  ///< left and right of what stands in a cell
constexpr int kFlightsPx = 116;
constexpr int kMostFlights = 12;  ///< drawn as flights; more are posts alone
constexpr int kRowSignPx = 18;
constexpr int kRoundingPx = 2;  ///< widths of texts are told in whole pixels

int lineHeight(const QFont& font) {
    return QFontMetrics{font}.height();
}

/// A line over a second, small one, as if both were one block.
void paintTwoLines(QPainter& painter, const QRect& cell, const QString& first,
                   const QString& second, const QStyleOptionViewItem& option, Token firstInk) {
    const QFont strong = style::textFont(option.font, TextSize::Body, Weight::Strong);
    const QFont small = style::textFont(option.font, TextSize::Small);
    const int height = lineHeight(strong) + lineHeight(small);
    const int top = cell.top() + (cell.height() - height) / 2;
    painter.setFont(strong);
    painter.setPen(style::colour(firstInk, option.palette));
    painter.drawText(QRect{cell.left(), top, cell.width(), lineHeight(strong)},
                     Qt::AlignLeft | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(first, Qt::ElideMiddle, cell.width()));
    painter.setFont(small);
    painter.setPen(style::colour(Token::Quiet, option.palette));
    painter.drawText(QRect{cell.left(), top + lineHeight(strong), cell.width(), lineHeight(small)},
                     Qt::AlignLeft | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(second, Qt::ElideRight, cell.width()));
}

/// Posts at the strikes and, dotted, the flights from them, as on the time line.
void paintFlights(QPainter& painter, const QRect& cell, const ClipTableModel::Row& row,
                  const QPalette& palette) {
    const QRectF place{cell.left() + 0.0, cell.center().y() - 8.0, kFlightsPx + 0.0, 18.0};
    const auto xOf = [&](double part) { return place.left() + part * place.width(); };
    painter.setPen(QPen{style::colour(Token::Edge, palette), style::kHairlinePx});
    painter.drawLine(place.bottomLeft(), place.bottomRight());
    painter.setBrush(Qt::NoBrush);
    for (const auto& flight : row.flights) {
        const double strike = xOf(flight.strike);
        painter.setPen(QPen{style::colour(Token::Text, palette), 1.5});
        painter.drawLine(QPointF{strike, place.top() + 2.0}, QPointF{strike, place.bottom()});
        if (row.flights.size() > kMostFlights) {
            continue;
        }
        const double end = xOf(flight.end);
        QPainterPath path{{strike, place.top() + 2.0}};
        path.quadTo({(strike + end) / 2.0, place.top() - 2.0}, {end, place.center().y()});
        painter.setPen(QPen{style::colour(Token::Ink, palette), 1.5, Qt::DotLine});
        painter.drawPath(path);
    }
}

void paintCell(QPainter& painter, const QRect& cell, const ClipTableModel::Row& row,
               const QStyleOptionViewItem& option) {
    const QFont small = style::textFont(option.font, TextSize::Small);
    const QFontMetrics smallMetrics{small};
    const QStringList names =
        style::nameLines(row.implement, QFontMetrics{option.font}, smallMetrics, cell.width());
    const QFont& font = names.size() > 1 ? small : option.font;
    const int line = QFontMetrics{font}.height();
    const int last = row.hitter.isEmpty() ? 0 : smallMetrics.height();
    int top = cell.top() + (cell.height() - static_cast<int>(names.size()) * line - last) / 2;
    painter.setFont(font);
    painter.setPen(
        style::colour(row.hitter.isEmpty() ? Token::Quiet : Token::Text, option.palette));
    for (const QString& name : names) {
        painter.drawText(QRect{cell.left(), top, cell.width(), line},
                         Qt::AlignLeft | Qt::AlignVCenter, name);
        top += line;
    }
    if (last > 0) {
        constexpr double kShapePx = 4.0;
        const auto look = core::report::seriesLook(row.hitterPlace);
        style::drawShape(painter, chart::shapeOf(look), {cell.left() + kShapePx, top + last / 2.0},
                         kShapePx, chart::colourOf(look, option.palette));
        const int left = cell.left() + static_cast<int>(3.0 * kShapePx);
        painter.setFont(small);
        painter.setPen(style::colour(Token::Quiet, option.palette));
        painter.drawText(QRect{left, top, cell.right() - left, last},
                         Qt::AlignLeft | Qt::AlignVCenter,
                         smallMetrics.elidedText(row.hitter, Qt::ElideRight, cell.right() - left));
    }
}

void paintStanding(QPainter& painter, const QRect& cell, ClipTableModel::Standing standing,
                   const QPalette& palette) {
    using Standing = ClipTableModel::Standing;
    if (standing == Standing::Fine) {
        return;
    }
    const auto [sign, token] =
        standing == Standing::Grave      ? std::pair{style::Sign::Grave, Token::Grave}
        : standing == Standing::Question ? std::pair{style::Sign::Question, Token::Question}
                                         : std::pair{style::Sign::Note, Token::Quiet};
    const QRect square{cell.left(), cell.center().y() - kRowSignPx / 2, kRowSignPx, kRowSignPx};
    style::drawSign(painter, sign, square, style::colour(token, palette));
}

}  // namespace

int clipRowHeight(const QFont& font) {
    constexpr int kClipRowPx = 52;
    return std::max(kClipRowPx, 3 * lineHeight(style::textFont(font, TextSize::Small)) + 4);
}

ClipDelegate::ClipDelegate(const ClipTableModel& clips, bridge::ClipPictures& pictures,
                           QObject* parent)
    : QStyledItemDelegate{parent}, m_clips{clips}, m_pictures{pictures} {}

void ClipDelegate::paintPicture(QPainter& painter, const QStyleOptionViewItem& option,
                                core::project::ClipId clip) const {
    const double ratio = painter.device()->devicePixelRatioF();
    const QImage picture = m_pictures.pictureOf(clip, kClipPicturePx * ratio);
    const QRect& cell = option.rect;
    const QRectF place{cell.left() + 0.0 + kClipSidePx,
                       cell.top() + (cell.height() - kClipPicturePx.height()) / 2.0,
                       kClipPicturePx.width() + 0.0, kClipPicturePx.height() + 0.0};
    painter.fillRect(place, style::colour(Token::Sunken, option.palette));
    if (picture.isNull()) {
        style::drawBall(painter, place.center(), place.height() / 2.0 - 6.0, 0.0,
                        style::BallLook::Outline, option.palette);
        return;
    }
    QRectF shown{{}, picture.size() / ratio};
    shown.moveCenter(place.center());
    painter.drawImage(shown, picture);
}

int ClipDelegate::wordsLeft() const {
    return kClipSidePx + (m_isPictured ? kClipPicturePx.width() + kClipSidePx : 0);
}

void ClipDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    const QPalette& palette = option.palette;
    painter->save();
    painter->setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter->setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    if (option.state.testFlag(QStyle::State_Selected)) {
        style::paintChosenRow(*painter, option.rect, palette,
                              index.column() != ClipTableModel::kName ? style::RowBar::None
                              : option.state.testFlag(QStyle::State_Active)
                                  ? style::RowBar::Focused
                                  : style::RowBar::Unfocused);
    } else if (option.state.testFlag(QStyle::State_MouseOver)) {
        painter->fillRect(option.rect, style::colour(Token::Hover, palette));
    }
    painter->fillRect(QRect{option.rect.left(), option.rect.bottom(), option.rect.width(), 1},
                      style::colour(Token::Line, palette));
    const auto row = m_clips.rowAt(index.row());
    const QRect words = option.rect.adjusted(kClipSidePx, 0, -kClipSidePx, 0);
    switch (index.column()) {
        case ClipTableModel::kName:
            if (m_isPictured) {
                paintPicture(*painter, option, row.clip);
            }
            paintTwoLines(*painter, option.rect.adjusted(wordsLeft(), 0, -kClipSidePx, 0),
                          index.data().toString(), row.length, option, Token::Text);
            break;
        case ClipTableModel::kCaptured:
            paintTwoLines(*painter, words, row.rate, row.rateSource, option,
                          row.isClockKnown ? Token::Text : Token::Question);
            break;
        case ClipTableModel::kShots:
            paintFlights(*painter, words, row, palette);
            break;
        case ClipTableModel::kCells:
            paintCell(*painter, words, row, option);
            break;
        default:
            paintStanding(*painter, words, row.standing, palette);
            break;
    }
    painter->restore();
}

QSize ClipDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const QFontMetrics strong{style::textFont(option.font, TextSize::Body, Weight::Strong)};
    const QFontMetrics small{style::textFont(option.font, TextSize::Small)};
    const auto row = m_clips.rowAt(index.row());
    int wide = 0;
    switch (index.column()) {
        case ClipTableModel::kName:
            wide = wordsLeft() - kClipSidePx +
                   std::max(strong.horizontalAdvance(index.data().toString()),
                            small.horizontalAdvance(row.length));
            break;
        case ClipTableModel::kCaptured:
            wide = std::max(strong.horizontalAdvance(row.rate),
                            small.horizontalAdvance(row.rateSource));
            break;
        case ClipTableModel::kShots:
            wide = kFlightsPx;
            break;
        case ClipTableModel::kCells:
            wide = QFontMetrics{option.font}.horizontalAdvance(row.implement);
            break;
        default:
            wide = kRowSignPx;
            break;
    }
    return {wide + 2 * kClipSidePx + kRoundingPx, clipRowHeight(option.font)};
}

}  // namespace ui::footage
