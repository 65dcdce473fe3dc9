#include "ui/shell/main_window.h"

#include <QActionGroup>
#include <QApplication>
#include <QLabel>
#include <QMenuBar>
#include <QMessageBox>
#include <QSettings>
#include <QStackedWidget>
#include <QStatusBar>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>

#include "core/base/version.h"
#include "core/jobs/memory_budget.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/footage/footage_screen.h"
#include "ui/models/spin_unit.h"
#include "ui/plan/plan_screen.h"
#include "ui/publish/publish_screen.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/backup_keeper.h"
#include "ui/shell/cautions.h"
#include "ui/shell/guide_window.h"
#include "ui/shell/keys_window.h"
#include "ui/shell/project_button.h"
#include "ui/shell/start_page.h"
#include "ui/shell/step_band.h"
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
      m_status{new QLabel},
      m_readOnly{new QLabel},
      m_backupTrouble{new QLabel},
      m_backups{new BackupKeeper{*m_jobs, this}},
      m_steps{new QTimer{this}},
      m_refresh{new QTimer{this}},
      m_screenActions{new QActionGroup{this}} {
    setAcceptDrops(true);
    setMemoryLimit();
    setWindowTitle(QStringLiteral("Turnmark"));
    QCoreApplication::instance()->installEventFilter(new style::WheelScrolls{this});
    m_pages->addWidget(m_start);
    auto* middle = new QWidget;
    auto* column = new QVBoxLayout{middle};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_readOnly);
    column->addWidget(m_backupTrouble);
    column->addWidget(m_pages, 1);
    setCentralWidget(middle);
    m_status->setTextFormat(Qt::PlainText);
    m_status->setContentsMargins(style::kCardsPx, 0, style::kCardsPx, 0);
    statusBar()->addWidget(m_status, 1);
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
    connect(m_start, &StartPage::demoWanted, this, &MainWindow::openDemo);
    connect(m_start, &StartPage::testClipWanted, this, [this] { showTestClip({}); });
    connect(m_start, &StartPage::newWanted, this, &MainWindow::newProject);
    connect(m_start, &StartPage::openWanted, this, &MainWindow::chooseProject);
    connect(m_start, &StartPage::recentWanted, this,
            [this](const QString& file) { openProject(file.toStdString()); });
    refreshActions();
    placeWindow();
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
    for (const Step& step :
         {Step{Screen::Plan, "screen.plan", QStringLiteral("Plan"), Qt::Key_1,
               QStringLiteral("The filming day: implements, hitters, order, cards")},
          Step{Screen::Footage, "screen.footage", QStringLiteral("Footage"), Qt::Key_2,
               QStringLiteral("Clips, clocks and shots")},
          Step{Screen::Reading, "screen.reading", QStringLiteral("Reading"), Qt::Key_3,
               QStringLiteral("One shot after the other")},
          Step{Screen::Doubts, "screen.doubts", QStringLiteral("Doubts"), Qt::Key_4,
               QStringLiteral("Shots that deserve a second look, worst first")},
          Step{Screen::Findings, "screen.findings", QStringLiteral("Findings"), Qt::Key_5,
               QStringLiteral("Spin rates per implement")},
          Step{Screen::Publish, "screen.publish", QStringLiteral("Publish"), Qt::Key_6,
               QStringLiteral("What is open, then the page and files for others")}}) {
        auto* made = action(QLatin1String{step.name}, step.text, QKeySequence{Qt::CTRL | step.key},
                            step.tip);
        made->setCheckable(true);
        m_screenActions->addAction(made);
        onTrigger(made, [this, screen = step.screen] { showScreen(screen); });
    }
    m_undo = action(QStringLiteral("undo"), QStringLiteral("Undo"), QKeySequence::Undo,
                    QStringLiteral("Undo"));
    m_redo = action(QStringLiteral("redo"), QStringLiteral("Redo"),
                    QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Z}, QStringLiteral("Redo"));
    onTrigger(m_undo, [this] { undoStep(false); });
    onTrigger(m_redo, [this] { undoStep(true); });
}

