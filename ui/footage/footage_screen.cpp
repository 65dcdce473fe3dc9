#include "ui/footage/footage_screen.h"

#include <QDragEnterEvent>
#include <QLabel>
#include <QMenu>
#include <QMimeData>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <set>
#include <utility>

#include "core/base/words.h"
#include "ui/bridge/kept_again.h"
#include "ui/footage/assign_panel.h"
#include "ui/footage/clip_list.h"
#include "ui/footage/clip_menu.h"
#include "ui/footage/clip_viewer.h"
#include "ui/footage/clock_check_panel.h"
#include "ui/footage/clock_panel.h"
#include "ui/footage/day_assign_panel.h"
#include "ui/footage/intake_panel.h"
#include "ui/footage/session_panel.h"
#include "ui/footage/shot_finder.h"
#include "ui/footage/shot_list.h"
#include "ui/style/ask.h"
#include "ui/style/fold_card.h"
#include "ui/style/plain_label.h"
#include "ui/style/scrolled_down.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

using core::project::ClipId;

QString answerOf(const core::project::Snapshot& snapshot) {
    std::set<ClipId> loose;  // have a shot that nobody assigned
    for (const auto& shot : snapshot.shots) {
        if (!shot.cell) {
            loose.insert(shot.clip);
        }
    }
    const auto unsure =
        std::count_if(snapshot.clips.begin(), snapshot.clips.end(),
                      [](const auto& clip) { return !clip.clock && !isTally(clip); });
    const auto clips = [](auto number) {
        return QString::fromStdString(
            core::counted(static_cast<std::size_t>(number), "clip", "clips"));
    };
    if (unsure > 0) {
        return FootageScreen::tr("%1 without a known capture rate").arg(clips(unsure));
    }
    if (!loose.empty()) {
        return FootageScreen::tr("%1 not assigned").arg(clips(loose.size()));
    }
    return FootageScreen::tr("%1 in %2")
        .arg(QString::fromStdString(core::counted(snapshot.shots.size(), "shot", "shots")),
             clips(snapshot.clips.size()));
}

bool hasUnassignedShots(const core::project::Snapshot& snapshot) {
    return std::any_of(snapshot.shots.begin(), snapshot.shots.end(),
                       [](const auto& shot) { return !shot.cell; });
}

}  // namespace

FootageScreen::FootageScreen(core::project::Store& store, bridge::FrameRequester& pictures,
                             bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_jobs{jobs},
      m_again{new bridge::KeptAgain{store, jobs, this}},
      m_clips{new ClipList{store}},
      m_intake{new IntakePanel{store, jobs}},
      m_viewer{new ClipViewer{store, pictures}},
      m_shots{new ShotList{store, m_viewer->timeLine()}},
      m_finder{new ShotFinder{store, jobs, this}},
      m_clipCount{store.snapshot()->clips.size()} {
    setAcceptDrops(true);
    auto* split = new QSplitter{Qt::Horizontal};
    split->setObjectName(QStringLiteral("footage_split"));
    split->addWidget(makeLists());
    split->addWidget(makeSides());
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    split->setChildrenCollapsible(false);
    m_answer = new QLabel;
    m_answer->setObjectName(QStringLiteral("footage_answer"));
    style::showPlainWords(m_answer);
    style::setTextSize(m_answer, style::TextSize::Head, style::Weight::Strong);
    m_answer->hide();  // until it is known that there is room
    m_trouble = new QLabel;
    m_trouble->setObjectName(QStringLiteral("trouble"));
    style::showPlainWords(m_trouble);
    m_trouble->hide();
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(style::kCardsPx, style::kBetweenPx, style::kCardsPx,
                               style::kBetweenPx);
    layout->addWidget(m_answer);
    layout->addWidget(m_trouble);
    layout->addWidget(split, 1);
    connectParts();
    m_listening = m_store.listen([this](const core::project::Store::Change&) {
        askForSetUp();
        if (isVisible()) {  // else showing it does: keys of other screens have to be quick
            refresh();
        }
    });
}

FootageScreen::~FootageScreen() = default;

QWidget* FootageScreen::makeLists() {
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout{column};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_intake);
    layout->addWidget(m_clips, 2);
    layout->addWidget(m_shots, 1);
    return new style::ScrolledDown{column};  // large text needs more than a low window holds
}

