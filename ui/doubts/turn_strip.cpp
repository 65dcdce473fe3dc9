#include "ui/doubts/turn_strip.h"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "ui/doubts/turn_pictures.h"
#include "ui/reading/reading_look.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::doubts {
namespace {

using core::timebase::FrameIndex;

constexpr int kUsualSidePx = 68;
constexpr double kPictureGapPx = 7.0;
constexpr double kCaptionGapPx = 4.0;
constexpr double kPictureCornerPx = 6.0;
constexpr double kTurnRingPx = 2.5;

/// Dark below the colour, so that it holds on any footage.
void turnRing(QPainter& painter, const QRectF& around, style::DataColour colour) {
    for (const QPen& pen : {QPen{style::casing(), kTurnRingPx + 2.0},
                            QPen{style::publishedColour(colour), kTurnRingPx}}) {
        painter.setPen(pen);
        painter.drawEllipse(around);
    }
}

const QFont& captionFont(const QFont& font, bool isStrong) {
    return style::textFont(font, style::TextSize::Small,
                           isStrong ? style::Weight::Strong : style::Weight::Regular);
}

}  // namespace

TurnStrip::TurnStrip(const TurnPictures& pictures, QWidget* parent)
    : QWidget{parent}, m_pictures{pictures}, m_sidePx{kUsualSidePx} {
    setObjectName(QStringLiteral("doubtTurn"));
    setAccessibleName(tr("Pictures of one turn"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(&pictures, &TurnPictures::changed, this, qOverload<>(&QWidget::update));
}

void TurnStrip::show(std::optional<core::doubts::ClaimedTurn> turn) {
    m_turn = std::move(turn);
    setVisible(m_turn.has_value());
    updateGeometry();
    update();
}

void TurnStrip::setSide(int px) {
    if (px != m_sidePx) {
        m_sidePx = px;
        updateGeometry();
        update();
    }
}

bool TurnStrip::isEnd(FrameIndex frame) const {
    return frame == m_turn->start || frame == m_turn->back;
}

QString TurnStrip::captionOf(FrameIndex frame) const {
    const QString number = QString::number(frame.value);
    return frame == m_turn->start  ? tr("%1 start").arg(number)
           : frame == m_turn->back ? tr("%1 turn 1").arg(number)
                                   : number;
}

std::vector<QRectF> TurnStrip::places() const {
    std::vector<QRectF> places;
    if (!m_turn) {
        return places;
    }
    const double side = m_sidePx;
    double middle = 0.0;
    double before = 0.0;  // how wide the caption there is
    for (const FrameIndex frame : m_turn->shown) {
        const double caption =
            QFontMetricsF{captionFont(font(), isEnd(frame))}.horizontalAdvance(captionOf(frame));
        middle = places.empty() ? std::max(side, caption) / 2.0
                                : middle + std::max(side, (before + caption) / 2.0) + kPictureGapPx;
        places.emplace_back(middle - side / 2.0, 0.0, side, side);
        before = caption;
    }
    return places;
}

QSize TurnStrip::sizeHint() const {
    if (!m_turn) {
        return {0, 0};
    }
    const QFontMetricsF metrics{captionFont(font(), true)};
    const QRectF last = places().back();
    const double right =
        last.center().x() +
        std::max(last.width(), metrics.horizontalAdvance(captionOf(m_turn->back))) / 2.0;
    return {static_cast<int>(std::ceil(right)),
            static_cast<int>(std::ceil(last.bottom() + kCaptionGapPx + metrics.height()))};
}

std::vector<style::SpokenPart> TurnStrip::spokenParts() {
    std::vector<style::SpokenPart> parts;
    const auto all = places();
    for (std::size_t k = 0; k < all.size(); ++k) {
        const FrameIndex frame = m_turn->shown[k];
        parts.push_back({tr("Frame %1").arg(captionOf(frame)),
                         !m_pictures.picture(frame).isNull() ? QString{}
                         : m_pictures.areAwaited()           ? tr("being looked for")
                                                             : tr("no picture"),
                         all[k].toRect(), frame == m_turn->start});
    }
    return parts;
}

void TurnStrip::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    const auto all = places();
    for (std::size_t k = 0; k < all.size(); ++k) {
        paintOne(painter, m_turn->shown[k], all[k]);
    }
}

void TurnStrip::paintOne(QPainter& painter, FrameIndex frame, const QRectF& place) const {
    QPainterPath outline;
    outline.addRoundedRect(place, kPictureCornerPx, kPictureCornerPx);
    const QImage picture = m_pictures.picture(frame);
    painter.fillPath(outline, style::colour(style::Token::Sunken, palette()));
    if (!picture.isNull()) {
        painter.save();
        painter.setClipPath(outline);
        painter.drawImage(place, picture);
        painter.restore();
    }
    painter.setBrush(Qt::NoBrush);
    const QRectF around = place.adjusted(kTurnRingPx, kTurnRingPx, -kTurnRingPx, -kTurnRingPx);
    if (frame == m_turn->start) {
        turnRing(painter, around, reading::kStartLook.colour);
    } else if (frame == m_turn->back) {
        const double gap = 2.0 * kTurnRingPx;
        turnRing(painter, around, reading::kReturnLook.colour);
        turnRing(painter, around.adjusted(gap, gap, -gap, -gap), reading::kReturnLook.colour);
    }
    const QFont& small = captionFont(font(), isEnd(frame));
    const QFontMetricsF metrics{small};
    const QString caption = captionOf(frame);
    painter.setFont(small);
    painter.setPen(
        style::colour(isEnd(frame) ? style::Token::Text : style::Token::Quiet, palette()));
    painter.drawText(QPointF{place.center().x() - metrics.horizontalAdvance(caption) / 2.0,
                             place.bottom() + kCaptionGapPx + metrics.ascent()},
                     caption);
}

}  // namespace ui::doubts