void MainWindow::makeMenus() {
    auto* project = m_band->menus().addMenu(QStringLiteral("&Project"));
    auto* fresh = action(QStringLiteral("project.new"), QStringLiteral("&New…"), QKeySequence::New,
                         QStringLiteral("A new, empty project file"));
    auto* open = action(QStringLiteral("project.open"), QStringLiteral("&Open…"),
                        QKeySequence::Open, QStringLiteral("Open a project file"));
    m_demo = action(QStringLiteral("project.demo"), QStringLiteral("Open the &demo"), {},
                    QStringLiteral("Invented figures"));
    m_close = action(QStringLiteral("project.close"), QStringLiteral("&Close project"),
                     QKeySequence::Close,
                     QStringLiteral("Back to the start page; everything is in the file already"));
    auto* quit = action(QStringLiteral("program.quit"), QStringLiteral("&Quit"), QKeySequence::Quit,
                        QStringLiteral("Leave; everything is in the file already"));
    m_backupsAction =
        action(QStringLiteral("project.backups"), QStringLiteral("&Backups…"), {},
               QStringLiteral("The copies of this project, and the way back to one of them"));
    project->addActions({fresh, open, m_demo, m_backupsAction, m_close, quit});
    onTrigger(m_backupsAction, [this] { showBackups(); });
    onTrigger(fresh, [this] { newProject(); });
    onTrigger(open, [this] { chooseProject(); });
    onTrigger(m_demo, [this] { openDemo(); });
    onTrigger(m_close, [this] { closeProject(); });
    connect(quit, &QAction::triggered, this, &QWidget::close);

    auto* view = m_band->menus().addMenu(QStringLiteral("&View"));
    view->addActions(m_screenActions->actions());
    view->addSeparator();
    auto* larger =
        action(QStringLiteral("view.larger"), QStringLiteral("&Larger text"),
               QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Up}, QStringLiteral("Larger text"));
    auto* smaller =
        action(QStringLiteral("view.smaller"), QStringLiteral("&Smaller text"),
               QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Down}, QStringLiteral("Smaller text"));
    onTrigger(larger, [this] { scaleText(1.1); });
    onTrigger(smaller, [this] { scaleText(1.0 / 1.1); });
    view->addActions({larger, smaller});
    view->addSeparator();
    auto* looks = new QActionGroup{this};
    const Appearance stored =
        appearanceFrom(QSettings{}.value(QStringLiteral("appearance")).toString());
    for (const auto& [text, appearance] :
         {std::pair{QStringLiteral("As the &system"), Appearance::System},
          std::pair{QStringLiteral("L&ight"), Appearance::Light},
          std::pair{QStringLiteral("&Dark"), Appearance::Dark}}) {
        auto* look = view->addAction(
            text, this, [this, appearance = appearance] { setAppearance(appearance); });
        look->setCheckable(true);
        look->setChecked(appearance == stored);
        looks->addAction(look);
    }
    addSpinUnits(*view);

    auto* help = m_band->menus().addMenu(QStringLiteral("&Help"));
    auto* keys =
        action(QStringLiteral("help.keys"), QStringLiteral("All &keys…"),
               QKeySequence{Qt::CTRL | Qt::Key_K}, QStringLiteral("Every action with its key"));
    onTrigger(keys, [this] { showKeys(); });
    auto* guide = action(QStringLiteral("help.guide"), tr("&Guide"), QKeySequence{Qt::Key_F1},
                         tr("How it is done, at the page that fits the screen"));
    onTrigger(guide, [this] { showGuide(); });
    help->addActions({guide, keys});
    help->addAction(QStringLiteral("&Cautions"), this, &MainWindow::showCautions);
    help->addAction(QStringLiteral("&About"), this, &MainWindow::showAbout);
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
    connect(m_reading, &reading::ReadingScreen::setUpWanted, this,
            [this](core::project::ClipId clip) {
                showScreen(Screen::Footage);
                m_footage->setUpDayOf(clip);
            });
    connect(m_reading, &reading::ReadingScreen::namesHiddenChanged, this,
            &MainWindow::refreshActions);
    connect(m_findings, &findings::FindingsScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_findings, text); });
    connectDoubts();
    connectPublish();
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
    m_status->setText(m_statusOf.value(m_pages->currentWidget()));
}