QWidget* FootageScreen::makeDetails() {
    m_assign = new AssignPanel{m_store};
    m_clock = new ClockPanel{m_store};
    m_check = new ClockCheckPanel{m_store, m_viewer->timeLine()};
    auto* facts = new QWidget;
    auto* factsLayout = new QVBoxLayout{facts};
    factsLayout->setContentsMargins(0, 0, 4, 0);
    using style::FoldCard;
    m_clockCard = new FoldCard{tr("Clock of this clip"), m_clock};
    m_clockCard->setObjectName(QStringLiteral("clock_card"));
    auto* check = new FoldCard{tr("Clock check"), m_check};
    check->setObjectName(QStringLiteral("check_card"));
    m_assignCards = {
        new FoldCard{tr("Assign chosen shots"), m_assign},
        new FoldCard{tr("Assign the shots of a filming day"), new DayAssignPanel{m_store, m_jobs}}};
    m_assignCards[0]->setObjectName(QStringLiteral("assign_card"));
    m_assignCards[1]->setObjectName(QStringLiteral("day_card"));
    for (FoldCard* card : m_assignCards) {
        factsLayout->addWidget(card);
    }
    factsLayout->addWidget(m_clockCard);
    factsLayout->addWidget(check);
    factsLayout->addStretch();
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout{column};
    layout->setContentsMargins(0, 0, 0, 0);
    auto* cards = new style::ScrolledDown{facts};
    cards->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    layout->addWidget(m_viewer, 2);  // and what the folded cards leave
    layout->addWidget(cards, 3);
    return column;
}

QWidget* FootageScreen::makeSides() {
    m_session = new SessionPanel{m_store};
    m_setUp = new style::ScrolledDown{m_session};
    m_setUp->setObjectName(QStringLiteral("set_up"));
    m_sides = new QStackedWidget;
    m_sides->addWidget(makeDetails());
    m_sides->addWidget(m_setUp);
    return m_sides;
}

void FootageScreen::connectParts() {
    auto* menu = new ClipMenu{m_store, m_clips->view(), [this] { return m_clips->chosen(); },
                              [this](ClipId clip) { return m_clips->isMissing(clip); }};
    connect(menu, &ClipMenu::shotActivated, this, &FootageScreen::shotActivated);
    connect(menu, &ClipMenu::findWanted, this, &FootageScreen::findShots);
    connect(menu, &ClipMenu::whereWanted, m_viewer, &ClipViewer::askWhereItIs);
    connect(menu, &ClipMenu::setUpWanted, this, &FootageScreen::setUpDay);
    connect(menu, &ClipMenu::readAgainWanted, m_again, &bridge::KeptAgain::read);
    connect(menu, &ClipMenu::troubled, this, &FootageScreen::say);
    connect(m_clips, &ClipList::choiceChanged, this, &FootageScreen::onClipsChosen);
    connect(m_clips, &ClipList::clicked, this, &FootageScreen::showDetails);
    connect(m_shots, &ShotList::choiceChanged, this, &FootageScreen::refreshAssignment);
    connect(m_shots, &ShotList::shotActivated, this, &FootageScreen::shotActivated);
    connect(m_shots, &ShotList::doubtsWanted, this, &FootageScreen::doubtsWanted);
    connect(m_shots, &ShotList::findWanted, this, &FootageScreen::findShots);
    connect(m_shots, &ShotList::troubled, this, &FootageScreen::say);
    connect(m_viewer, &ClipViewer::troubled, this, &FootageScreen::say);
    connect(m_intake, &IntakePanel::statusChanged, this, &FootageScreen::statusChanged);
    connect(m_intake, &IntakePanel::testClipWanted, this, &FootageScreen::testClipWanted);
    connect(m_intake, &IntakePanel::setUpWanted, this, &FootageScreen::setUpDay);
    connect(m_session, &SessionPanel::closed, this, &FootageScreen::showDetails);
    connect(m_session, &SessionPanel::readAgainWanted, m_again, &bridge::KeptAgain::read);
    connect(m_clock, &ClockPanel::readAgainWanted, m_again, &bridge::KeptAgain::read);
    connect(m_check, &ClockCheckPanel::readAgainWanted, m_again, &bridge::KeptAgain::read);
    connect(m_again, &bridge::KeptAgain::ended, this, &FootageScreen::say);
    connect(m_finder, &ShotFinder::finished, this, [this](const QString& text, bool isTrouble) {
        isTrouble ? addTrouble(text) : Q_EMIT statusChanged(text);
    });
}

