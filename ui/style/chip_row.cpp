#include "ui/style/chip_row.h"

#include <QHBoxLayout>
#include <QToolButton>

namespace ui::style {

ChipRow::ChipRow(const QList<Chip>& chips, QWidget* parent) : QWidget{parent} {
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    for (const Chip& chip : chips) {
        auto* button = new QToolButton;
        button->setCheckable(true);
        button->setText(chip.text);
        button->setToolTip(chip.tip);
        button->setFocusPolicy(Qt::TabFocus);
        button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
        connect(button, &QToolButton::clicked, this,
                [this, place = static_cast<int>(m_buttons.size())] { Q_EMIT chosen(place); });
        m_texts << chip.text;
        m_buttons << button;
        row->addWidget(button);
    }
}

void ChipRow::setCount(int chip, int count) {
    m_buttons[chip]->setText(QStringLiteral("%1 %2").arg(m_texts[chip]).arg(count));
}

void ChipRow::setOn(int chip) {
    for (int i = 0; i < m_buttons.size(); ++i) {
        m_buttons[i]->setChecked(i == chip);
    }
}

}  // namespace ui::style
