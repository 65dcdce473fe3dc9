#include "ui/shell/main_window.h"

#include <QActionGroup>
#include <QApplication>
#include <QLabel>
#include <QMenuBar>
#include <QSettings>
#include <QStackedWidget>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>

#include "core/jobs/memory_budget.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/footage/footage_screen.h"
#include "ui/plan/plan_screen.h"
#include "ui/publish/publish_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/backup_keeper.h"
#include "ui/shell/guide_window.h"
#include "ui/shell/keys_window.h"
#include "ui/shell/page_area.h"
#include "ui/shell/project_button.h"
#include "ui/shell/project_files.h"
#include "ui/shell/start_page.h"
#include "ui/shell/status_line.h"
#include "ui/shell/step_band.h"
#include "ui/style/field_undo.h"
#include "ui/style/menu_key.h"
#include "ui/style/tokens.h"
#include "ui/style/wheel_scrolls.h"

namespace ui::shell {
namespace {

constexpr int kRefreshMilliseconds = 3000;
constexpr int kStepsMilliseconds = 120;  // after a key has been painted

/// Mebibytes for pictures and readings; what the machine suggests where it is absent.
constexpr QLatin1String kMemorySetting{"memory_mebibytes"};

void setMemoryLimit() {
    using core::jobs::MemoryBudget;
    const auto mebibytes = QSettings{}.value(kMemorySetting).toULongLong();
    MemoryBudget::ofProgram().setLimitBytes(mebibytes > 0 ? std::size_t{mebibytes} << 20U
                                                          : MemoryBudget::usualLimitBytes());
}

}  // namespace

MainWindow::MainWindow(QWidget* parent)
    : QMainWindow{parent},
      m_jobs{new bridge::JobRunner{0, this}},
      m_pages{new QStackedWidget},
      m_start{new StartPage},
      m_band{new StepBand},
      m_reader{new ProjectButton},
      m_status{new StatusLine},
      m_readOnly{new QLabel},
      m_backupTrouble{new QLabel},
      m_backups{new BackupKeeper{*m_jobs, this}},
      m_files{new ProjectFiles{*m_jobs, *m_backups, *this}},
      m_steps{new QTimer{this}},
      m_refresh{new QTimer{this}},
      m_screenActions{new QActionGroup{this}} {
    setAcceptDrops(true);
    setMemoryLimit();
    setWindowTitle(QStringLiteral("Turnmark"));
    QCoreApplication::instance()->installEventFilter(new style::WheelScrolls{this});
    QCoreApplication::instance()->installEventFilter(new style::MenuKey{this});
    QCoreApplication::instance()->installEventFilter(new style::FieldUndo{this});
    layOut();
    connect(m_backups, &BackupKeeper::troubleChanged, this, [this](const QString& trouble) {
        m_backupTrouble->setText(trouble);
        m_backupTrouble->setVisible(!trouble.isEmpty());
    });
    m_steps->setSingleShot(true);
    m_steps->setInterval(kStepsMilliseconds);
    connect(m_steps, &QTimer::timeout, this, &MainWindow::refreshSteps);
    m_refresh->setInterval(kRefreshMilliseconds);
    connect(m_refresh, &QTimer::timeout, this, [this] {
        if (m_workspace.store) {
            std::ignore = m_workspace.store->refresh();  // else at the next time
        }
    });
    makeActions();
    makeBand();
    makeMenus();
    connect(m_files, &ProjectFiles::openWanted, this, &MainWindow::openProject);
    connect(m_files, &ProjectFiles::restoreWanted, this, &MainWindow::restore);
    connect(m_start, &StartPage::demoWanted, this, &MainWindow::openDemo);
    connect(m_start, &StartPage::testClipWanted, this, [this] { showTestClip({}); });
    connect(m_start, &StartPage::newWanted, this, &MainWindow::newProject);
    connect(m_start, &StartPage::openWanted, this, &MainWindow::chooseProject);
    connect(m_start, &StartPage::recentWanted, this,
            [this](const QString& file) { openProject(file.toStdString()); });
    refreshActions();
    placeWindow();
}

void MainWindow::layOut() {
    m_pages->addWidget(m_start);
    auto* middle = new QWidget;
    auto* column = new QVBoxLayout{middle};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_readOnly);
    column->addWidget(m_backupTrouble);
    column->addWidget(new PageArea{m_pages}, 1);
    column->addWidget(m_status);
    setCentralWidget(middle);
    // The start page goes down to the edge, unless something is said below it.
    connect(m_pages, &QStackedWidget::currentChanged, this,
            [this] { m_status->setPlaceKept(m_pages->currentWidget() != m_start); });
    m_readOnly->setObjectName(QStringLiteral("read_only"));
    m_readOnly->setTextFormat(Qt::PlainText);
    m_readOnly->setWordWrap(true);
    m_readOnly->setContentsMargins(8, 4, 8, 4);
    m_readOnly->hide();
    m_backupTrouble->setObjectName(QStringLiteral("backup_trouble"));
    m_backupTrouble->setTextFormat(Qt::PlainText);
    m_backupTrouble->setWordWrap(true);
    m_backupTrouble->setContentsMargins(8, 4, 8, 4);
    m_backupTrouble->hide();
}