void FootageScreen::refresh() {
    m_clips->refresh();
    const bool isEmpty = m_store.snapshot()->clips.isEmpty();
    m_shots->setHidden(isEmpty);
    m_sides->setHidden(isEmpty);
    m_shots->refresh();
    m_viewer->refreshBlocks();
    refreshAssignment();
    showAnswer();
    lead();
}

void FootageScreen::showAnswer() {
    constexpr int kRoomForItPx = 560;
    const auto snapshot = m_store.snapshot();
    m_answer->setText(answerOf(*snapshot));
    m_answer->setVisible(!snapshot->clips.isEmpty() && height() > kRoomForItPx);
}

/// What the footage needs next is the one primary action: clips, then the rate of the chosen clip,
/// then whose its shots are. The cards of what is asked are open, and stay as a person has them
/// until it is answered.
void FootageScreen::lead() {
    const auto snapshot = m_store.snapshot();
    const auto* clip = m_shown ? snapshot->clips.find(*m_shown) : nullptr;
    const bool needsClips = snapshot->clips.isEmpty();
    const bool needsRate = clip != nullptr && !clip->clock;
    m_intake->setLeads(needsClips);
    m_clock->setLeads(needsRate);
    m_assign->setLeads(!needsClips && !needsRate && hasUnassignedShots(*snapshot));
    const bool isRateAsked = needsRate || m_clock->isRefuted();
    if (isRateAsked != std::exchange(m_isRateAsked, isRateAsked)) {
        m_clockCard->setOpen(isRateAsked);
    }
    const bool areNamesAsked = hasUnassignedShots(*snapshot);
    if (areNamesAsked != std::exchange(m_areNamesAsked, areNamesAsked)) {
        for (style::FoldCard* card : m_assignCards) {
            card->setOpen(areNamesAsked);
        }
    }
}

void FootageScreen::chooseClip(ClipId clip) {
    m_clips->choose(clip);
    showDetails();
    m_clockCard->setOpen(true);
    style::bringIntoView(*m_clock);
}

void FootageScreen::setUpDay(std::optional<core::project::SessionId> session) {
    const auto snapshot = m_store.snapshot();
    if (!session && !snapshot->sessions.isEmpty()) {
        session = (snapshot->sessions.end() - 1)->id;
    }
    m_session->showSession(session);
    m_sides->setCurrentWidget(m_setUp);
    m_session->begin();
}

void FootageScreen::setUpDayOf(ClipId clip) {
    const auto snapshot = m_store.snapshot();
    if (const auto* found = snapshot->clips.find(clip)) {
        m_clips->choose(clip);
        setUpDay(found->session);
    }
}

/// The first clips of a day have come in, and nobody has said with what ball they were filmed.
void FootageScreen::askForSetUp() {
    const auto snapshot = m_store.snapshot();
    const bool isMore = snapshot->clips.size() > m_clipCount;
    m_clipCount = snapshot->clips.size();
    if (!isMore || m_sides->currentWidget() == m_setUp || !m_store.readOnlyReason().empty()) {
        return;
    }
    const auto& newest = *(snapshot->clips.end() - 1);
    if (!isTally(newest) && core::intake::needsDiameter(*snapshot, newest.session) &&
        m_notNow.insert(newest.session).second) {
        setUpDay(newest.session);
    }
}

