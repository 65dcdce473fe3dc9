#include "ui/reading/shot/shot_strip.h"

#include <QLabel>
#include <QListView>
#include <QMenu>
#include <QProgressBar>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/number.h"
#include "ui/reading/shot/shot_batch.h"
#include "ui/reading/shot/shot_delegate.h"
#include "ui/reading/shot/shot_filter_bar.h"
#include "ui/style/rank.h"
#include "ui/style/rows_layout.h"
#include "ui/style/tokens.h"

namespace ui::reading {

using core::project::ShotId;

ShotStrip::ShotStrip(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_facts{store},
      m_model{store},
      m_rows{m_model},
      m_filter{new ShotFilterBar{store, m_model}},
      m_list{new QListView},
      m_empty{new QLabel},
      m_batch{new ShotBatch{store, this}},
      m_chosen{new QToolButton},
      m_bar{new QProgressBar},
      m_toGo{new QLabel} {
    m_model.setFacts(m_facts);
    m_list->setModel(&m_rows);
    m_list->setItemDelegate(new ShotDelegate{m_list});
    m_list->setUniformItemSizes(true);
    m_list->setMouseTracking(true);
    m_list->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_list->setFocusPolicy(Qt::NoFocus);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setContextMenuPolicy(Qt::CustomContextMenu);
    m_list->setAccessibleName(tr("Shots"));
    m_empty->setWordWrap(true);
    m_empty->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    m_empty->setObjectName(QStringLiteral("no_shots"));
    m_chosen->setObjectName(QStringLiteral("chosen_shots"));
    m_chosen->setPopupMode(QToolButton::InstantPopup);
    m_chosen->setMenu(new QMenu{m_chosen});
    m_chosen->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    m_chosen->setFocusPolicy(Qt::TabFocus);
    m_chosen->hide();
    m_bar->setTextVisible(false);
    m_bar->hide();
    m_toGo->hide();
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(style::kBetweenPx, style::kBetweenPx, 0, 6);
    column->setSpacing(6);
    column->addWidget(m_filter);
    column->addWidget(m_empty, 1);
    column->addWidget(m_list, 1);
    column->addWidget(m_chosen);
    column->addWidget(m_toGo);
    column->addWidget(m_bar);
    connect(m_batch, &ShotBatch::readAgainWanted, this, &ShotStrip::readAgainWanted);
    connect(m_filter, &ShotFilterBar::changed, this, &ShotStrip::showCurrent);
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& now) {
                const auto shot = m_rows.shotAt(now.row());
                if (!m_isShowing && shot && *shot != m_current) {
                    m_isBeingChosen = true;
                    Q_EMIT shotChosen(*shot);
                    m_isBeingChosen = false;
                }
            });
    connect(m_list->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &ShotStrip::showChoice);
    connect(m_chosen->menu(), &QMenu::aboutToShow, this, [this] {
        m_chosen->menu()->clear();
        fillMenu(*m_chosen->menu());
    });
    connect(m_list, &QListView::customContextMenuRequested, this, &ShotStrip::showMenu);
    showEmptiness();
}

void ShotStrip::showSwitches(QAction& readAhead, QAction& hideNames) {
    auto* row = new style::RowsLayout{nullptr, style::RowsLayout::Rest::Free};
    for (QAction* action : {&hideNames, &readAhead}) {
        auto* button = new QToolButton{this};
        button->setDefaultAction(action);
        button->setFocusPolicy(Qt::TabFocus);
        style::setRank(button, style::Rank::Quiet);
        row->addWidget(button);
    }
    static_cast<QVBoxLayout*>(layout())->addLayout(row);
}

void ShotStrip::setShotsToGo(std::size_t count) {
    m_mostToGo = count == 0 ? 0 : std::max(m_mostToGo, count);
    const auto done = m_mostToGo - count;
    m_toGo->setText(tr("%1 of %2 read ahead").arg(done).arg(m_mostToGo));
    m_bar->setRange(0, static_cast<int>(std::max<std::size_t>(m_mostToGo, 1)));
    m_bar->setValue(static_cast<int>(done));
    m_toGo->setVisible(count > 0);
    m_bar->setVisible(count > 0);
}

void ShotStrip::setNamesHidden(bool hidden) {
    m_model.setNamesHidden(hidden);
    showCurrent();
}

void ShotStrip::setFilter(ShotListModel::Filter filter) {
    m_filter->setFilter(filter);
}

void ShotStrip::showOnly(core::project::ImplementId implement) {
    m_filter->showOnly(implement);
}

void ShotStrip::setInDoubt(std::set<ShotId> shots) {
    m_model.setInDoubt(std::move(shots));
}

void ShotStrip::setCurrent(ShotId shot) {
    m_current = shot;
    showCurrent();
}

