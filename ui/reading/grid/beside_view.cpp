#include "ui/reading/grid/beside_view.h"

#include <QScrollBar>
#include <algorithm>
#include <utility>

#include "ui/reading/grid/other_shot.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/style/let_go.h"

namespace ui::reading {
namespace {

constexpr int kSideBySidePx = 900;  // below it the pictures of two rows would be too small

/// Each scrolls as the other does.
void scrollTogether(TurnGrid& one, TurnGrid& other) {
    for (const auto& [first, second] :
         {std::pair{one.verticalScrollBar(), other.verticalScrollBar()},
          std::pair{one.horizontalScrollBar(), other.horizontalScrollBar()}}) {
        QObject::connect(first, &QScrollBar::valueChanged, second, &QScrollBar::setValue);
        QObject::connect(second, &QScrollBar::valueChanged, first, &QScrollBar::setValue);
    }
}

}  // namespace

BesideView::BesideView(TurnGridPanel& own, ReadingDesk& desk, PictureReader* reader,
                       QWidget* parent)
    : QSplitter{Qt::Horizontal, parent}, m_own{own}, m_desk{desk}, m_reader{reader} {
    setChildrenCollapsible(false);
    addWidget(&own);
    connect(&desk, &ReadingDesk::frameChanged, this, &BesideView::follow);
    connect(&desk, &ReadingDesk::rowChanged, this, &BesideView::align);
    connect(&own.grid(), &TurnGrid::laidOut, this, &BesideView::align);
    connect(&desk, &ReadingDesk::shotClosed, this, &BesideView::hideOther);
    connect(&desk, &ReadingDesk::shotOpened, this, [this](core::project::ShotId shot) {
        if (m_other != nullptr && m_other->desk().view().shot.id == shot) {
            hideOther();  // there is nothing to compare
        }
    });
}

void BesideView::makeOther() {
    m_other = new OtherShot{m_desk.store(), m_reader, this};
    addWidget(m_other);
    turn();
    connect(m_other, &OtherShot::closeWanted, this, &BesideView::hideOther);
    connect(&m_other->grid(), &TurnGrid::laidOut, this, &BesideView::align);
    scrollTogether(m_own.grid(), m_other->grid());
}

void BesideView::showOther(core::project::ShotId shot) {
    if (!m_desk.hasShot() || m_desk.isBlind() || m_desk.view().shot.id == shot) {
        return;
    }
    if (m_other == nullptr) {
        makeOther();
    }
    m_other->open(shot, m_areNamesHidden);
    if (m_other == nullptr) {
        return;  // the shot is gone
    }
    m_other->show();
    Q_EMIT changed(true);
    setSizes({1, 1});
    align();
    m_own.grid().showReference();
    follow();
}

void BesideView::hideOther() {
    if (auto* other = std::exchange(m_other, nullptr)) {
        style::letGo(other);
        m_own.grid().setRowsAtLeast(std::nullopt);
        Q_EMIT changed(false);
    }
}

void BesideView::setNamesHidden(bool hidden) {
    m_areNamesHidden = hidden;
    if (m_other != nullptr) {
        m_other->desk().setNamesHidden(hidden);
    }
}

/// The other grid's place in time is that of this one.
void BesideView::follow() {
    if (m_other != nullptr && m_desk.hasShot()) {
        const ShotView& view = m_desk.view();
        m_other->goTo(view.secondsOf(m_desk.frame()) - view.secondsOf(view.referenceFrame()));
    }
}

void BesideView::align() {
    if (m_other == nullptr || !m_desk.hasShot() || std::exchange(m_isAligning, true)) {
        return;
    }
    TurnGrid& own = m_own.grid();
    TurnGrid& other = m_other->grid();
    m_other->setRowSeconds(m_desk.rowSeconds());
    const auto rows = own.gridLayout().ownRows();
    const auto others = other.gridLayout().ownRows();
    if (rows && others) {
        const TurnGridInput::Rows both{std::min(rows->first, others->first),
                                       std::max(rows->last, others->last)};
        own.setRowsAtLeast(both);
        other.setRowsAtLeast(both);
    }
    other.setScale(own.gridLayout().scale());
    m_isAligning = false;
}

void BesideView::turn() {
    setOrientation(m_other != nullptr && width() < kSideBySidePx ? Qt::Vertical : Qt::Horizontal);
}

void BesideView::resizeEvent(QResizeEvent* event) {
    QSplitter::resizeEvent(event);
    turn();
}

}  // namespace ui::reading
