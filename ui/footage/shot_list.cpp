#include "ui/footage/shot_list.h"

#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>
#include <functional>

#include "core/intake/shot_corrections.h"
#include "ui/footage/clip_time_line.h"
#include "ui/footage/footage_table.h"
#include "ui/models/shot_table_model.h"
#include "ui/models/table_copy.h"
#include "ui/style/hold_back.h"
#include "ui/style/rank.h"
#include "ui/style/rows_layout.h"
#include "ui/style/tokens.h"

namespace ui::footage {

using core::project::ShotId;

ShotList::ShotList(core::project::Store& store, ClipTimeLine& timeLine, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_timeLine{timeLine},
      m_shots{new models::ShotTableModel{store.snapshot(), this}},
      m_view{makeFootageTable(m_shots, models::ShotTableModel::kStanding, tr("Shots of the clip"))},
      m_find{button("find_shots", tr("Find shots"),
                    tr("Looks for strikes by sound and movement in the chosen clips "
                       "(Ctrl+F); shots that are there already stay as they are"),
                    &ShotList::findWanted)},
      m_add{button("add_shot", tr("New shot here"),
                   tr("A shot that is struck at the frame shown (N on the time line)"),
                   &ShotList::addHere)},
      m_split{button("split_shot", tr("Split here"),
                     tr("Makes two of the chosen shot, the second from the frame "
                        "shown on (2 on the time line)"),
                     &ShotList::splitHere)},
      m_join{button("join_shots", tr("Join with next"),
                    tr("Makes one of the chosen shot and the one after it (1 on the "
                       "time line)"),
                    &ShotList::joinWithNext)},
      m_drop{button("drop_shots", tr("Remove shots"),
                    tr("Removes the chosen shots and their readings (Delete on the time line); "
                       "Undo brings them back, finding shots again does not"),
                    &ShotList::dropChosen)},
      m_copy{models::addCopyAction(*m_view)} {
    std::vector<int> lessNeeded;  // first the flight; the frames are on the time line too
    for (int column = models::ShotTableModel::kColumnCount - 1;
         column >= models::ShotTableModel::kFlight; --column) {
        lessNeeded.push_back(column);
    }
    lessNeeded.push_back(models::ShotTableModel::kFrames);
    style::hideToMakeRoom(m_view, lessNeeded);
    m_find->setShortcut(QKeySequence{Qt::CTRL | Qt::Key_F});
    style::holdBack({m_find, m_add, m_split, m_join, m_drop},
                    QString::fromStdString(store.readOnlyReason()));
    auto* buttons = new QWidget;
    auto* bar = new style::RowsLayout{buttons, style::RowsLayout::Rest::Free};
    bar->setContentsMargins(0, 0, 0, 0);
    bar->setSpacing(style::kPairPx);
    bar->addWidget(new QLabel{tr("Shots")});
    for (QPushButton* each : {m_find, m_add, m_split, m_join, m_drop}) {
        bar->addWidget(each);
    }
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(buttons);
    layout->addWidget(m_view, 1);
    connect(m_view->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &ShotList::onShotsChosen);
    // A list that is built anew has no chosen row, and says nothing of it.
    connect(m_shots, &QAbstractItemModel::modelReset, this, [this] {
        m_timeLine.setChosenShot(std::nullopt);
        onShotsChosen();
    });
    connect(m_view, &QTableView::activated, this, [this](const QModelIndex& index) {
        Q_EMIT shotActivated(m_shots->shotAt(index.row()));
    });
    m_view->setContextMenuPolicy(Qt::CustomContextMenu);
    connect(m_view, &QWidget::customContextMenuRequested, this, &ShotList::showMenu);
    connectTimeLine();
    showClip(std::nullopt);
}

QPushButton* ShotList::button(const char* name, const QString& text, const QString& tip,
                              void (ShotList::*act)()) {
    auto* made = new QPushButton{text};
    made->setObjectName(QLatin1String{name});
    style::setRank(made, style::Rank::Quiet);
    made->setToolTip(tip);
    connect(made, &QPushButton::clicked, this, act);
    return made;
}

void ShotList::connectTimeLine() {
    connect(&m_timeLine, &ClipTimeLine::shotChosen, this, &ShotList::chooseShot);
    connect(&m_timeLine, &ClipTimeLine::rangeChosen, this, &ShotList::changeRange);
    connect(&m_timeLine, &ClipTimeLine::shotWanted, this, &ShotList::addHere);
    connect(&m_timeLine, &ClipTimeLine::splitWanted, this, &ShotList::splitHere);
    connect(&m_timeLine, &ClipTimeLine::joinWanted, this, &ShotList::joinWithNext);
    connect(&m_timeLine, &ClipTimeLine::dropWanted, this, &ShotList::dropChosen);
}

/// By the pointer or by the key for menus; what the buttons above do, and ways to other screens.
void ShotList::showMenu(const QPoint& at) {
    const auto shots = chosenShots();
    if (shots.empty() || !m_view->indexAt(at).isValid()) {
        return;
    }
    // Not run from here: a key may close the project, and the list with it, while the menu stands.
    auto* menu = new QMenu{m_view};
    menu->setObjectName(QStringLiteral("shot_menu"));
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const auto addWay = [&](const QString& text, void (ShotList::*way)(ShotId)) {
        auto* action = menu->addAction(
            text, this, [this, way, shot = shots.front()] { std::invoke(way, this, shot); });
        action->setEnabled(shots.size() == 1);
    };
    addWay(tr("Read this shot"), &ShotList::shotActivated);
    addWay(tr("Show its doubts"), &ShotList::doubtsWanted);
    menu->addSeparator();
    for (QPushButton* each : {m_split, m_join, m_drop}) {
        menu->addAction(each->text(), each, &QPushButton::click)->setEnabled(each->isEnabled());
    }
    menu->addSeparator();
    menu->addAction(m_copy);
    menu->popup(m_view->viewport()->mapToGlobal(at));
}

void ShotList::showClip(std::optional<core::project::ClipId> clip) {
    m_clip = clip;
    m_shots->showClip(clip);
    m_find->setEnabled(clip.has_value());
    m_add->setEnabled(clip.has_value());
}

void ShotList::refresh() {
    m_shots->update(m_store.snapshot());
}

std::vector<ShotId> ShotList::chosenShots() const {
    std::vector<ShotId> shots;
    for (const auto& index : m_view->selectionModel()->selectedRows()) {
        shots.push_back(m_shots->shotAt(index.row()));
    }
    return shots;
}

void ShotList::onShotsChosen() {
    const auto shots = chosenShots();
    const bool isOne = shots.size() == 1;
    m_drop->setEnabled(!shots.empty());
    m_split->setEnabled(isOne);
    m_join->setEnabled(isOne);
    m_timeLine.setChosenShot(isOne ? std::optional{shots.front()} : std::nullopt);
    if (const auto* shot = isOne ? m_store.snapshot()->shots.find(shots.front()) : nullptr) {
        m_timeLine.setFrame(shot->firstFrame.value);
    }
    Q_EMIT choiceChanged();
}

void ShotList::chooseShot(ShotId shot) {
    const int row = m_shots->rowOf(shot);
    if (row >= 0) {
        const qint64 frame = m_timeLine.frame();
        m_view->selectRow(row);
        m_timeLine.setFrame(frame);
    }
}

void ShotList::addHere() {
    if (!m_clip) {
        return;
    }
    const auto added = core::intake::addShotByHand(m_store, *m_clip, {m_timeLine.frame()});
    Q_EMIT troubled(added ? QString{} : QString::fromStdString(added.error().message));
    if (added) {
        chooseShot(added.value());
    }
}

std::optional<ShotId> ShotList::oneChosenShot() {
    const auto shots = chosenShots();
    if (shots.size() != 1) {
        Q_EMIT troubled(tr("Choose one shot first, on the time line or in the list."));
        return std::nullopt;
    }
    return shots.front();
}

void ShotList::splitHere() {
    if (const auto shot = oneChosenShot()) {
        const auto made = core::intake::splitShot(m_store, *shot, {m_timeLine.frame()});
        Q_EMIT troubled(made ? QString{} : QString::fromStdString(made.error().message));
        chooseShot(made ? made.value() : *shot);
    }
}

void ShotList::joinWithNext() {
    if (const auto shot = oneChosenShot()) {
        report(core::intake::joinWithNext(m_store, *shot));
        chooseShot(*shot);
    }
}

void ShotList::dropChosen() {
    const auto shots = chosenShots();
    if (!shots.empty()) {
        report(core::intake::dropShots(m_store, shots));
    }
}

void ShotList::changeRange(ShotId shot, qint64 first, qint64 last, std::optional<qint64> strike) {
    report(core::intake::moveShot(
        m_store, shot, {first}, {last},
        strike ? std::optional{core::timebase::FrameIndex{*strike}} : std::nullopt));
    chooseShot(shot);
}

void ShotList::report(const core::Result<void>& result) {
    Q_EMIT troubled(result ? QString{} : QString::fromStdString(result.error().message));
}

}  // namespace ui::footage
