#include "ui/doubts/doubts_screen.h"

#include <QAction>
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
#include "ui/doubts/doubt_delegate.h"
#include "ui/doubts/doubt_filters.h"
#include "ui/doubts/doubt_list_model.h"
#include "ui/doubts/doubt_source.h"
#include "ui/doubts/film_again_panel.h"
#include "ui/doubts/history_panel.h"
#include "ui/doubts/second_readings_panel.h"
#include "ui/doubts/text.h"
#include "ui/style/data_table.h"
#include "ui/style/plain_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::doubts {
namespace {

using core::doubts::Doubted;
using core::doubts::Grade;
using core::project::ShotId;

constexpr int kBallsMilliseconds = 2000;
/// The list takes a third, and of a wide window what lines of its length need.
constexpr int kLeastListPx = 340;
constexpr int kLeastListDigits = 45;  // more with larger text, as far as the card can spare it
constexpr int kSpareListPx = 430;
constexpr int kMostListPx = 560;
constexpr int kListShare = 340;
constexpr double kFewestRows = 2.6;  // the last one in part: there is more below
constexpr int kCardShare = 660;

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

}  // namespace

DoubtsScreen::DoubtsScreen(core::project::Store& store, bridge::JobRunner& jobs,
                           bridge::FindingsKeeper& findings, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_source{new DoubtSource{store, jobs, findings, this}},
      m_again{new bridge::KeptAgain{store, jobs, this}},
      m_rows{new DoubtListModel{store, this}},
      m_table{style::makeDataTable(m_rows, kFewestRows)},
      m_filters{new DoubtFilters},
      m_answer{new QLabel},
      m_count{new QLabel},
      m_said{new QLabel},
      m_nothing{new style::EmptyPage{1.0}},
      m_empty{new style::EmptyPage{0.75}},
      m_pages{new QStackedWidget},
      m_whole{new QStackedWidget},
      m_tabs{new QTabWidget},
      m_card{new DoubtCard{store, jobs}} {
    layOut();
    connectParts();
    addAction("replay", tr("Replay"), {}, &DoubtCard::replay);
    addAction("keep", tr("Keep as it is"), Qt::Key_K, &DoubtCard::keepAsIs);
    addAction("blind", tr("Read again blind"), Qt::Key_W, &DoubtCard::readBlind);
    addAction("let_count", tr("Use this reading"), Qt::Key_L, &DoubtCard::letCount);
    addAction("set_aside", tr("Set aside…"), Qt::Key_O, &DoubtCard::askAside);
    addAction("film_again", tr("Film again…"), Qt::Key_F, &DoubtCard::askFilmAgain);
    addAction("doubt_cell", tr("Mark the cell as doubtful"), Qt::Key_D, &DoubtCard::doubtCell);
    refill();
    style::whenFontChanges(this, [this] {
        fitDoubtRows(*m_table);
        fitList();
    });
}

DoubtsScreen::~DoubtsScreen() = default;

void DoubtsScreen::connectParts() {
    connect(m_source, &DoubtSource::changed, this, [this] {
        m_doubts = m_source->doubts();
        offerFilters();
        refill();
        Q_EMIT changed();
    });
    connect(m_source, &DoubtSource::failed, this, &DoubtsScreen::say);
    connect(m_table, &QTableView::activated, this, [this] { m_card->replay(); });
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &DoubtsScreen::showChosen);
    connect(m_filters, &DoubtFilters::changed, this, &DoubtsScreen::refill);
    // No key decides about a doubt that is out of sight.
    connect(m_tabs, &QTabWidget::currentChanged, this, [this](int page) {
        for (QAction* action : m_actions) {
            action->setEnabled(page == 0);
        }
    });
    m_balls.setInterval(kBallsMilliseconds);
    connect(&m_balls, &QTimer::timeout, m_rows, &DoubtListModel::lookForBallsAgain);
    connect(m_card, &DoubtCard::readAgainWanted, m_again, &bridge::KeptAgain::read);
    connect(m_again, &bridge::KeptAgain::ended, this, &DoubtsScreen::say);
    connect(m_card, &DoubtCard::said, this, &DoubtsScreen::say);
    connect(m_card, &DoubtCard::blindWanted, this, &DoubtsScreen::blindWanted);
    connect(m_card, &DoubtCard::replayWanted, this, [this](ShotId shot) {
        const auto* item = chosen();
        Q_EMIT replayWanted(
            shot, item != nullptr ? text(core::words::sentence(item->doubts.front())) : QString{});
    });
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

QWidget* DoubtsScreen::makeList() {
    m_table->setObjectName(QStringLiteral("doubts"));
    m_table->setAccessibleName(tr("Doubtful shots and cells, worst first"));
    m_table->setToolTip(tr("↑ ↓ choose; Enter replays the shot in Reading"));
    showAsDoubtRows(*m_table, *m_rows);
    m_pages->addWidget(m_table);
    m_pages->addWidget(m_nothing);
    auto* list = new QWidget;
    list->setMaximumWidth(kMostListPx);
    m_list = list;
    fitList();
    auto* column = new QVBoxLayout{list};
    column->setContentsMargins(0, style::kBetweenPx, 0, 0);
    column->addWidget(m_filters);
    column->addWidget(m_pages, 1);
    return list;
}

void DoubtsScreen::fitList() {
    const int digit = fontMetrics().horizontalAdvance(QLatin1Char('0'));
    const int spare = static_cast<int>(kSpareListPx * style::textScale());
    m_list->setMinimumWidth(std::clamp(kLeastListDigits * digit, kLeastListPx, spare));
}

QWidget* DoubtsScreen::makeTabs() {
    auto* again = new FilmAgainPanel{m_store};
    auto* second = new SecondReadingsPanel{m_store};
    auto* history = new HistoryPanel{m_store};
    m_tabs->setObjectName(QStringLiteral("doubtTabs"));
    m_tabs->setAccessibleName(tr("What to do about doubts"));
    auto* sides = new QSplitter{Qt::Horizontal};
    sides->setObjectName(QStringLiteral("doubts_sides"));
    sides->addWidget(makeList());
    sides->addWidget(m_card);
    sides->setStretchFactor(0, kListShare);
    sides->setStretchFactor(1, kCardShare);
    sides->setSizes({kListShare, kCardShare});
    sides->setChildrenCollapsible(false);
    m_tabs->addTab(sides, tr("To check"));
    m_tabs->addTab(second, second->title());
    m_tabs->addTab(again, again->title());
    m_tabs->addTab(history, tr("History"));
    connect(second, &SecondReadingsPanel::titleChanged, this,
            [this, second] { m_tabs->setTabText(m_tabs->indexOf(second), second->title()); });
    connect(again, &FilmAgainPanel::titleChanged, this,
            [this, again] { m_tabs->setTabText(m_tabs->indexOf(again), again->title()); });
    connect(again, &FilmAgainPanel::said, this, &DoubtsScreen::say);
    connect(second, &SecondReadingsPanel::said, this, &DoubtsScreen::say);
    connect(second, &SecondReadingsPanel::blindWanted, this, &DoubtsScreen::blindWanted);
    connect(history, &HistoryPanel::said, this, &DoubtsScreen::say);
    connect(history, &HistoryPanel::shotActivated, this, &DoubtsScreen::shotActivated);
    return m_tabs;
}

void DoubtsScreen::layOut() {
    for (QLabel* label : {m_answer, m_count, m_said}) {
        style::showPlainWords(label);
    }
    m_said->setObjectName(QStringLiteral("doubtSaid"));
    m_said->hide();
    m_empty->say(tr("No shot is kept yet"),
                 tr("Keep the first shots in Reading; whatever is doubtful about them appears "
                    "here."),
                 style::EmptyPage::Way::Reading);
    connect(m_empty, &style::EmptyPage::wayChosen, this, &DoubtsScreen::wayChosen);
    auto* there = new QWidget;
    auto* column = new QVBoxLayout{there};
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(makeHead());
    column->addWidget(makeTabs(), 1);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(style::kCardsPx, style::kBetweenPx, style::kCardsPx,
                               style::kBetweenPx);
    m_whole->addWidget(there);
    m_whole->addWidget(m_empty);
    layout->addWidget(m_whole, 1);
    layout->addWidget(m_said);
}

void DoubtsScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_source->setWanted(true);
    m_balls.start();
    m_rows->lookForBallsAgain();
    m_wantsFocus = m_rows->rowCount() == 0;  // an empty table is hidden and cannot have it yet
    m_table->setFocus();
    Q_EMIT statusChanged(
        tr("Doubtful does not mean wrong: replay it, read it again, then decide. "
           "Every decision can be undone."));
}