void FootageScreen::showDetails() {
    m_sides->setCurrentIndex(0);
    showClip(m_shown);
}

void FootageScreen::onClipsChosen() {
    const auto& chosen = m_clips->chosen();
    const auto clip = chosen.empty() ? std::nullopt : std::optional{chosen.front()};
    if (!clip || clip != m_shown) {
        showClip(clip);
    }
    m_check->setChosenClips(chosen);
    m_clock->setChosenClips(chosen);
    refreshAssignment();
}

void FootageScreen::showClip(std::optional<ClipId> clip) {
    m_shown = clip;
    const auto snapshot = m_store.snapshot();
    const auto* record = clip ? snapshot->clips.find(*clip) : nullptr;
    m_viewer->showClip(clip);
    m_shots->showClip(clip);
    m_clock->showClip(clip);
    m_check->showClip(clip);
    lead();
    Q_EMIT statusChanged(record != nullptr ? QString::fromStdString(record->path) : QString{});
}

void FootageScreen::refreshAssignment() {
    auto shots = m_shots->chosenShots();
    const auto chosen = shots.size();
    if (chosen > 0) {
        m_assign->setShots(std::move(shots),
                           QString::fromStdString(core::counted(chosen, "shot", "shots")));
        return;
    }
    const auto snapshot = m_store.snapshot();
    const auto& clips = m_clips->chosen();
    for (const ClipId clip : clips) {
        for (const auto* shot : core::project::shotsOfClip(*snapshot, clip)) {
            shots.push_back(shot->id);
        }
    }
    const auto count = shots.size();
    m_assign->setShots(std::move(shots),
                       tr("%1 of %2")
                           .arg(QString::fromStdString(core::counted(count, "shot", "shots")),
                                clips.size() == 1 ? tr("this clip")
                                                  : QString::fromStdString(core::counted(
                                                        clips.size(), "clip", "clips"))));
}

void FootageScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
    if (m_shown) {
        showClip(m_shown);
    } else {
        m_clips->chooseAgain();
    }
}

/// In a narrow window names of implements need the room more than the picture does.
void FootageScreen::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    constexpr int kNarrowPx = 1180;
    constexpr int kNarrowSidePx = 350;
    m_sides->setMaximumWidth(width() < kNarrowPx
                                 ? std::max(kNarrowSidePx, m_sides->minimumSizeHint().width())
                                 : QWIDGETSIZE_MAX);
    showAnswer();
}

void FootageScreen::findShots() {
    say({});
    for (const ClipId clip : m_clips->chosen()) {
        m_finder->find(clip);
    }
}

void FootageScreen::pointChosenClipTo(const QString& file) {
    m_viewer->pointTo(file);
}

void FootageScreen::takeIn(const QStringList& sources) {
    say(QString::fromStdString(m_store.readOnlyReason()));
    m_intake->takeIn(sources);
}

void FootageScreen::dragEnterEvent(QDragEnterEvent* event) {
    const QList<QUrl> urls = event->mimeData()->urls();
    // A project is for the window, which opens it.
    if (std::any_of(urls.begin(), urls.end(), [](const QUrl& url) {
            return url.path().endsWith(QLatin1String(".turnmark"));
        })) {
        event->ignore();
    } else if (!urls.isEmpty()) {
        event->acceptProposedAction();
    }
}

void FootageScreen::dropEvent(QDropEvent* event) {
    QStringList sources;
    for (const QUrl& url : event->mimeData()->urls()) {
        if (url.isLocalFile()) {
            sources << url.toLocalFile();
        }
    }
    event->acceptProposedAction();
    takeIn(sources);
}

void FootageScreen::addTrouble(const QString& line) {
    say(m_trouble->text().isEmpty() ? line : m_trouble->text() + QLatin1Char('\n') + line);
}

void FootageScreen::say(const QString& trouble) {
    m_trouble->setText(trouble);
    m_trouble->setVisible(!trouble.isEmpty());
}

}  // namespace ui::footage
