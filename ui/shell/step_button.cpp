#include "ui/shell/step_button.h"

#include <QAction>
#include <QEvent>
#include <QHelpEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>

#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::shell {
namespace {

using style::Token;

constexpr int kRingPx = 32;
constexpr int kStepSidePx = 10;
constexpr int kStepBetweenPx = 10;
constexpr double kStepSignPx = 20.0;
constexpr double kNeedPx = 14.0;
constexpr int kFullCircle = 16 * 360;

}  // namespace

StepButton::StepButton(QAction* step, style::Sign sign, QWidget* parent)
    : QToolButton{parent}, m_sign{sign} {
    setDefaultAction(step);
    setAutoRaise(true);
    setFocusPolicy(Qt::TabFocus);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Expanding);
}

void StepButton::setState(const StepState& state) {
    if (state == m_state) {
        return;
    }
    m_state = state;
    setAccessibleDescription(state.words);
    updateGeometry();
    update();
}

void StepButton::setFit(Fit fit) {
    if (fit != m_fit) {
        m_fit = fit;
        updateGeometry();
        update();
    }
}

bool StepButton::isPresent() const {
    return isChecked();
}

int StepButton::widthFor(Fit fit) const {
    const int ring = kRingPx + 2 * kStepSidePx;
    if (fit == Fit::RingOnly && !isPresent()) {
        return ring;
    }
    const QFontMetrics name{style::textFont(font(), style::TextSize::Body, style::Weight::Strong)};
    const QFontMetrics state{style::textFont(font(), style::TextSize::Small)};
    const int words = std::max(name.horizontalAdvance(text()),
                               fit == Fit::All ? state.horizontalAdvance(m_state.words) : 0);
    return ring + kStepBetweenPx + words;
}

QSize StepButton::sizeHint() const {
    return {widthFor(m_fit),
            style::heightFor(style::kBandHeightPx, 2 * fontMetrics().height() - 4)};
}

bool StepButton::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        QToolTip::showText(help->globalPos(),
                           m_state.words.isEmpty()
                               ? toolTip()
                               : QStringLiteral("%1\n%2").arg(toolTip(), m_state.words),
                           this);
        return true;
    }
    return QToolButton::event(event);
}

void StepButton::paintRing(QPainter& painter, const QRectF& ring) const {
    const QColor words =
        colour(isPresent() ? Token::OnChalk : Token::BandWords, style::programPalette());
    const QColor quiet =
        colour(isPresent() ? Token::OnChalkQuiet : Token::BandQuiet, style::programPalette());
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{quiet, 1.0});
    painter.drawEllipse(ring);
    if (m_state.share > 0.0) {
        painter.setPen(QPen{words, 2.5, Qt::SolidLine, Qt::FlatCap});
        painter.drawArc(ring, kFullCircle / 4,
                        -static_cast<int>(kFullCircle * std::min(1.0, m_state.share)));
    }
    style::drawSign(painter, m_sign,
                    {ring.center().x() - kStepSignPx / 2, ring.center().y() - kStepSignPx / 2,
                     kStepSignPx, kStepSignPx},
                    m_state.share > 0.0 || isPresent() ? words : quiet);
}

/// A closed ring with a tick, or what needs a person; on the ground of the button.
void StepButton::paintNeed(QPainter& painter, const QRectF& ring) const {
    const bool isDone = m_state.need == StepState::Need::Nothing && m_state.share >= 1.0;
    if (m_state.need == StepState::Need::Nothing && !isDone) {
        return;
    }
    const QColor ground = colour(isPresent() ? Token::Chalk : Token::Band, style::programPalette());
    const QColor words =
        colour(isPresent() ? Token::OnChalk : Token::BandWords, style::programPalette());
    const QRectF place{ring.right() - kNeedPx * 0.62, ring.bottom() - kNeedPx * 0.62, kNeedPx,
                       kNeedPx};
    painter.setPen(Qt::NoPen);
    painter.setBrush(ground);
    painter.drawEllipse(place.adjusted(-2, -2, 2, 2));
    style::drawSign(painter,
                    isDone                                   ? style::Sign::Done
                    : m_state.need == StepState::Need::Grave ? style::Sign::Grave
                                                             : style::Sign::Question,
                    place, words);
}

void StepButton::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHint(QPainter::Antialiasing);
    const QPalette palette = style::programPalette();
    const bool isPointedAt = underMouse() && isEnabled();
    if (isPresent()) {
        painter.fillRect(rect(), colour(Token::Chalk, palette));
    } else if (isPointedAt || isDown()) {
        painter.fillRect(rect(), colour(Token::BandHover, palette));
    }
    const QRectF ring{static_cast<double>(kStepSidePx) + 1.0, (height() - kRingPx) / 2.0 + 1.0,
                      kRingPx - 2.0, kRingPx - 2.0};
    paintRing(painter, ring);
    paintNeed(painter, ring);
    if (m_fit != Fit::RingOnly || isPresent()) {
        const bool hasState = m_fit == Fit::All && !m_state.words.isEmpty();
        QRect words = rect().adjusted(kStepSidePx + kRingPx + kStepBetweenPx, 0, 0, 0);
        painter.setFont(style::textFont(font(), style::TextSize::Body, style::Weight::Strong));
        painter.setPen(colour(isPresent() ? Token::OnChalk : Token::BandWords, palette));
        const int line = painter.fontMetrics().height();
        const int top = hasState ? height() / 2 - line + 1 : (height() - line) / 2;
        painter.drawText(QRect{words.left(), top, words.width(), line}, Qt::AlignLeft, text());
        if (hasState) {
            painter.setFont(style::textFont(font(), style::TextSize::Small));
            painter.setPen(colour(isPresent() ? Token::OnChalkQuiet : Token::BandQuiet, palette));
            painter.drawText(QRect{words.left(), height() / 2, words.width(), line}, Qt::AlignLeft,
                             m_state.words);
        }
    }
    if (hasFocus()) {
        painter.setPen(
            QPen{colour(isPresent() ? Token::OnChalk : Token::Chalk, palette), style::kFocusPx});
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(2, 2, -2, -2));
    }
}

}  // namespace ui::shell
