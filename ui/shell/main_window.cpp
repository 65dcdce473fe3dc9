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
#include <QToolBar>
#include <QToolButton>
#include <QVBoxLayout>

#include "core/base/version.h"
#include "core/jobs/memory_budget.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/footage/footage_screen.h"
#include "ui/plan/plan_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/backup_keeper.h"
#include "ui/shell/cautions.h"
#include "ui/shell/guide_window.h"
#include "ui/shell/jobs_button.h"
#include "ui/shell/keys_window.h"
#include "ui/shell/start_page.h"
#include "ui/style/tokens.h"
#include "ui/style/wheel_scrolls.h"

namespace ui::shell {
namespace {

constexpr int kRefreshMilliseconds = 3000;

/// Mebibytes for pictures and readings; what the machine suggests where it is absent.
constexpr QLatin1String kMemorySetting{"memory_mebibytes"};

void setMemoryLimit() {
    using core::jobs::MemoryBudget;
    const auto mebibytes = QSettings{}.value(kMemorySetting).toULongLong();
    MemoryBudget::ofProgram().setLimitBytes(mebibytes > 0 ? std::size_t{mebibytes} << 20U
                                                          : MemoryBudget::usualLimitBytes());
}

QWidget* spacer() {
    auto* widget = new QWidget;
    widget->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    return widget;
}

}  // namespace

MainWindow::MainWindow(QWidget* parent)
    : QMainWindow{parent},
      m_jobs{new bridge::JobRunner{0, this}},
      m_pages{new QStackedWidget},
      m_start{new StartPage},
      m_projectName{new QLabel},
      m_reader{new QToolButton},
      m_status{new QLabel},
      m_readOnly{new QLabel},
      m_backupTrouble{new QLabel},
      m_backups{new BackupKeeper{*m_jobs, this}},
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
    m_refresh->setInterval(kRefreshMilliseconds);
    connect(m_refresh, &QTimer::timeout, this, [this] {
        if (m_workspace.store) {
            std::ignore = m_workspace.store->refresh();  // else at the next time
        }
    });
    makeActions();
    makeBar();
    makeMenus();
    connect(m_start, &StartPage::demoWanted, this, &MainWindow::openDemo);
    connect(m_start, &StartPage::newWanted, this, &MainWindow::newProject);
    connect(m_start, &StartPage::openWanted, this, &MainWindow::chooseProject);
    refreshActions();
    resize(1366, 740);
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
    m_planAction = action(QStringLiteral("screen.plan"), QStringLiteral("Plan"),
                          QKeySequence{Qt::CTRL | Qt::Key_1},
                          QStringLiteral("The filming day: implements, hitters, order, cards"));
    m_footageAction =
        action(QStringLiteral("screen.footage"), QStringLiteral("Footage"),
               QKeySequence{Qt::CTRL | Qt::Key_2}, QStringLiteral("Clips, clocks and shots"));
    m_readingAction =
        action(QStringLiteral("screen.reading"), QStringLiteral("Reading"),
               QKeySequence{Qt::CTRL | Qt::Key_3}, QStringLiteral("One shot after the other"));
    m_doubtsAction = action(QStringLiteral("screen.doubts"), QStringLiteral("Doubts"),
                            QKeySequence{Qt::CTRL | Qt::Key_4},
                            QStringLiteral("Shots that deserve a second look, worst first"));
    m_findingsAction =
        action(QStringLiteral("screen.findings"), QStringLiteral("Findings"),
               QKeySequence{Qt::CTRL | Qt::Key_5}, QStringLiteral("Spin rates per implement"));
    for (QAction* screen :
         {m_planAction, m_footageAction, m_readingAction, m_doubtsAction, m_findingsAction}) {
        screen->setCheckable(true);
        m_screenActions->addAction(screen);
    }
    onTrigger(m_planAction, [this] { showScreen(Screen::Plan); });
    onTrigger(m_footageAction, [this] { showScreen(Screen::Footage); });
    onTrigger(m_readingAction, [this] { showScreen(Screen::Reading); });
    onTrigger(m_doubtsAction, [this] { showScreen(Screen::Doubts); });
    onTrigger(m_findingsAction, [this] { showScreen(Screen::Findings); });
    m_undo = action(QStringLiteral("undo"), QStringLiteral("Undo"), QKeySequence::Undo,
                    QStringLiteral("Undo"));
    m_redo = action(QStringLiteral("redo"), QStringLiteral("Redo"),
                    QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Z}, QStringLiteral("Redo"));
    onTrigger(m_undo, [this] { undoStep(false); });
    onTrigger(m_redo, [this] { undoStep(true); });
}