void MainWindow::setStatus(const QWidget* screen, const QString& text) {
    m_statusOf[screen] = text;
    m_status->setText(m_statusOf.value(m_pages->currentWidget()));
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
        return QStringLiteral("the last step, whose names are hidden");
    }
    return QString::fromStdString(text.value_or(std::string{}));
}

void MainWindow::undoStep(bool redo) {
    if (!m_workspace.store) {
        return;
    }
    const QString what = stepText(redo);
    const auto done = redo ? m_workspace.store->redo() : m_workspace.store->undo();
    statusBar()->showMessage(
        done ? (redo ? QStringLiteral("Done again: %1") : QStringLiteral("Undone: %1")).arg(what)
             : QString::fromStdString(done.error().message),
        4000);
}

void MainWindow::refreshActions() {
    const bool isOpen = m_workspace.store != nullptr;
    m_band->setStepsShown(isOpen);
    m_steps->start();
    const auto reader = isOpen ? m_workspace.store->snapshot()->reader : std::string{};
    m_reader->setText(reader.empty()
                          ? QStringLiteral("reader not named")
                          : QStringLiteral("reader %1").arg(QString::fromStdString(reader)));
    m_screenActions->setEnabled(isOpen);
    m_close->setEnabled(isOpen);
    m_backupsAction->setEnabled(isOpen);
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
    m_undo->setToolTip(tip(QStringLiteral("Undo"), undo, m_undo));
    m_redo->setToolTip(tip(QStringLiteral("Redo"), redo, m_redo));
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

void MainWindow::showCautions() {
    QMessageBox box{QMessageBox::NoIcon, QStringLiteral("Cautions"),
                    cautionsText().replace(u'\n', QStringLiteral("\n\n")), QMessageBox::Close,
                    this};
    box.exec();
}

void MainWindow::showAbout() {
    QMessageBox::about(this, QStringLiteral("About Turnmark"),
                       QStringLiteral("Turnmark %1\n\nSpin rates of a struck ball, read from "
                                      "video, with their uncertainty.\n\n"
                                      "Free software under the GNU General Public License, version "
                                      "3 or later; it comes without any "
                                      "warranty.")
                           .arg(QString::fromUtf8(core::version())));
}

void MainWindow::setAppearance(Appearance appearance) {
    QSettings settings;
    settings.setValue(QStringLiteral("appearance"), nameOf(appearance));
    applyAppearance(appearance, settings.value(QStringLiteral("text_scale"), 1.0).toDouble());
}

/// A second unit beside rpm.
void MainWindow::addSpinUnits(QMenu& view) {
    using models::SpinUnit;
    view.addSeparator();
    auto* units = new QActionGroup{this};
    for (const auto& [text, unit] :
         {std::pair{tr("Spin in &rpm"), SpinUnit::RpmOnly},
          std::pair{tr("Spin in rpm and &turns per second"), SpinUnit::TurnsPerSecond},
          std::pair{tr("Spin in rpm and r&ad/s"), SpinUnit::RadiansPerSecond}}) {
        auto* choice = view.addAction(text, this, [this, unit = unit] {
            models::setSpinUnit(unit);
            if (m_reading != nullptr) {
                m_reading->card().refresh();
            }
        });
        choice->setCheckable(true);
        choice->setChecked(unit == models::spinUnit());
        units->addAction(choice);
    }
}

void MainWindow::scaleText(double factor) {
    QSettings settings;
    const double scale =
        std::clamp(settings.value(QStringLiteral("text_scale"), 1.0).toDouble() * factor, 0.7, 2.5);
    settings.setValue(QStringLiteral("text_scale"), scale);
    applyAppearance(appearanceFrom(settings.value(QStringLiteral("appearance")).toString()), scale);
}

}  // namespace ui::shell
