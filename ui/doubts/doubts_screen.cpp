#include "ui/doubts/doubts_screen.h"

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QSplitter>
#include <QStackedWidget>
#include <QTabWidget>
#include <QTableView>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/words.h"
#include "core/words/doubts.h"
#include "ui/bridge/kept_again.h"
#include "ui/doubts/doubt_card.h"
#include "ui/doubts/doubt_source.h"
#include "ui/doubts/film_again_panel.h"
#include "ui/doubts/history_panel.h"
#include "ui/doubts/second_readings_panel.h"
#include "ui/doubts/text.h"
#include "ui/doubts/weight_delegate.h"
#include "ui/models/sentence_table_model.h"
#include "ui/style/data_table.h"
#include "ui/style/plain_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::doubts {
namespace {

using core::doubts::Doubted;
using core::doubts::Grade;
using core::doubts::Reason;
using core::project::ShotId;

constexpr int kEverything = -1;

/// Implements stand among the cells of the filter, below zero and beside kEverything.
qint64 wholeImplement(core::project::ImplementId implement) {
    return -1 - implement.value;
}

QString reasonsText(const Doubted& item) {
    QStringList words;
    for (const auto& doubt : item.doubts) {
        const QString reason = text(core::words::reasonWords(doubt.reason));
        if (!words.contains(reason)) {
            words << reason;
        }
    }
    return words.join(QStringLiteral("; "));
}

/// What matters most.
QString answerOf(const core::doubts::Doubts* doubts) {
    if (doubts == nullptr) {
        return DoubtsScreen::tr("Looking for doubtful shots…");
    }
    const auto grave =
        std::count_if(doubts->items.begin(), doubts->items.end(), [](const Doubted& item) {
            return !item.isSettled && item.doubts.front().grade == Grade::Grave;
        });
    if (grave > 0) {
        return grave == 1 ? DoubtsScreen::tr("1 grave doubt: decide it first")
                          : DoubtsScreen::tr("%1 grave doubts: decide them first").arg(grave);
    }
    return doubts->unsettled() > 0 ? DoubtsScreen::tr("%1 to check").arg(doubts->unsettled())
                                   : DoubtsScreen::tr("Nothing left to check");
}

QComboBox* makeFilter(const QString& name, const QString& tip) {
    auto* box = new QComboBox;
    box->setObjectName(name);
    box->setToolTip(tip);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(14);
    return box;
}

}  // namespace

DoubtsScreen::DoubtsScreen(core::project::Store& store, bridge::JobRunner& jobs,
                           bridge::FindingsKeeper& findings, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_source{new DoubtSource{store, jobs, findings, this}},
      m_again{new bridge::KeptAgain{store, jobs, this}},
      m_rows{new models::SentenceTableModel{{tr("Weight"), tr("Shot or cell"), tr("Why")}, this}},
      m_table{style::makeDataTable(m_rows)},
      m_reason{makeFilter(QStringLiteral("doubtReasonFilter"), tr("Only this reason"))},
      m_clip{makeFilter(QStringLiteral("doubtClipFilter"), tr("Only shots of this clip"))},
      m_cell{makeFilter(QStringLiteral("doubtCellFilter"), tr("Only this implement and hitter"))},
      m_settledToo{new QCheckBox{tr("Settled ones too")}},
      m_answer{new QLabel},
      m_count{new QLabel},
      m_said{new QLabel},
      m_nothing{new QLabel},
      m_empty{new style::EmptyPage{0.75}},
      m_pages{new QStackedWidget},
      m_whole{new QStackedWidget},
      m_tabs{new QTabWidget},
      m_card{new DoubtCard{store}} {
    layOut();
    addAction("replay", tr("Replay"), {}, &DoubtCard::replay);
    addAction("keep", tr("Keep as it is"), Qt::Key_K, &DoubtCard::keepAsIs);
    addAction("blind", tr("Read again blind"), Qt::Key_W, &DoubtCard::readBlind);
    addAction("let_count", tr("Use this reading"), Qt::Key_L, &DoubtCard::letCount);
    addAction("set_aside", tr("Set aside…"), Qt::Key_O, &DoubtCard::askAside);
    addAction("film_again", tr("Film again…"), Qt::Key_F, &DoubtCard::askFilmAgain);
    addAction("doubt_cell", tr("Mark the cell as doubtful"), Qt::Key_D, &DoubtCard::doubtCell);
    connect(m_source, &DoubtSource::changed, this, [this] {
        m_doubts = m_source->doubts();
        refillFilters();
        refill();
        Q_EMIT changed();
    });
    connect(m_source, &DoubtSource::failed, this, &DoubtsScreen::say);
    connect(m_table, &QTableView::activated, this, [this] { m_card->replay(); });
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &DoubtsScreen::showChosen);
    for (QComboBox* filter : {m_reason, m_clip, m_cell}) {
        connect(filter, &QComboBox::activated, this, &DoubtsScreen::refill);
    }
    connect(m_settledToo, &QCheckBox::toggled, this, &DoubtsScreen::refill);
    connect(m_card, &DoubtCard::readAgainWanted, m_again, &bridge::KeptAgain::read);
    connect(m_again, &bridge::KeptAgain::ended, this, &DoubtsScreen::say);
    connect(m_card, &DoubtCard::said, this, &DoubtsScreen::say);
    connect(m_card, &DoubtCard::blindWanted, this, &DoubtsScreen::blindWanted);
    connect(m_card, &DoubtCard::replayWanted, this, [this](ShotId shot) {
        const auto* item = chosen();
        Q_EMIT replayWanted(
            shot, item != nullptr ? text(core::words::sentence(item->doubts.front())) : QString{});
    });
    refill();
}