void MainWindow::makeBar() {
    auto* bar = new QToolBar{QStringLiteral("Screens")};
    bar->setMovable(false);
    bar->setToolButtonStyle(Qt::ToolButtonTextOnly);
    for (QAction* screen : m_screenActions->actions()) {
        bar->addAction(screen);
    }
    bar->addWidget(spacer());
    bar->addWidget(new JobsButton{*m_jobs});
    bar->addWidget(m_projectName);
    m_readerPlace = bar->addWidget(m_reader);
    bar->addSeparator();
    bar->addAction(m_undo);
    bar->addAction(m_redo);
    m_reader->setObjectName(QStringLiteral("reader"));
    m_reader->setAutoRaise(true);
    m_reader->setToolTip(QStringLiteral("Who reads now; the name goes with every reading"));
    connect(m_reader, &QToolButton::clicked, this, &MainWindow::askReader);
    m_projectName->setContentsMargins(8, 0, 8, 0);
    addToolBar(bar);
    setContextMenuPolicy(Qt::NoContextMenu);
}

void MainWindow::makeMenus() {
    auto* project = menuBar()->addMenu(QStringLiteral("&Project"));
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

    auto* view = menuBar()->addMenu(QStringLiteral("&View"));
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

    auto* help = menuBar()->addMenu(QStringLiteral("&Help"));
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
    m_findings = new findings::FindingsScreen{store, *m_jobs, *m_findingsKeeper};
    for (QWidget* screen :
         std::initializer_list<QWidget*>{m_plan, m_footage, m_reading, m_doubts, m_findings}) {
        m_pages->addWidget(screen);
    }
    connect(m_footage, &footage::FootageScreen::shotActivated, this, &MainWindow::openShot);
    connect(m_findings, &findings::FindingsScreen::shotActivated, this, &MainWindow::openShot);
    connect(m_plan, &plan::PlanScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_plan, text); });
    connect(m_footage, &footage::FootageScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_footage, text); });
    connect(m_reading, &reading::ReadingScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_reading, text); });
    connect(m_reading, &reading::ReadingScreen::namesHiddenChanged, this,
            &MainWindow::refreshActions);
    connect(m_findings, &findings::FindingsScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_findings, text); });
    connectDoubts();
    KeysWindow::applyStoredKeys(actions() + m_reading->readingActions() + m_doubts->doubtActions());
}

void MainWindow::connectDoubts() {
    connect(m_doubts, &doubts::DoubtsScreen::statusChanged, this,
            [this](const QString& text) { setStatus(m_doubts, text); });
    connect(m_doubts, &doubts::DoubtsScreen::shotActivated, this, &MainWindow::openShot);
    connect(m_doubts, &doubts::DoubtsScreen::changed, this,
            [this] { m_findings->showDoubts(m_doubts->doubts()); });
    connect(m_findings, &findings::FindingsScreen::visibilityChanged, m_doubts,
            &doubts::DoubtsScreen::setWantedElsewhere);
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
    switch (screen) {
        case Screen::Plan:
            m_pages->setCurrentWidget(m_plan);
            m_planAction->setChecked(true);
            break;
        case Screen::Footage:
            m_pages->setCurrentWidget(m_footage);
            m_footageAction->setChecked(true);
            break;
        case Screen::Reading:
            m_pages->setCurrentWidget(m_reading);
            m_readingAction->setChecked(true);
            m_reading->setFocus();
            break;
        case Screen::Doubts:
            m_pages->setCurrentWidget(m_doubts);
            m_doubtsAction->setChecked(true);
            break;
        case Screen::Findings:
            m_pages->setCurrentWidget(m_findings);
            m_findingsAction->setChecked(true);
            break;
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
    m_readerPlace->setVisible(isOpen);
    const auto reader = isOpen ? m_workspace.store->snapshot()->reader : std::string{};
    m_reader->setText(reader.empty()
                          ? QStringLiteral("Reader not named")
                          : QStringLiteral("Reader: %1").arg(QString::fromStdString(reader)));
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
    const QHash<const QWidget*, QString> fitting{{m_plan, QStringLiteral("one-day")},
                                                 {m_footage, QStringLiteral("clips-and-shots")},
                                                 {m_reading, QStringLiteral("read-a-shot")},
                                                 {m_doubts, QStringLiteral("doubts")},
                                                 {m_findings, QStringLiteral("results")}};
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

void MainWindow::scaleText(double factor) {
    QSettings settings;
    const double scale =
        std::clamp(settings.value(QStringLiteral("text_scale"), 1.0).toDouble() * factor, 0.7, 2.5);
    settings.setValue(QStringLiteral("text_scale"), scale);
    applyAppearance(appearanceFrom(settings.value(QStringLiteral("appearance")).toString()), scale);
}

}  // namespace ui::shell
