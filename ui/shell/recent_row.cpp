#include "ui/shell/recent_row.h"

#include <QPainter>
#include <QPainterPath>
#include <utility>

#include "ui/style/sign.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"
#include "ui/style/turn_mark.h"

namespace ui::shell {
namespace {

using style::Token;

constexpr int kBallPx = 40;
constexpr int kRecentSidePx = 12;

}  // namespace

RecentRow::RecentRow(RecentProject project, QWidget* parent)
    : QAbstractButton{parent}, m_project{std::move(project)} {
    setText(m_project.name());
    setToolTip(m_project.file);
    setAccessibleName(QStringLiteral("%1, %2").arg(m_project.name(), m_project.words));
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

QSize RecentRow::sizeHint() const {
    return {360, std::max(kBallPx, 2 * fontMetrics().height()) + 18};
}

/// At the right; how wide it is.
int RecentRow::paintNeed(QPainter& painter) const {
    if (m_project.needWords.isEmpty()) {
        return 0;
    }
    const bool isOpen = m_project.need != StepState::Need::Nothing;
    painter.setFont(style::textFont(font(), style::TextSize::Small));
    painter.setPen(style::colour(Token::Quiet, palette()));
    painter.drawText(rect().adjusted(0, 0, -kRecentSidePx, 0), Qt::AlignRight | Qt::AlignVCenter,
                     m_project.needWords);
    const int words = painter.fontMetrics().horizontalAdvance(m_project.needWords);
    const double side = fontMetrics().height();
    const bool isGrave = m_project.need == StepState::Need::Grave;
    style::drawSign(painter,
                    !isOpen   ? style::Sign::Done
                    : isGrave ? style::Sign::Grave
                              : style::Sign::Question,
                    {width() - kRecentSidePx - words - 6 - side, (height() - side) / 2, side, side},
                    style::colour(!isOpen   ? Token::Done
                                  : isGrave ? Token::Grave
                                            : Token::Question,
                                  palette()));
    return words + static_cast<int>(side) + 18;
}

void RecentRow::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    const QRectF all = QRectF{rect()}.adjusted(0.5, 0.5, -0.5, -0.5);
    painter.setPen(QPen{style::colour(hasFocus() ? Token::Ink : Token::Line, palette()),
                        hasFocus() ? style::kFocusPx : style::kHairlinePx});
    painter.setBrush(style::colour(isDown()       ? Token::Pressed
                                   : underMouse() ? Token::Hover
                                                  : Token::Surface,
                                   palette()));
    painter.drawRoundedRect(all, style::kControlRadiusPx, style::kControlRadiusPx);
    const QRectF ball{static_cast<double>(kRecentSidePx), (height() - kBallPx) / 2.0, kBallPx,
                      kBallPx};
    if (m_project.ball.isNull()) {
        style::drawBall(painter, ball.center(), kBallPx / 2.0 - 1, 0.0, style::BallLook::Outline,
                        palette());
    } else {
        QPainterPath round;
        round.addEllipse(ball);
        painter.save();
        painter.setClipPath(round);
        painter.drawImage(ball, m_project.ball);
        painter.restore();
    }
    const int need = paintNeed(painter);
    const int left = kRecentSidePx + kBallPx + kRecentSidePx;
    const int room = width() - left - need - kRecentSidePx;
    const int line = fontMetrics().height();
    const auto write = [&](int top, const QString& words) {
        painter.drawText(QRect{left, top, room, line}, Qt::AlignLeft | Qt::AlignVCenter,
                         painter.fontMetrics().elidedText(words, Qt::ElideMiddle, room));
    };
    painter.setFont(style::textFont(font(), style::TextSize::Body, style::Weight::Strong));
    painter.setPen(palette().color(QPalette::WindowText));
    write(height() / 2 - line, m_project.name());
    painter.setFont(style::textFont(font(), style::TextSize::Small));
    painter.setPen(style::colour(Token::Quiet, palette()));
    write(height() / 2, m_project.words);
}

}  // namespace ui::shell
