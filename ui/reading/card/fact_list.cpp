#include "ui/reading/card/fact_list.h"

#include <QGridLayout>
#include <QLabel>

#include "ui/style/let_go.h"
#include "ui/style/tabular_font.h"

namespace ui::reading {

FactList::FactList(QWidget* parent) : QWidget{parent}, m_grid{new QGridLayout{this}} {
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setHorizontalSpacing(10);
    m_grid->setVerticalSpacing(3);
    m_grid->setColumnStretch(0, 1);
    m_grid->setColumnStretch(1, 1);
}

void FactList::setFacts(const QList<QPair<QString, QString>>& facts) {
    style::emptyLayout(*m_grid);
    int row = 0;
    for (const auto& [name, value] : facts) {
        auto* words = new QLabel{value, this};
        words->setTextFormat(Qt::PlainText);
        words->setWordWrap(true);
        words->setFont(style::tabularFont(font()));
        auto* what = new QLabel{name, this};
        what->setWordWrap(true);
        m_grid->addWidget(what, row, 0, Qt::AlignTop);
        m_grid->addWidget(words, row, 1);
        // At once: what is shown later is not reckoned with where the height is decided.
        what->show();
        words->show();
        ++row;
    }
    setVisible(!facts.isEmpty());
}

}  // namespace ui::reading