MainWindow::~MainWindow() {
    closeProject();
}

QAction* MainWindow::action(const QString& name, const QString& text, const QKeySequence& keys,
                            const QString& tip) {
    auto* made = new QAction{text, this};
    made->setObjectName(name);
    made->setShortcut(keys);
    made->setToolTip(keys.isEmpty() ? tip
                                    : QStringLiteral("%1 (%2)").arg(
                                          tip, keys.toString(QKeySequence::NativeText)));
    addAction(made);
    return made;
}

void MainWindow::onTrigger(QAction* action, std::function<void()> act) {
    connect(action, &QAction::triggered, this, [act = std::move(act)] {
        if (QApplication::activeModalWidget() == nullptr) {
            act();
        }
    });
}

void MainWindow::makeActions() {
    struct Step {
        Screen screen;
        const char* name;
        QString text;
        Qt::Key key;
        QString tip;
    };
    for (const Step& step : {Step{Screen::Plan, "screen.plan", tr("Plan"), Qt::Key_1,
                                  tr("The filming day: implements, hitters, order, cards")},
                             Step{Screen::Footage, "screen.footage", tr("Footage"), Qt::Key_2,
                                  tr("Clips, clocks and shots")},
                             Step{Screen::Reading, "screen.reading", tr("Reading"), Qt::Key_3,
                                  tr("One shot after the other")},
                             Step{Screen::Doubts, "screen.doubts", tr("Doubts"), Qt::Key_4,
                                  tr("Shots that deserve a second look, worst first")},
                             Step{Screen::Findings, "screen.findings", tr("Findings"), Qt::Key_5,
                                  tr("Spin rates per implement")},
                             Step{Screen::Publish, "screen.publish", tr("Publish"), Qt::Key_6,
                                  tr("What is open, then the page and files for others")}}) {
        auto* made = action(QLatin1String{step.name}, step.text, QKeySequence{Qt::CTRL | step.key},
                            step.tip);
        made->setCheckable(true);
        m_screenActions->addAction(made);
        onTrigger(made, [this, screen = step.screen] { showScreen(screen); });
    }
    m_undo = action(QStringLiteral("undo"), tr("Undo"), QKeySequence::Undo, tr("Undo"));
    m_redo = action(QStringLiteral("redo"), tr("Redo"),
                    QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Z}, tr("Redo"));
    onTrigger(m_undo, [this] { undoStep(false); });
    onTrigger(m_redo, [this] { undoStep(true); });
}

