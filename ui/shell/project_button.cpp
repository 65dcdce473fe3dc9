#include "ui/shell/project_button.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::shell {
namespace {

constexpr int kProjectSidePx = 10;
constexpr int kMostPx = 190;

}  // namespace

ProjectButton::ProjectButton(QWidget* parent) : QToolButton{parent} {
    setAutoRaise(true);
    setFocusPolicy(Qt::TabFocus);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Expanding);
}

void ProjectButton::setProject(const QString& name) {
    m_project = name;
    updateGeometry();
    update();
}

QSize ProjectButton::sizeHint() const {
    const QFontMetricsF name{style::textFont(font(), style::TextSize::Body, style::Weight::Strong)};
    const QFontMetricsF reader{style::textFont(font(), style::TextSize::Small)};
    const double words =
        std::max(name.horizontalAdvance(m_project), reader.horizontalAdvance(text()));
    return {std::min(static_cast<int>(std::ceil(words)) + 1, kMostPx) + 2 * kProjectSidePx,
            style::kBandHeightPx};
}

void ProjectButton::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHint(QPainter::Antialiasing);
    const QPalette look = style::programPalette();
    if (isEnabled() && (underMouse() || isDown())) {
        painter.fillRect(rect(), colour(style::Token::BandHover, look));
    }
    if (hasFocus()) {
        painter.setPen(QPen{colour(style::Token::Chalk, look), style::kFocusPx});
        painter.drawRect(rect().adjusted(2, 2, -2, -2));
    }
    const int room = width() - 2 * kProjectSidePx;
    const auto line = [&](int top, const QString& words, Qt::TextElideMode elide) {
        painter.drawText(QRect{kProjectSidePx, top, room, painter.fontMetrics().height()},
                         Qt::AlignRight | Qt::AlignVCenter,
                         painter.fontMetrics().elidedText(words, elide, room));
    };
    painter.setFont(style::textFont(font(), style::TextSize::Body, style::Weight::Strong));
    painter.setPen(colour(style::Token::BandWords, look));
    line(height() / 2 - painter.fontMetrics().height() + 1, m_project, Qt::ElideMiddle);
    painter.setFont(style::textFont(font(), style::TextSize::Small));
    painter.setPen(colour(style::Token::BandQuiet, look));
    line(height() / 2, text(), Qt::ElideRight);
}

}  // namespace ui::shell