void ShotStrip::update(const core::project::Store::Change& change) {
    for (const ShotId shot : change.shots) {
        m_facts.forget(shot);
    }
    m_model.update(change);
    showCurrent();
}

std::vector<ShotId> ShotStrip::chosenShots() const {
    auto indexes = m_list->selectionModel()->selectedIndexes();
    std::sort(indexes.begin(), indexes.end());
    std::vector<ShotId> shots;
    for (const auto& index : indexes) {
        if (const auto shot = m_rows.shotAt(index.row())) {
            shots.push_back(*shot);
        }
    }
    return shots;
}

/// Several that are chosen stay so while the open one is among them.
void ShotStrip::showCurrent() {
    m_isShowing = true;
    const int row = m_rows.rowOf(m_current);
    const QModelIndex index = row >= 0 ? m_rows.index(row) : QModelIndex{};
    auto* selection = m_list->selectionModel();
    if (row < 0) {
        selection->clear();
    } else {
        // The press that opens it has not chosen it yet, and what is chosen besides is its matter.
        const bool isAmongChosen = m_isBeingChosen || selection->isSelected(index);
        selection->setCurrentIndex(index, isAmongChosen ? QItemSelectionModel::NoUpdate
                                                        : QItemSelectionModel::ClearAndSelect);
        if (m_rows.headOf(row) == row - 1) {
            m_list->scrollTo(m_rows.index(row - 1));
        }
        m_list->scrollTo(index);
    }
    m_isShowing = false;
    m_filter->refresh();
    showChoice();
    showEmptiness();
}

void ShotStrip::showChoice() {
    const auto chosen = m_list->selectionModel()->selectedIndexes().size();
    m_chosen->setVisible(chosen > 1);
    m_chosen->setText(tr("Chosen: %1…").arg(chosen));
    m_chosen->setToolTip(tr("Keep, assign, set aside or read again what is chosen"));
}

void ShotStrip::showMenu(const QPoint& at) {
    const QModelIndex index = m_list->indexAt(at);
    if (!index.isValid()) {
        return;
    }
    // Not run from here: a key may close the project, and this list with it, while the menu stands.
    auto* menu = new QMenu{this};
    menu->setObjectName(QStringLiteral("shots_menu"));
    menu->setAttribute(Qt::WA_DeleteOnClose);
    fillMenu(*menu);
    menu->addSeparator();
    menu->addAction(tr("Choose all shown"), m_list, &QListView::selectAll);
    menu->popup(m_list->viewport()->mapToGlobal(at));
}

void ShotStrip::fillMenu(QMenu& menu) {
    const auto other = chosenOther();
    auto* beside = menu.addAction(tr("Show beside"), this, [this, other] {
        if (other) {
            Q_EMIT besideWanted(*other);
        }
    });
    beside->setEnabled(other.has_value());
    menu.addSeparator();
    m_batch->fill(menu, chosenShots(), m_model.areNamesHidden());
}

std::optional<ShotId> ShotStrip::chosenOther() const {
    const auto chosen = chosenShots();
    if (chosen.size() != 2 || (chosen[0] != m_current && chosen[1] != m_current)) {
        return std::nullopt;
    }
    return chosen[0] == m_current ? chosen[1] : chosen[0];
}

void ShotStrip::showMenuOfCurrent() {
    const QModelIndex current = m_list->currentIndex();
    if (current.isValid()) {
        m_list->scrollTo(current);
        showMenu(m_list->visualRect(current).center());
    }
}

void ShotStrip::showEmptiness() {
    const bool isEmpty = m_rows.rowCount() == 0;
    m_empty->setVisible(isEmpty);
    m_list->setVisible(!isEmpty);
    const bool isNarrowed = m_model.narrowing() != ShotListModel::Narrowing{};
    if (isNarrowed && m_model.count(m_model.filter()) > 0) {
        m_empty->setText(tr("No shot matches the search."));
        return;
    }
    switch (m_model.filter()) {
        case ShotListModel::Filter::All:
            m_empty->setText(tr("No shots yet: add clips in Footage."));
            break;
        case ShotListModel::Filter::Unread:
            m_empty->setText(tr("Every shot is read. Findings has the summary."));
            break;
        case ShotListModel::Filter::Kept:
            m_empty->setText(tr("No shot is kept."));
            break;
        case ShotListModel::Filter::Doubtful:
            m_empty->setText(tr("No shot is marked as doubtful."));
            break;
        case ShotListModel::Filter::SetAside:
            m_empty->setText(tr("No shot is set aside."));
            break;
        case ShotListModel::Filter::InDoubt:
            m_empty->setText(tr("No shot has an open doubt."));
            break;
    }
}

}  // namespace ui::reading