DoubtsScreen::~DoubtsScreen() = default;

QSize DoubtsScreen::minimumSizeHint() const {
    constexpr QSize kLeast{900, 440};
    return QWidget::minimumSizeHint().boundedTo(kLeast);
}

void DoubtsScreen::addAction(const char* name, const QString& title, const QKeySequence& key,
                             void (DoubtCard::*act)()) {
    auto* action = new QAction{title, this};
    action->setObjectName(QStringLiteral("doubts.") + QLatin1String(name));
    action->setShortcut(key);
    action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    action->setAutoRepeat(false);
    connect(action, &QAction::triggered, m_card, act);
    QWidget::addAction(action);
    m_actions << action;
}

QWidget* DoubtsScreen::makeHead() {
    m_answer->setObjectName(QStringLiteral("doubtAnswer"));
    style::setTextSize(m_answer, style::TextSize::Head, style::Weight::Strong);
    m_count->setForegroundRole(QPalette::PlaceholderText);
    auto* head = new QWidget;
    auto* column = new QVBoxLayout{head};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_answer);
    column->addWidget(m_count);
    return head;
}

QWidget* DoubtsScreen::makeFilters() {
    m_settledToo->setObjectName(QStringLiteral("settledToo"));
    m_settledToo->setToolTip(tr("Shots that were checked and kept as they are"));
    auto* bar = new QWidget;
    auto* row = new QHBoxLayout{bar};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_reason);
    row->addWidget(m_clip);
    row->addWidget(m_cell);
    row->addWidget(m_settledToo);
    row->addStretch(1);
    return bar;
}

QWidget* DoubtsScreen::makeTabs() {
    auto* again = new FilmAgainPanel{m_store};
    auto* second = new SecondReadingsPanel{m_store};
    auto* history = new HistoryPanel{m_store};
    m_tabs->setObjectName(QStringLiteral("doubtTabs"));
    m_tabs->setAccessibleName(tr("What to do about doubts"));
    m_tabs->addTab(m_card, tr("Chosen"));
    m_tabs->addTab(second, tr("Second readings"));
    m_tabs->addTab(again, tr("To film again"));
    m_tabs->addTab(history, tr("History"));
    connect(again, &FilmAgainPanel::said, this, &DoubtsScreen::say);
    connect(second, &SecondReadingsPanel::said, this, &DoubtsScreen::say);
    connect(second, &SecondReadingsPanel::blindWanted, this, &DoubtsScreen::blindWanted);
    connect(history, &HistoryPanel::said, this, &DoubtsScreen::say);
    connect(history, &HistoryPanel::shotActivated, this, &DoubtsScreen::shotActivated);
    return m_tabs;
}

void DoubtsScreen::layOut() {
    m_table->setObjectName(QStringLiteral("doubts"));
    m_table->setAccessibleName(tr("Doubtful shots and cells, worst first"));
    m_table->setToolTip(tr("↑ ↓ choose; Enter replays the shot in Reading"));
    m_table->setTextElideMode(Qt::ElideRight);
    m_table->setWordWrap(false);
    style::letColumnShrink(m_table, 1);
    m_table->setItemDelegateForColumn(
        0, new WeightDelegate{[this](int row) { return itemAt(row); }, m_table});
    for (QLabel* label : {m_answer, m_count, m_said}) {
        style::showPlainWords(label);
    }
    m_said->setObjectName(QStringLiteral("doubtSaid"));
    m_nothing->setAlignment(Qt::AlignCenter);
    m_nothing->setWordWrap(true);
    m_pages->addWidget(m_table);
    m_pages->addWidget(m_nothing);
    m_empty->say(tr("No shot is kept yet"),
                 tr("Keep the first shots in Reading; whatever is doubtful about them appears "
                    "here."),
                 style::EmptyPage::Way::Reading);
    connect(m_empty, &style::EmptyPage::wayChosen, this, &DoubtsScreen::wayChosen);
    auto* upper = new QWidget;
    auto* column = new QVBoxLayout{upper};
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(makeHead());
    column->addWidget(makeFilters());
    column->addWidget(m_pages, 1);
    auto* split = new QSplitter{Qt::Vertical};
    split->setObjectName(QStringLiteral("doubts_split"));
    split->addWidget(upper);
    split->addWidget(makeTabs());
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    split->setSizes({360, 300});
    split->setChildrenCollapsible(false);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(style::kCardsPx, style::kBetweenPx, style::kCardsPx,
                               style::kBetweenPx);
    m_whole->addWidget(split);
    m_whole->addWidget(m_empty);
    layout->addWidget(m_whole, 1);
    layout->addWidget(m_said);
}

void DoubtsScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_source->setWanted(true);
    m_wantsFocus = m_shown.empty();  // an empty table is hidden and cannot have it yet
    m_table->setFocus();
    Q_EMIT statusChanged(
        tr("Doubtful does not mean wrong: replay it, read it again, then decide. "
           "Every decision can be undone."));
}

void DoubtsScreen::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_source->setWanted(m_areWantedElsewhere);
}

void DoubtsScreen::setWantedElsewhere(bool areWanted) {
    m_areWantedElsewhere = areWanted;
    m_source->setWanted(areWanted || isVisible());
}

void DoubtsScreen::onPicturesRead(ShotId shot) {
    m_source->onPicturesRead(shot);
}

std::optional<std::size_t> DoubtsScreen::unsettled() const {
    return m_doubts ? std::optional{m_doubts->unsettled()} : std::nullopt;
}

std::set<ShotId> DoubtsScreen::shotsInDoubt() const {
    std::set<ShotId> shots;
    for (const auto& item : m_doubts ? m_doubts->items : std::vector<Doubted>{}) {
        if (item.shot && !item.isSettled) {
            shots.insert(*item.shot);
        }
    }
    return shots;
}

void DoubtsScreen::refillFilters() {
    const auto refillOne = [](QComboBox* box, const QString& all,
                              const QList<QPair<QString, qint64>>& choices) {
        const QVariant before = box->currentData();
        box->clear();
        box->addItem(all, kEverything);
        for (const auto& [title, id] : choices) {
            box->addItem(title, id);
        }
        box->setCurrentIndex(std::max(0, box->findData(before)));
    };
    QList<QPair<QString, qint64>> reasons;
    QList<QPair<QString, qint64>> clips;
    QList<QPair<QString, qint64>> cells;
    const auto snapshot = m_store.snapshot();
    for (int i = 0; m_doubts && i < core::doubts::kReasonCount; ++i) {
        const auto reason = static_cast<Reason>(i);
        const bool isThere =
            std::any_of(m_doubts->items.begin(), m_doubts->items.end(),
                        [reason](const Doubted& item) { return item.has(reason); });
        if (isThere) {
            reasons.append({text(core::words::reasonWords(reason)), i});
        }
    }
    for (const auto& clip : snapshot->clips) {
        clips.append({text(core::project::clipName(*snapshot, clip.id)), clip.id.value});
    }
    for (const auto& implement : snapshot->implements) {
        cells.append(
            {tr("%1, all hitters").arg(text(core::project::implementName(*snapshot, implement.id))),
             wholeImplement(implement.id)});
    }
    for (const auto& cell : snapshot->cells) {
        cells.append({text(core::project::cellName(*snapshot, cell.id)), cell.id.value});
    }
    refillOne(m_reason, tr("All reasons"), reasons);
    refillOne(m_clip, tr("All clips"), clips);
    refillOne(m_cell, tr("All cells"), cells);
}

bool DoubtsScreen::passes(const Doubted& item) const {
    if (item.isSettled && !m_settledToo->isChecked()) {
        return false;
    }
    const int reason = m_reason->currentData().toInt();
    if (m_reason->count() > 0 && reason != kEverything && !item.has(static_cast<Reason>(reason))) {
        return false;
    }
    const qint64 clip = m_clip->currentData().toLongLong();
    if (m_clip->count() > 0 && clip != kEverything) {
        const auto snapshot = m_store.snapshot();
        const auto* shot = item.shot ? snapshot->shots.find(*item.shot) : nullptr;
        if (shot == nullptr || shot->clip.value != clip) {
            return false;
        }
    }
    const qint64 cell = m_cell->currentData().toLongLong();
    if (m_cell->count() == 0 || cell == kEverything || !item.cell) {
        return m_cell->count() == 0 || cell == kEverything;
    }
    const auto snapshot = m_store.snapshot();
    const auto* of = snapshot->cells.find(*item.cell);
    return item.cell->value == cell || (of != nullptr && wholeImplement(of->implement) == cell);
}