void MainWindow::makeScreens() {
    auto& store = *m_workspace.store;
    m_plan = new plan::PlanScreen{store};
    m_footage = new footage::FootageScreen{store, *m_workspace.pictures, *m_jobs};
    m_reading = new reading::ReadingScreen{store, *m_workspace.pictures, m_jobs};
    m_findingsKeeper = new bridge::FindingsKeeper{store, *m_jobs, this};
    m_doubts = new doubts::DoubtsScreen{store, *m_jobs, *m_findingsKeeper};
    m_findings = new findings::FindingsScreen{store, *m_findingsKeeper};
    m_publish = new publish::PublishScreen{store, *m_jobs};
    for (QWidget* screen : std::initializer_list<QWidget*>{m_plan, m_footage, m_reading, m_doubts,
                                                           m_findings, m_publish}) {
        m_pages->addWidget(screen);
    }
    connect(m_footage, &footage::FootageScreen::shotActivated, this, &MainWindow::openShot);
    connect(m_footage, &footage::FootageScreen::testClipWanted, this, [this] { showTestClip({}); });
    connect(m_findings, &findings::FindingsScreen::shotActivated, this, &MainWindow::openShot);
    connect(m_plan, &plan::PlanScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_plan, text); });
    connect(m_footage, &footage::FootageScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_footage, text); });
    connect(m_reading, &reading::ReadingScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_reading, text); });
    connect(m_reading, &reading::ReadingScreen::clockWanted, this,
            [this](core::project::ClipId clip) {
                showScreen(Screen::Footage);
                m_footage->chooseClip(clip);
            });
    connect(m_reading, &reading::ReadingScreen::findingsWanted, this,
            [this] { showScreen(Screen::Findings); });
    connect(m_reading, &reading::ReadingScreen::setUpWanted, this,
            [this](core::project::ClipId clip) {
                showScreen(Screen::Footage);
                m_footage->setUpDayOf(clip);
            });
    connect(m_reading, &reading::ReadingScreen::namesHiddenChanged, this,
            &MainWindow::refreshActions);
    connect(m_findings, &findings::FindingsScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_findings, text); });
    const auto lead = [this](style::EmptyPage::Way way) {
        showScreen(way == style::EmptyPage::Way::Reading ? Screen::Reading : Screen::Footage);
    };
    connect(m_reading, &reading::ReadingScreen::wayChosen, this, lead);
    connect(m_doubts, &doubts::DoubtsScreen::wayChosen, this, lead);
    connect(m_findings, &findings::FindingsScreen::wayChosen, this, lead);
    connectDoubts();
    connectPublish();
    connectRows();
    KeysWindow::applyStoredKeys(actions() + m_reading->readingActions() + m_doubts->doubtActions());
}

void MainWindow::connectDoubts() {
    connect(m_doubts, &doubts::DoubtsScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_doubts, text); });
    connect(m_doubts, &doubts::DoubtsScreen::shotActivated, this, &MainWindow::openShot);
    connect(m_doubts, &doubts::DoubtsScreen::changed, this, [this] {
        m_findings->showDoubts(m_doubts->doubts());
        m_publish->setDoubts(m_doubts->doubts());
        m_reading->setInDoubt(m_doubts->shotsInDoubt());
        m_steps->start();
    });
    connect(m_findingsKeeper, &bridge::FindingsKeeper::changed, m_steps,
            qOverload<>(&QTimer::start));
    connect(m_findings, &findings::FindingsScreen::visibilityChanged, this,
            &MainWindow::wantDoubtsElsewhere);
    connect(m_publish, &publish::PublishScreen::visibilityChanged, this,
            &MainWindow::wantDoubtsElsewhere);
    connect(m_doubts, &doubts::DoubtsScreen::replayWanted, this,
            [this](core::project::ShotId shot, const QString& why) {
                showScreen(Screen::Reading);
                m_reading->replayShot(shot, why);
            });
    connect(m_doubts, &doubts::DoubtsScreen::blindWanted, this, [this] {
        showScreen(Screen::Reading);
        m_reading->readBlind();
    });
    connect(m_reading, &reading::ReadingScreen::blindEnded, this,
            [this] { showScreen(Screen::Doubts); });
    connect(m_reading, &reading::ReadingScreen::picturesRead, m_doubts,
            &doubts::DoubtsScreen::onPicturesRead);
}

