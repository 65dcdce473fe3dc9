#include "ui/style/remark_line.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <optional>

#include "ui/style/plain_label.h"
#include "ui/style/sign_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::style {
namespace {

constexpr int kRemarkBarPx = 3;

struct RemarkLook {
    Sign sign;
    Token ink;
    std::optional<Token> ground;
};

RemarkLook remarkLook(RemarkKind kind) {
    switch (kind) {
        case RemarkKind::Grave:
            return {Sign::Grave, Token::Grave, Token::GraveGround};
        case RemarkKind::Question:
            return {Sign::Question, Token::Question, Token::QuestionGround};
        case RemarkKind::Note:
            return {Sign::Note, Token::Quiet, std::nullopt};
        case RemarkKind::Done:
            break;
    }
    return {Sign::Done, Token::Done, Token::DoneGround};
}

QString kindName(RemarkKind kind) {
    switch (kind) {
        case RemarkKind::Grave:
            return RemarkLine::tr("Grave");
        case RemarkKind::Question:
            return RemarkLine::tr("To check");
        case RemarkKind::Note:
            return RemarkLine::tr("Note");
        case RemarkKind::Done:
            break;
    }
    return RemarkLine::tr("Done");
}

QLabel* wordsOf(const QString& text) {
    auto* label = new QLabel{text};
    showPlainWords(label);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    label->setFocusPolicy(Qt::NoFocus);
    return label;
}

}  // namespace

RemarkLine::RemarkLine(RemarkKind kind, const QString& strong, const QString& words,
                       QWidget* parent)
    : QWidget{parent}, m_kind{kind} {
    const RemarkLook look = remarkLook(kind);
    auto* row = new QHBoxLayout{this};
    const int inside = look.ground ? kPairPx + 2 : 2;
    row->setContentsMargins(kRemarkBarPx + kBetweenPx, inside, kBetweenPx, inside);
    row->addWidget(new SignLabel{look.sign, look.ink}, 0, Qt::AlignTop);
    auto* column = new QVBoxLayout;
    column->setSpacing(0);
    if (!strong.isEmpty()) {
        auto* label = wordsOf(strong);
        setTextSize(label, TextSize::Body, Weight::Strong);
        column->addWidget(label);
    }
    if (!words.isEmpty()) {
        column->addWidget(wordsOf(words));
    }
    row->addLayout(column, 1);
    setAccessibleName(strong.isEmpty() || words.isEmpty()
                          ? tr("%1: %2").arg(kindName(kind), strong + words)
                          : tr("%1: %2 %3").arg(kindName(kind), strong, words));
}

void RemarkLine::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    const RemarkLook look = remarkLook(m_kind);
    if (look.ground) {
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour(*look.ground, palette()));
        painter.drawRoundedRect(rect(), kControlRadiusPx / 2, kControlRadiusPx / 2);
    }
    painter.fillRect(QRect{0, 0, kRemarkBarPx, height()},
                     colour(look.ground ? look.ink : Token::Line, palette()));
}

}  // namespace ui::style
