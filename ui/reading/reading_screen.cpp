#include "ui/reading/reading_screen.h"

#include <QLabel>
#include <QSplitter>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>

#include "core/intake/clip_record.h"
#include "core/intake/find_clip.h"
#include "ui/bridge/kept_again.h"
#include "ui/reading/card/key_list.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/grid/ball_view.h"
#include "ui/reading/grid/beside_view.h"
#include "ui/reading/grid/compare_view.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/frame_time_line.h"
#include "ui/reading/shot/mark_bar.h"
#include "ui/reading/shot/scene_view.h"
#include "ui/reading/shot/shot_strip.h"
#include "ui/reading/shot/what_is_open.h"
#include "ui/style/plain_label.h"
#include "ui/style/text_font.h"

namespace ui::reading {

using core::project::ShotId;
using core::project::Store;

namespace {

constexpr double kFineRowStep = 1.001;  // over ten turns a hundredth of a turn
constexpr double kCoarseRowStep = 1.01;
constexpr int kShotsAhead = 2;

}  // namespace

ReadingScreen::ReadingScreen(Store& store, bridge::FrameRequester& requester,
                             bridge::JobRunner* jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_requester{requester},
      m_actions{*this},
      m_pictureReader{jobs != nullptr ? std::make_unique<PictureReader>(store, *jobs) : nullptr},
      m_evidenceKeeper{jobs != nullptr && store.readOnlyReason().empty()
                           ? std::make_unique<EvidenceKeeper>(store, *jobs)
                           : nullptr},
      m_again{jobs != nullptr ? new bridge::KeptAgain{store, *jobs, this} : nullptr},
      m_desk{store, m_pictureReader.get()},
      m_effort{store, *this},
      m_pictures{requester},
      m_replay{m_desk} {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Reading of a shot"));
    build();
    connectActions();
    connectMarkActions();
    connectDesk();
    connectBeside();
    refreshActions();
    m_listening = store.listen([this](const Store::Change& change) {
        m_strip->update(change);
        showPage();
    });
    showPage();
    style::whenFontChanges(this, [this] { fitColumns(); });
}

ReadingScreen::~ReadingScreen() = default;

void ReadingScreen::build() {
    auto* columns = new QSplitter{Qt::Horizontal, this};
    columns->setObjectName(QStringLiteral("reading_columns"));
    columns->setChildrenCollapsible(false);
    m_strip = new ShotStrip{m_store, columns};
    columns->addWidget(m_strip);
    columns->addWidget(buildMiddle());
    m_card = new ReadingCard{m_desk, m_actions, columns};
    columns->addWidget(m_card);
    columns->setStretchFactor(0, 0);
    columns->setStretchFactor(1, 1);
    columns->setStretchFactor(2, 0);
    const int digit = fontMetrics().horizontalAdvance(QLatin1Char('0'));
    columns->setSizes({33 * digit, 108 * digit, 38 * digit});
    m_notice = new QLabel{this};
    m_notice->setObjectName(QStringLiteral("notice"));
    style::showPlainWords(m_notice);
    m_notice->setContentsMargins(8, 4, 8, 4);
    m_notice->setAutoFillBackground(true);
    m_notice->setBackgroundRole(QPalette::ToolTipBase);
    m_notice->setForegroundRole(QPalette::ToolTipText);
    m_notice->hide();
    auto* whole = new QVBoxLayout{this};
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(0);
    whole->addWidget(m_notice);
    auto* empty = new style::EmptyPage{0.0};
    empty->say(tr("No shots yet"),
               tr("Add the clips in Footage; the strikes in them are found by sound and movement."),
               style::EmptyPage::Way::Footage);
    connect(empty, &style::EmptyPage::wayChosen, this, &ReadingScreen::wayChosen);
    m_pages = new QStackedWidget;
    m_pages->addWidget(columns);
    m_pages->addWidget(empty);
    whole->addWidget(m_pages, 1);
    m_keyList = new KeyList{m_actions, this};
    connect(m_keyList, &KeyList::closed, m_actions.keys,
            [this] { m_actions.keys->setChecked(false); });
}

void ReadingScreen::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitColumns();
}

/// Names of implements are whole where there is room for them.
void ReadingScreen::fitColumns() {
    constexpr int kWideLetters = 200;
    constexpr int kLeastListDigits = 26;
    constexpr int kWideListDigits = 44;
    constexpr int kLeastCardDigits = 36;  // else its numbers are cut
    const int digit = fontMetrics().horizontalAdvance(QLatin1Char('0'));
    const bool isWide = width() > kWideLetters * digit;
    m_strip->setMinimumWidth((isWide ? kWideListDigits : kLeastListDigits) * digit);
    m_card->setMinimumWidth(kLeastCardDigits * digit);
}

void ReadingScreen::showPage() {
    m_pages->setCurrentIndex(m_store.snapshot()->shots.isEmpty() ? 1 : 0);
}

QWidget* ReadingScreen::buildMiddle() {
    auto* middle = new QSplitter{Qt::Vertical, this};
    middle->setObjectName(QStringLiteral("reading_middle"));
    middle->setChildrenCollapsible(false);
    auto* views = new QSplitter{Qt::Horizontal, middle};
    views->setObjectName(QStringLiteral("reading_views"));
    views->setChildrenCollapsible(false);
    m_sceneStack = new QStackedWidget{views};
    m_scene = new SceneView{m_desk, m_requester, m_sceneStack};
    m_compare = new CompareView{m_desk, m_pictures, m_sceneStack};
    m_sceneStack->addWidget(m_scene);
    m_sceneStack->addWidget(m_compare);
    m_ball = new BallView{m_desk, m_pictures, views};
    views->addWidget(m_sceneStack);
    views->addWidget(m_ball);
    views->setStretchFactor(0, 3);
    views->setStretchFactor(1, 2);
    views->setSizes({560, 330});
    auto* lower = new QWidget{middle};
    auto* column = new QVBoxLayout{lower};
    column->setContentsMargins(0, 0, 0, 4);
    column->setSpacing(2);
    column->addWidget(new MarkBar{m_actions, m_replay, lower});
    m_gridPanel = new TurnGridPanel{m_desk, m_pictures, m_actions, lower};
    m_beside = new BesideView{*m_gridPanel, m_desk, m_pictureReader.get(), lower};
    connect(m_beside, &BesideView::changed, views, &QWidget::setHidden);
    column->addWidget(m_beside, 1);
    m_timeLine = new FrameTimeLine{m_desk, lower};
    column->addWidget(m_timeLine);
    middle->addWidget(views);
    middle->addWidget(lower);
    middle->setStretchFactor(0, 1);
    middle->setStretchFactor(1, 1);
    return middle;
}

void ReadingScreen::connectActions() {
    const auto on = [this](QAction* action, auto&& act) {
        connect(action, &QAction::triggered, this, act);
    };
    on(m_actions.previousFrame, [this] { m_desk.stepFrames(-1); });
    on(m_actions.nextFrame, [this] { m_desk.stepFrames(1); });
    on(m_actions.previousTurn, [this] { m_desk.stepTurns(-1); });
    on(m_actions.nextTurn, [this] { m_desk.stepTurns(1); });
    on(m_actions.longerRow, [this] { stepRow(kFineRowStep); });
    on(m_actions.shorterRow, [this] { stepRow(1.0 / kFineRowStep); });
    on(m_actions.longerRowCoarse, [this] { stepRow(kCoarseRowStep); });
    on(m_actions.shorterRowCoarse, [this] { stepRow(1.0 / kCoarseRowStep); });
    on(m_actions.rowFromReading, [this] { m_desk.rowFromReading(); });
    on(m_actions.compare, [this] { m_compare->stepMode(); });
    on(m_actions.replay, [this](bool running) { m_replay.setRunning(running); });
    on(m_actions.previousShot, [this] { moveToShot(-1); });
    on(m_actions.nextShot, [this] { moveToShot(1); });
    on(m_actions.nextUnread, [this] { moveToNext(ShotListModel::Filter::Unread); });
    on(m_actions.nextDoubtful, [this] { moveToNext(ShotListModel::Filter::Doubtful); });
    connectReadingAhead();
    connectHidingNames();
    connect(m_actions.keys, &QAction::toggled, this, &ReadingScreen::setKeysShown);
    connect(&m_replay, &ReplayLoop::runningChanged, m_actions.replay, &QAction::setChecked);
    connect(m_compare, &CompareView::modeChanged, this, [this] {
        const bool isOff = m_compare->mode() == CompareView::Mode::Off;
        m_sceneStack->setCurrentWidget(isOff ? static_cast<QWidget*>(m_scene) : m_compare);
    });
}

void ReadingScreen::connectReadingAhead() {
    m_actions.readAhead->setVisible(m_pictureReader != nullptr);
    if (m_pictureReader == nullptr) {
        return;
    }
    connect(m_pictureReader.get(), &PictureReader::changed, this, &ReadingScreen::picturesRead);
    const auto show = [this] {
        m_actions.readAhead->setChecked(m_pictureReader->isReadingAhead());
        m_strip->setShotsToGo(m_pictureReader->shotsToGo());
    };
    connect(m_pictureReader.get(), &PictureReader::aheadChanged, this, show);
    connect(m_actions.readAhead, &QAction::triggered, this,
            [this](bool on) { m_pictureReader->setReadingAhead(on); });
    show();
}

void ReadingScreen::connectMarkActions() {
    const auto on = [this](QAction* action, auto&& act) {
        connect(action, &QAction::triggered, this, act);
    };
    on(m_actions.start, [this] { m_desk.toggleStart(m_desk.frame()); });
    on(m_actions.returnHere, [this] { m_desk.toggleReturn(m_desk.frame()); });
    on(m_actions.bracket, [this] { m_desk.toggleBracket(m_desk.frame()); });
    for (int digit = 0; digit < m_actions.digits.size(); ++digit) {
        on(m_actions.digits[digit], [this, digit] { typeTurns(digit); });
    }
    connect(m_actions.dial, &QAction::toggled, m_ball, &BallView::setDialShown);
    on(m_actions.dialCounterClockwise, [this] { m_ball->nudgeDial(1.0); });
    on(m_actions.dialClockwise, [this] { m_ball->nudgeDial(-1.0); });
    on(m_actions.keep, [this] { keepAndNext(); });
    on(m_actions.otherMethod, [this] {
        m_desk.chooseMethod(m_desk.method() == Method::Pictures ? Method::Marks : Method::Pictures);
    });
    on(m_actions.setAside, [this] { m_card->askReason(); });
    on(m_actions.doubtful, [this] { m_desk.toggleDoubtful(); });
    connect(m_card, &ReadingCard::reasonClosed, this, [this] { setFocus(); });
    connect(m_card, &ReadingCard::setUpWanted, this, &ReadingScreen::setUpWanted);
    connect(m_card, &ReadingCard::clockWanted, this, &ReadingScreen::clockWanted);
    connect(m_card, &ReadingCard::findingsWanted, this, &ReadingScreen::findingsWanted);
    connect(m_card, &ReadingCard::diameterAnswered, this, [this] {
        if (m_desk.method()) {
            keepAndNext();
        } else {
            m_desk.advise(
                tr("The pictures are read with the ball's diameter now. Press Enter "
                   "when the number is there."));
        }
    });
    if (m_again != nullptr) {
        connect(m_card, &ReadingCard::readAgainWanted, m_again, &bridge::KeptAgain::read);
        connect(m_strip, &ShotStrip::readAgainWanted, m_again, &bridge::KeptAgain::read);
        connect(m_again, &bridge::KeptAgain::ended, &m_desk, &ReadingDesk::advise);
    }
    connect(m_card, &ReadingCard::pointingWanted, this, [this] {
        m_compare->setMode(CompareView::Mode::Off);
        setFocus();
    });
    connect(m_card, &ReadingCard::wasSetAside, this, [this] {
        m_effort.setOutcome(core::project::VisitOutcome::SetAside);
        const ShotId before = m_desk.view().shot.id;
        moveToShot(1);
        if (m_desk.view().shot.id == before) {
            m_desk.advise(whatIsOpen(*m_store.snapshot()));
        }
    });
}

void ReadingScreen::connectDesk() {
    connect(&m_desk, &ReadingDesk::shotOpened, this, [this](ShotId shot) {
        m_strip->setCurrent(shot);
        m_effort.open(shot, m_desk.isBlind());
        Q_EMIT shotOpened(shot);
    });
    connect(&m_desk, &ReadingDesk::viewChanged, this, [this] {
        if (!m_doubt.isEmpty()) {
            showDoubt();  // the pictures may have been read
        }
        showClip();
        refreshActions();
        showStatus();
    });
    connect(&m_desk, &ReadingDesk::frameChanged, this, &ReadingScreen::showStatus);
    connect(&m_desk, &ReadingDesk::frameChanged, this, &ReadingScreen::refreshActions);
    connect(&m_effort, &EffortMeter::failed, &m_desk, &ReadingDesk::failed);
    connect(&m_desk, &ReadingDesk::shotClosed, this, [this] {
        m_effort.close();
        m_pictures.clear();
        refreshActions();
        Q_EMIT statusChanged({});
    });
    connect(m_strip, &ShotStrip::shotChosen, this, &ReadingScreen::openShot);
    connect(&m_pictures, &BallPictures::completed, this, &ReadingScreen::noteBall);
    if (m_evidenceKeeper) {
        connect(m_evidenceKeeper.get(), &EvidenceKeeper::kept, &m_strip->facts(),
                &ShotFacts::forget);
    }
    connect(this, &ReadingScreen::picturesRead, &m_strip->facts(), &ShotFacts::forget);
}

/// For the row of the shot in the list.
void ReadingScreen::noteBall() {
    if (m_desk.hasShot() && m_pictures.areCutOut()) {
        const QImage ball = m_pictures.picture(m_desk.view().tellingFrame());
        if (!ball.isNull()) {
            m_strip->facts().setBall(m_desk.view().shot.id, ball);
        }
    }
}

/// A film that was moved within the project's folder is found by its content.
void ReadingScreen::lookForFilm(ShotId id) {
    const auto snapshot = m_store.snapshot();
    const auto* shot = snapshot->shots.find(id);
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    if (clip != nullptr && !isTally(*clip) &&
        !std::filesystem::exists(m_store.file().parent_path() / clip->path)) {
        // Where it is nowhere, the scene says so.
        std::ignore = core::intake::findClip(m_store, clip->id);
    }
}

void ReadingScreen::openShot(ShotId shot) {
    m_doubt.clear();
    m_gridPanel->grid().setOtherRatesShown(false);
    m_strip->show();
    showNotice({});
    m_compare->setMode(CompareView::Mode::Off);
    lookForFilm(shot);
    m_desk.openShot(shot);
    QTimer::singleShot(0, this, &ReadingScreen::prepareNext);  // when this one is painted
}

void ReadingScreen::openFirstShot() {
    if (m_strip->model().rowCount() > 0) {
        openShot(m_strip->model().shotAt(0));
    }
}

QList<QAction*> ReadingScreen::readingActions() const {
    return m_actions.all();
}

bridge::FrameRequester::Clip ReadingScreen::openClip(const ShotView& view) {
    if (const auto clip = m_requester.findClip(view.file, view.clip.rotationDegrees)) {
        return *clip;
    }
    return m_requester.openClip(view.file, core::intake::indexOf(view.clip, *view.frames));
}

void ReadingScreen::showClip() {
    const ShotView& view = m_desk.view();
    if (view.kept) {
        m_pictures.showKept(view);
        m_scene->setKept();
        return;
    }
    const auto clip = openClip(view);
    m_scene->setClip(clip);  // first: it is what is looked at
    m_pictures.show(view, clip);
}

void ReadingScreen::prepareNext() {
    if (!m_desk.hasShot()) {
        return;
    }
    std::optional<ShotId> next = m_desk.view().shot.id;
    for (int k = 0; k < kShotsAhead; ++k) {
        next = m_strip->model().neighbour(*next, 1);
        if (!next) {
            return;
        }
        const auto view = makeShotView(m_store, *next);
        if (view && std::filesystem::exists(view.value().file)) {
            m_requester.prepare(openClip(view.value()), view.value().firstFrame(),
                                view.value().lastFrame());
        }
    }
}

void ReadingScreen::showStatus() {
    const ShotView& view = m_desk.view();
    Q_EMIT statusChanged(
        tr("frame %1 · %2 · %3")
            .arg(m_desk.frame().value)
            .arg(afterStrikeText(view.millisecondsAfterStrike(m_desk.frame())), view.clockText));
}

void ReadingScreen::refreshActions() {
    const bool hasShot = m_desk.hasShot();
    for (QAction* action : m_actions.all()) {
        action->setEnabled(hasShot || action == m_actions.keys || action == m_actions.readAhead ||
                           action == m_actions.hideNames);
    }
    if (!m_store.readOnlyReason().empty()) {
        for (QAction* action : m_actions.edits()) {
            action->setEnabled(false);
            action->setToolTip(QString::fromStdString(m_store.readOnlyReason()));
        }
    }
    m_actions.doubtful->setChecked(hasShot && m_desk.view().shot.doubtful);
    for (QAction* action : {m_actions.previousShot, m_actions.nextShot, m_actions.nextUnread,
                            m_actions.nextDoubtful, m_actions.setAside, m_actions.doubtful}) {
        action->setEnabled(hasShot && !m_desk.isBlind());
    }
    const bool hasFit = hasShot && m_desk.view().pictureReading() != nullptr;
    m_actions.otherMethod->setEnabled(hasFit && m_desk.view().reading.has_value());
    m_actions.rowFromReading->setEnabled(hasFit || (hasShot && m_desk.view().reading.has_value()));
}

void ReadingScreen::moveToShot(int step) {
    if (!m_desk.hasShot() || m_desk.isBlind()) {
        return;
    }
    if (const auto next = m_strip->model().neighbour(m_desk.view().shot.id, step)) {
        openShot(*next);
    }
}

void ReadingScreen::moveToNext(ShotListModel::Filter kind) {
    if (const auto next = m_strip->model().nextOf(kind, m_desk.view().shot.id)) {
        openShot(*next);
    }
}

void ReadingScreen::keepAndNext() {
    if (m_card->askDiameterFirst()) {
        return;
    }
    if (m_desk.isBlind()) {
        if (m_desk.keep()) {
            m_effort.setOutcome(core::project::VisitOutcome::Kept);
            readBlind();
        }
        return;
    }
    // The neighbour is found first: keeping may take this shot out of the filtered list.
    const auto next = m_strip->model().neighbour(m_desk.view().shot.id, 1);
    m_desk.setLeaving(next.has_value());
    const bool isKept = m_desk.keep();
    m_desk.setLeaving(false);
    if (!isKept) {
        return;
    }
    m_effort.setOutcome(core::project::VisitOutcome::Kept);
    if (next) {
        openShot(*next);
    } else {
        m_desk.advise(whatIsOpen(*m_store.snapshot()));
    }
}

}  // namespace ui::reading