void DoubtsScreen::showOnly(qint64 whose) {
    refillFilters();
    m_reason->setCurrentIndex(0);
    m_clip->setCurrentIndex(0);
    m_cell->setCurrentIndex(std::max(0, m_cell->findData(whose)));
    m_settledToo->setChecked(true);
    refill();
}

void DoubtsScreen::showDoubtsOf(core::project::ImplementId implement) {
    showOnly(wholeImplement(implement));
}

void DoubtsScreen::showDoubtsOf(ShotId shot) {
    const auto snapshot = m_store.snapshot();
    const auto* found = snapshot->shots.find(shot);
    m_chosenShot = shot;
    showOnly(found != nullptr && found->cell ? found->cell->value : kEverything);
}

/// Its shot and cell; absent when the shot is gone.
std::optional<QString> DoubtsScreen::namesOf(const Doubted& item) const {
    const auto snapshot = m_store.snapshot();
    QStringList names;
    if (item.shot) {
        const auto* shot = snapshot->shots.find(*item.shot);
        if (shot == nullptr) {
            return std::nullopt;
        }
        names << text(core::project::shotName(*snapshot, *shot));
    }
    if (item.cell) {
        names << text(core::project::cellName(*snapshot, *item.cell));
    }
    return names.join(QStringLiteral(", "));
}

void DoubtsScreen::refill() {
    const auto shotBefore = m_chosenShot;
    const int rowBefore = m_table->currentIndex().row();
    std::vector<models::SentenceTableModel::Row> rows;
    std::vector<std::size_t> shown;
    int rowOfBefore = -1;
    for (std::size_t i = 0; m_doubts && i < m_doubts->items.size(); ++i) {
        const Doubted& item = m_doubts->items[i];
        if (!passes(item)) {
            continue;
        }
        const auto names = namesOf(item);
        if (!names) {
            continue;
        }
        if (item.shot && item.shot == shotBefore) {
            rowOfBefore = static_cast<int>(shown.size());
        }
        rows.push_back({{weightText(item), *names, reasonsText(item)},
                        text(core::words::sentence(item.doubts.front())),
                        {}});
        shown.push_back(i);
    }
    m_shown = std::move(shown);
    m_rows->show(std::move(rows));
    sayWhatIsLeft();
    if (!m_shown.empty()) {
        // After a decision the next one takes the place of the one that went.
        const int row = rowOfBefore >= 0 ? rowOfBefore : std::max(0, rowBefore);
        m_table->selectRow(std::min(row, static_cast<int>(m_shown.size()) - 1));
        if (m_wantsFocus && isVisible()) {
            m_wantsFocus = false;
            m_table->setFocus();
        }
    }
    showChosen();
}

void DoubtsScreen::sayWhatIsLeft() {
    m_pages->setCurrentIndex(m_shown.empty() ? 1 : 0);
    m_nothing->setText(m_doubts ? tr("Nothing doubtful is left to check here.")
                                : tr("Looking for doubtful shots…"));
    m_whole->setCurrentIndex(m_doubts && m_doubts->keptShots == 0 ? 1 : 0);
    m_answer->setText(answerOf(m_doubts.get()));
    const auto unread = m_doubts ? m_doubts->withoutPictures : 0;
    m_count->setVisible(m_doubts && m_doubts->keptShots > 0);
    m_count->setText(
        m_doubts
            ? tr("%1 to check, among %2.")
                      .arg(m_doubts->unsettled())
                      .arg(QString::fromStdString(
                          core::counted(m_doubts->keptShots, "kept shot", "kept shots"))) +
                  (unread == 0 ? QString{}
                               : QLatin1Char(' ') +
                                     tr("The marks of %1 are not yet compared with the pictures: "
                                        "Read ahead in Reading does that.")
                                         .arg(QString::fromStdString(
                                             core::counted(unread, "kept shot", "kept shots"))))
            : QString{});
}

const Doubted* DoubtsScreen::chosen() const {
    return itemAt(m_table->currentIndex().row());
}

const Doubted* DoubtsScreen::itemAt(int row) const {
    return m_doubts && row >= 0 && row < static_cast<int>(m_shown.size())
               ? &m_doubts->items[m_shown[static_cast<std::size_t>(row)]]
               : nullptr;
}

void DoubtsScreen::showChosen() {
    const Doubted* item = chosen();
    m_chosenShot = item != nullptr ? item->shot : std::nullopt;
    m_card->show(m_doubts, item);
}

void DoubtsScreen::say(const QString& words) {
    m_said->setText(words);
}

}  // namespace ui::doubts
