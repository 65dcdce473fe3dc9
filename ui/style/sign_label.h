#pragma once

#include <QWidget>

#include "ui/style/sign.h"
#include "ui/style/tokens.h"

namespace ui::style {

/// A sign beside words, as high as a line of them, in the colour of a token.
class SignLabel : public QWidget {
    Q_OBJECT

public:
    SignLabel(Sign sign, Token token, QWidget* parent = nullptr);
    void setSign(Sign sign, Token token);
    [[nodiscard]] Sign sign() const noexcept { return m_sign; }

    [[nodiscard]] QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Sign m_sign;
    Token m_token;
};

}  // namespace ui::style
