#include "ui/reading/card/method_row.h"

#include <QPainter>

#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::reading {
namespace {

constexpr int kMethodSidePx = 12;
constexpr int kMethodTopPx = 7;
constexpr double kRadioPx = 7.0;
constexpr int kNameLeftPx = 36;

}  // namespace

MethodRow::MethodRow(Method method, QWidget* parent)
    : QAbstractButton{parent}, m_bar{new IntervalBar{this}} {
    setCheckable(true);
    setFocusPolicy(Qt::TabFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setText(method == Method::Pictures ? tr("From the pictures") : tr("From your marks"));
    m_bar->setAttribute(Qt::WA_TransparentForMouseEvents);
}

void MethodRow::show(const Content& content, bool isChosen) {
    m_number = content.number;
    m_bar->setContent(content.bar, content.range, content.hasScale);
    setEnabled(content.bar.has_value());
    setChecked(isChosen);
    setAccessibleName(tr("%1: %2").arg(text(), m_number));
    updateGeometry();
    placeBar();
    update();
}

QSize MethodRow::sizeHint() const {
    const int bar = m_bar->isHidden() ? 0 : m_bar->sizeHint().height();
    return {200, 2 * kMethodTopPx + fontMetrics().height() + bar};
}

void MethodRow::placeBar() {
    m_bar->setGeometry(kMethodSidePx, kMethodTopPx + fontMetrics().height() + 1,
                       width() - 2 * kMethodSidePx, m_bar->sizeHint().height());
}

void MethodRow::resizeEvent(QResizeEvent* event) {
    QAbstractButton::resizeEvent(event);
    placeBar();
}

void MethodRow::paintEvent(QPaintEvent*) {
    using style::Token;
    QPainter painter{this};
    painter.setRenderHint(QPainter::Antialiasing);
    const auto of = [this](Token token) { return style::colour(token, palette()); };
    const bool isPointedAt = underMouse() && isEnabled();
    const QColor edge = of(isChecked() || hasFocus() ? Token::Ink : Token::Line);
    const QRectF all = QRectF{rect()}.adjusted(0.5, 0.5, -0.5, -0.5);
    painter.setPen(QPen{edge, hasFocus() ? style::kFocusPx : style::kHairlinePx});
    painter.setBrush(of(isChecked() ? Token::Pale : isPointedAt ? Token::Hover : Token::Surface));
    painter.drawRoundedRect(all, style::kControlRadiusPx, style::kControlRadiusPx);
    if (isChecked()) {
        painter.fillRect(QRectF{0.0, style::kControlRadiusPx, style::kSelectionBarPx,
                                height() - 2.0 * style::kControlRadiusPx},
                         edge);
    }
    const int line = fontMetrics().height();
    const QPointF centre{kMethodSidePx + kRadioPx + 1.0, kMethodTopPx + line / 2.0};
    painter.setPen(QPen{of(!isEnabled()  ? Token::Line
                           : isChecked() ? Token::Ink
                                         : Token::Edge),
                        1.5});
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(centre, kRadioPx, kRadioPx);
    if (isChecked()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(of(Token::Ink));
        painter.drawEllipse(centre, kRadioPx * 0.5, kRadioPx * 0.5);
    }
    const auto weight = isChecked() ? style::Weight::Strong : style::Weight::Regular;
    painter.setPen(of(isEnabled() ? Token::Text : Token::Quiet));
    painter.setFont(style::textFont(style::tabularFont(font()), style::TextSize::Body,
                                    isEnabled() ? style::Weight::Strong : style::Weight::Regular));
    const QRect words{kNameLeftPx, kMethodTopPx, width() - kNameLeftPx - kMethodSidePx, line};
    painter.drawText(words, Qt::AlignRight | Qt::AlignVCenter, m_number);
    const int room = words.width() - painter.fontMetrics().horizontalAdvance(m_number) - 6;
    painter.setFont(style::textFont(font(), style::TextSize::Body, weight));
    painter.drawText(words, Qt::AlignLeft | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(text(), Qt::ElideRight, room));
}

}  // namespace ui::reading