void DoubtsScreen::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_balls.stop();
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

void DoubtsScreen::offerFilters() {
    m_filters->offer(*m_store.snapshot(), m_doubts.get());
}

void DoubtsScreen::showDoubtsOf(core::project::ImplementId implement) {
    offerFilters();
    m_filters->choose(implement);
    m_tabs->setCurrentIndex(0);
    refill();
}

void DoubtsScreen::showDoubtsOf(ShotId shot) {
    const auto snapshot = m_store.snapshot();
    const auto* found = snapshot->shots.find(shot);
    offerFilters();
    m_filters->choose(found != nullptr ? found->cell : std::nullopt);
    m_chosenShot = shot;
    m_tabs->setCurrentIndex(0);
    refill();
}

void DoubtsScreen::refill() {
    const auto shotBefore = m_chosenShot;
    const int rowBefore = m_table->currentIndex().row();
    const auto snapshot = m_store.snapshot();
    std::vector<std::size_t> shown;
    for (std::size_t i = 0; m_doubts && i < m_doubts->items.size(); ++i) {
        const Doubted& item = m_doubts->items[i];
        const bool isGone = item.shot && snapshot->shots.find(*item.shot) == nullptr;
        if (!isGone && m_filters->passes(*snapshot, item)) {
            shown.push_back(i);
        }
    }
    m_rows->show(m_doubts, std::move(shown));
    sayWhatIsLeft();
    chooseAgain(shotBefore, rowBefore);
    showChosen();
}

