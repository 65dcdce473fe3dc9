#include "ui/style/sign_label.h"

#include <QPainter>

namespace ui::style {

SignLabel::SignLabel(Sign sign, Token token, QWidget* parent)
    : QWidget{parent}, m_sign{sign}, m_token{token} {
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void SignLabel::setSign(Sign sign, Token token) {
    m_sign = sign;
    m_token = token;
    update();
}

QSize SignLabel::sizeHint() const {
    return {fontMetrics().height(), fontMetrics().height()};
}

void SignLabel::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    drawSign(painter, m_sign, rect(), colour(m_token, palette()));
}

}  // namespace ui::style
