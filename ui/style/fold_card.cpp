#include "ui/style/fold_card.h"

#include <QToolButton>
#include <QVBoxLayout>

#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::style {

FoldCard::FoldCard(const QString& title, QWidget* content)
    : m_head{new QToolButton}, m_content{content} {
    m_head->setText(title);
    m_head->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    m_head->setAutoRaise(true);
    m_head->setFocusPolicy(Qt::TabFocus);
    setTextSize(m_head, TextSize::Body, Weight::Strong);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(kBetweenPx, kPairPx, kBetweenPx, kPairPx);
    column->addWidget(m_head, 0, Qt::AlignLeft);
    column->addWidget(content);
    connect(m_head, &QToolButton::clicked, this, [this] { setOpen(!m_isOpen); });
    setOpen(false);
}

void FoldCard::setOpen(bool isOpen) {
    m_isOpen = isOpen;
    m_head->setArrowType(isOpen ? Qt::DownArrow : Qt::RightArrow);
    m_head->setAccessibleDescription(isOpen ? tr("open") : tr("folded"));
    m_content->setVisible(isOpen);
}

}  // namespace ui::style