/// After a decision the next one takes the place of the one that went.
void DoubtsScreen::chooseAgain(std::optional<ShotId> shot, int rowBefore) {
    if (m_rows->rowCount() == 0) {
        return;
    }
    const int found = shot ? m_rows->rowOf(*shot) : -1;
    const int row = found >= 0 ? found : std::max(0, rowBefore);
    m_table->selectRow(std::min(row, m_rows->rowCount() - 1));
    if (m_wantsFocus && isVisible()) {
        m_wantsFocus = false;
        m_table->setFocus();
    }
}

void DoubtsScreen::sayWhatIsLeft() {
    m_pages->setCurrentIndex(m_rows->rowCount() == 0 ? 1 : 0);
    m_nothing->say(
        !m_doubts                    ? tr("Looking for doubtful shots…")
        : m_doubts->unsettled() == 0 ? tr("Nothing left to check")
                                     : tr("Nothing doubtful is left to check here."),
        m_filters->isNarrowed() ? tr("The filters above leave the rest out.") : QString{});
    m_whole->setCurrentIndex(m_doubts && m_doubts->keptShots == 0 ? 1 : 0);
    m_answer->setText(answerOf(m_doubts.get()));
    const auto open = m_doubts ? m_doubts->unsettled() : 0;
    m_tabs->setTabText(0, open == 0 ? tr("To check") : tr("To check %1").arg(open));
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
    return m_rows->itemAt(m_table->currentIndex().row());
}

void DoubtsScreen::showChosen() {
    const Doubted* item = chosen();
    m_chosenShot = item != nullptr ? item->shot : std::nullopt;
    m_card->show(m_doubts, item);
}

void DoubtsScreen::say(const QString& words) {
    m_said->setText(words);
    m_said->setVisible(!words.isEmpty());
}

}  // namespace ui::doubts
