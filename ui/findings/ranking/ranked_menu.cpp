#include "ui/findings/ranking/ranked_menu.h"

#include <QMenu>

#include "ui/findings/ranking/ranked_view.h"

namespace ui::findings {

RankedMenu::RankedMenu(RankedView& view) : QObject{&view}, m_view{view} {
    view.setContextMenuPolicy(Qt::CustomContextMenu);
    connect(&view, &QWidget::customContextMenuRequested, this, &RankedMenu::show);
}

void RankedMenu::show(const QPoint& at) {
    const auto implement = m_view.chosen();
    if (!implement || !m_view.indexAt(at).isValid()) {
        return;
    }
    // Not run from here: a key may close the project, and the list with it, while the menu stands.
    auto* menu = new QMenu{&m_view};
    menu->setObjectName(QStringLiteral("ranked_menu"));
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const auto& rows = m_view.rows();
    menu->addAction(tr("Show its shots"), &m_view,
                    [this] { Q_EMIT m_view.activated(m_view.currentIndex()); });
    menu->addAction(tr("Read its shots"), this,
                    [this, implement = *implement] { Q_EMIT readingWanted(implement); })
        ->setEnabled(!rows.shotsOf(rows.rowOf(*implement)).empty());
    menu->addAction(tr("Show its doubts"), this,
                    [this, implement = *implement] { Q_EMIT doubtsWanted(implement); });
    menu->addSeparator();
    menu->addActions(m_view.actions());
    menu->popup(m_view.viewport()->mapToGlobal(at));
}

}  // namespace ui::findings