void MainWindow::showScreen(Screen screen) {
    if (!m_workspace.store) {
        return;
    }
    m_pages->setCurrentWidget(pageOf(screen));
    m_screenActions->actions().at(static_cast<int>(screen))->setChecked(true);
    if (screen == Screen::Reading) {
        m_reading->setFocus();
    }
    m_status->say(m_statusOf.value(m_pages->currentWidget()));
}

void MainWindow::setStatus(const QWidget* screen, const QString& text) {
    m_statusOf[screen] = text;
    m_status->say(m_statusOf.value(m_pages->currentWidget()));
}

void MainWindow::openShot(core::project::ShotId shot) {
    m_reading->openNamedShot(shot);
    showScreen(Screen::Reading);
}

QString MainWindow::stepText(bool redo) const {
    if (!m_workspace.store) {
        return {};
    }
    const auto text = redo ? m_workspace.store->redoText() : m_workspace.store->undoText();
    if (text && m_reading != nullptr && m_reading->areNamesHidden()) {
        return tr("the last step, whose names are hidden");
    }
    return QString::fromStdString(text.value_or(std::string{}));
}

void MainWindow::undoStep(bool redo) {
    if (!m_workspace.store) {
        return;
    }
    const QString what = stepText(redo);
    const auto done = redo ? m_workspace.store->redo() : m_workspace.store->undo();
    m_status->tell(done ? (redo ? tr("Done again: %1") : tr("Undone: %1")).arg(what)
                        : QString::fromStdString(done.error().message));
}

void MainWindow::refreshActions() {
    const bool isOpen = m_workspace.store != nullptr;
    m_band->setStepsShown(isOpen);
    m_steps->start();
    const auto reader = isOpen ? m_workspace.store->snapshot()->reader : std::string{};
    m_reader->setText(reader.empty() ? tr("reader not named")
                                     : tr("reader %1").arg(QString::fromStdString(reader)));
    m_screenActions->setEnabled(isOpen);
    m_close->setEnabled(isOpen);
    m_backupsAction->setEnabled(isOpen);
    for (QAction* pack : m_pack->actions()) {
        pack->setEnabled(isOpen);
    }
    const QString undo = stepText(false);
    const QString redo = stepText(true);
    const bool canWrite = isOpen && m_workspace.store->readOnlyReason().empty();
    m_undo->setEnabled(canWrite && !undo.isEmpty());
    m_redo->setEnabled(canWrite && !redo.isEmpty());
    m_reader->setEnabled(canWrite);
    auto tip = [](const QString& word, const QString& what, const QAction* of) {
        return QStringLiteral("%1 (%2)%3")
            .arg(word, of->shortcut().toString(QKeySequence::NativeText),
                 what.isEmpty() ? QString{} : QLatin1Char('\n') + what);
    };
    m_undo->setToolTip(tip(tr("Undo"), undo, m_undo));
    m_redo->setToolTip(tip(tr("Redo"), redo, m_redo));
}

void MainWindow::showGuide() {
    const QHash<const QWidget*, QString> fitting{
        {m_plan, QStringLiteral("one-day")},        {m_footage, QStringLiteral("clips-and-shots")},
        {m_reading, QStringLiteral("read-a-shot")}, {m_doubts, QStringLiteral("doubts")},
        {m_findings, QStringLiteral("results")},    {m_publish, QStringLiteral("publishing")}};
    if (m_guide.isNull()) {
        m_guide = new GuideWindow{this};
        m_guide->setAttribute(Qt::WA_DeleteOnClose);
    }
    m_guide->showPage(fitting.value(m_pages->currentWidget(), QStringLiteral("first-shot")));
    m_guide->show();
    m_guide->raise();
    m_guide->activateWindow();
}

void MainWindow::showKeys() {
    QList<QAction*> all = actions();
    if (m_reading != nullptr) {
        all += m_reading->readingActions() + m_doubts->doubtActions();
    }
    auto* window = new KeysWindow{all, this};
    window->show();
}

}  // namespace ui::shell
