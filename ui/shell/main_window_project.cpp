#include <QApplication>
#include <QBoxLayout>
#include <QCloseEvent>
#include <QDate>
#include <QDir>
#include <QDragEnterEvent>
#include <QLabel>
#include <QMimeData>
#include <QPushButton>
#include <QScreen>
#include <QSettings>
#include <QSplitter>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QTimer>

#include "core/base/words.h"
#include "core/demo/demo_project.h"
#include "core/doubts/refutations.h"
#include "core/project/backups.h"
#include "core/publish/last_published.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/footage/footage_screen.h"
#include "ui/footage/test_clip_window.h"
#include "ui/plan/plan_screen.h"
#include "ui/publish/publish_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/backup_keeper.h"
#include "ui/shell/main_window.h"
#include "ui/shell/project_button.h"
#include "ui/shell/project_files.h"
#include "ui/shell/recent_projects.h"
#include "ui/shell/start_page.h"
#include "ui/shell/status_line.h"
#include "ui/style/ask.h"
#include "ui/style/let_go.h"
#include "ui/style/remark_line.h"

/// The project that is open: made, opened, restored, closed, and who reads it.
namespace ui::shell {
namespace {

constexpr QLatin1String kReaderSetting{"reader"};
const QString kGeometrySetting = QStringLiteral("window/geometry");
const QString kSplitterSetting = QStringLiteral("window/splitter_");

/// The project that is dragged, alone; else empty.
QString draggedProject(const QMimeData& data) {
    const QList<QUrl> urls = data.urls();
    if (urls.size() != 1 || !urls.front().isLocalFile()) {
        return {};
    }
    const QString file = urls.front().toLocalFile();
    return file.endsWith(QLatin1String(".turnmark")) ? file : QString{};
}

}  // namespace

core::Result<std::unique_ptr<core::project::Store>> MainWindow::openStore(
    const std::filesystem::path& file) {
    using core::project::Store;
    auto opened = Store::open(file);
    if (opened || opened.error().code != core::ErrorCode::Busy) {
        return opened;
    }
    auto looked = Store::openReadOnly(file);
    return looked ? std::move(looked) : std::move(opened);
}

bool MainWindow::openProject(const std::filesystem::path& file) {
    closeProject();
    auto opened = openStore(file);
    if (!opened) {
        const auto why = QString::fromStdString(opened.error().message);
        if (opened.error().code == core::ErrorCode::Damaged) {
            showDamage(file, why);
        } else {
            m_start->showTrouble(why);
        }
        return false;
    }
    m_start->showTrouble({});
    m_workspace.store = std::move(opened).value();
    // What it cannot learn now Doubts looks for again, and says why it cannot.
    std::ignore = core::doubts::learnRefutations(*m_workspace.store);
    m_workspace.frames = core::media::FrameService::create({});
    m_workspace.pictures = std::make_unique<bridge::FrameRequester>(*m_workspace.frames);
    makeScreens();
    placeSplitters();
    m_listening = m_workspace.store->listen([this](const auto&) { refreshActions(); });
    m_listeningToDisk = m_workspace.store->listenToDisk(
        [this](const std::string& trouble) { sayDiskTrouble(trouble); });
    m_reader->setProject(QString::fromStdString(file.stem().string()));
    m_reader->setToolTip(tr("%1\nPress to say who reads now; the name goes with every reading")
                             .arg(QString::fromStdString(file.string())));
    setWindowTitle(QString::fromStdString(file.stem().string()));
    setWindowFilePath(QString::fromStdString(file.string()));
    const QString reason = QString::fromStdString(m_workspace.store->readOnlyReason());
    m_readOnly->setText(reason);
    m_readOnly->setVisible(!reason.isEmpty());
    if (reason.isEmpty()) {
        m_backups->watch(file);
    } else {
        m_refresh->start();
    }
    refreshActions();
    const auto snapshot = m_workspace.store->snapshot();
    if (snapshot->clips.isEmpty()) {
        showScreen(Screen::Plan);
    } else if (snapshot->shots.isEmpty()) {
        showScreen(Screen::Footage);
    } else {
        m_reading->openFirstShot();
        showScreen(Screen::Reading);
    }
    return true;
}

/// Above whatever screen is shown, until something can be kept again.
void MainWindow::sayDiskTrouble(const std::string& trouble) {
    style::letGo(std::exchange(m_diskTrouble, nullptr));
    if (trouble.empty()) {
        return;
    }
    m_diskTrouble =
        new style::RemarkLine{style::RemarkKind::Grave, tr("Nothing more can be kept now."),
                              QString::fromStdString(trouble)};
    m_diskTrouble->setObjectName(QStringLiteral("disk_trouble"));
    static_cast<QBoxLayout*>(centralWidget()->layout())->insertWidget(0, m_diskTrouble);
    m_diskTrouble->show();  // at once, not when the layout is asked
}

void MainWindow::showProject(const QString& file) {
    setWindowState(windowState() & ~Qt::WindowMinimized);
    raise();
    activateWindow();
    const std::filesystem::path path{file.toStdString()};
    std::error_code none;
    const bool isOpen =
        m_workspace.store && std::filesystem::equivalent(m_workspace.store->file(), path, none);
    if (!file.isEmpty() && !isOpen && QApplication::activeModalWidget() == nullptr) {
        openProject(path);
    }
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    const auto& dragged = *event->mimeData();
    const bool isTestClip =
        !m_workspace.store && !footage::TestClipWindow::draggedFilm(dragged).isEmpty();
    if (!draggedProject(dragged).isEmpty() || isTestClip) {
        event->acceptProposedAction();
    }
}

void MainWindow::dropEvent(QDropEvent* event) {
    event->acceptProposedAction();
    if (draggedProject(*event->mimeData()).isEmpty()) {
        showTestClip(footage::TestClipWindow::draggedFilm(*event->mimeData()));
        return;
    }
    // Opening lets the screen go over which it was dropped: not before the drop is done.
    QTimer::singleShot(0, this,
                       [this, file = draggedProject(*event->mimeData())] { showProject(file); });
}

void MainWindow::showTestClip(const QString& file) {
    if (m_testClip == nullptr) {
        core::intake::DaySetUp known;
        if (m_workspace.store && !m_workspace.store->snapshot()->sessions.isEmpty()) {
            const auto snapshot = m_workspace.store->snapshot();
            if (const auto kept =
                    core::intake::setUpOf(*snapshot, (snapshot->sessions.end() - 1)->id)) {
                known = core::intake::proposedSetUp(*snapshot, kept.value()).setUp;
            }
        }
        m_testClip = new footage::TestClipWindow{*m_jobs, known, this};
        m_testClip->setAttribute(Qt::WA_DeleteOnClose);
    }
    m_testClip->show();
    m_testClip->raise();
    m_testClip->activateWindow();
    if (!file.isEmpty()) {
        m_testClip->judge(file);
    }
}

void MainWindow::closeProject() {
    noteRecent();
    m_listening.reset();
    m_listeningToDisk.reset();
    sayDiskTrouble({});
    m_jobs->cancelAll();
    m_pages->setCurrentWidget(m_start);
    delete std::exchange(m_publish, nullptr);
    delete std::exchange(m_findings, nullptr);
    delete std::exchange(m_doubts, nullptr);
    delete std::exchange(m_findingsKeeper, nullptr);
    delete std::exchange(m_reading, nullptr);
    delete std::exchange(m_footage, nullptr);
    delete std::exchange(m_plan, nullptr);
    m_workspace.pictures.reset();
    m_workspace.frames.reset();
    m_workspace.store.reset();
    m_backups->stop();
    m_refresh->stop();
    m_readOnly->hide();
    setWindowTitle(QStringLiteral("Turnmark"));
    setWindowFilePath({});
    m_statusOf.clear();
    m_status->say({});
    refreshActions();
    m_start->refresh();
}

void MainWindow::closeEvent(QCloseEvent* event) {
    QSettings settings;
    settings.setValue(kGeometrySetting, saveGeometry());
    for (const auto* splitter : m_pages->findChildren<QSplitter*>()) {
        if (!splitter->objectName().isEmpty()) {
            settings.setValue(kSplitterSetting + splitter->objectName(), splitter->saveState());
        }
    }
    QMainWindow::closeEvent(event);
}

/// Where it was the last time, else as large as the screen allows.
void MainWindow::placeWindow() {
    if (restoreGeometry(QSettings{}.value(kGeometrySetting).toByteArray())) {
        return;
    }
    constexpr QSize kUsual{1366, 740};
    constexpr int kFramePx = 40;  // the window's title, which Qt does not know yet
    const QSize room = screen()->availableSize() - QSize{0, kFramePx};
    resize(kUsual.boundedTo(room));
}

void MainWindow::placeSplitters() {
    const QSettings settings;
    for (auto* splitter : m_pages->findChildren<QSplitter*>()) {
        const auto kept = settings.value(kSplitterSetting + splitter->objectName()).toByteArray();
        if (!splitter->objectName().isEmpty() && !kept.isEmpty()) {
            splitter->restoreState(kept);
        }
    }
}

/// What the start page will say of this project.
void MainWindow::noteRecent() {
    if (!m_workspace.store) {
        return;
    }
    const auto snapshot = m_workspace.store->snapshot();
    const auto doubts = doubtsState(m_doubts->doubts().get());
    const bool isPublished = core::publish::lastPublished(*snapshot).has_value();
    const bool isOpen = doubts.need != StepState::Need::Nothing;
    noteRecentProject(
        {QString::fromStdString(m_workspace.store->file().string()),
         QStringLiteral("%1 · %2").arg(QString::fromStdString(core::counted(
                                           snapshot->implements.size(), "implement", "implements")),
                                       readingState(*snapshot).words),
         QDate::currentDate().toString(Qt::ISODate), doubts.need,
         isOpen        ? doubts.words
         : isPublished ? tr("published")
                       : QString{},
         m_reading->someBall()});
}

void MainWindow::newProject() {
    style::askWhereToSave(*this, {tr("New project"), QDir::homePath(), projectFilter()},
                          [this](const QString& file) { makeProject(file); });
}

void MainWindow::makeProject(QString file) {
    if (!file.endsWith(QLatin1String(".turnmark"))) {
        file += QStringLiteral(".turnmark");
    }
    {
        const auto made = core::project::Store::create(std::filesystem::path{file.toStdString()});
        if (!made) {
            closeProject();
            m_start->showTrouble(QString::fromStdString(made.error().message));
            return;
        }
    }
    const QString reader = QSettings{}.value(kReaderSetting).toString();
    if (openProject(std::filesystem::path{file.toStdString()}) && !reader.isEmpty()) {
        setReader(reader);
    }
}

void MainWindow::chooseProject() {
    style::askForFile(
        *this, {tr("Open a project"), QDir::homePath(), projectFilter()},
        [this](const QString& file) { openProject(std::filesystem::path{file.toStdString()}); });
}

void MainWindow::openDemo() {
    const std::filesystem::path folder{
        QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation).toStdString()};
    const auto project = core::demo::demoProjectFile(folder / "demo");
    if (std::filesystem::exists(project)) {
        openProject(project);
        return;
    }
    closeProject();  // now, and not under somebody's hands when the demo is ready
    setDemoEnabled(false);
    m_jobs->start<std::filesystem::path>(
        tr("Opening the demo"),
        [folder](bridge::JobContext& context) {
            return core::demo::unpackDemo(folder / "demo", context.stopToken());
        },
        this,
        [this](const core::Result<std::filesystem::path>& made) {
            setDemoEnabled(true);
            if (m_workspace.store) {
                return;  // another project was opened meanwhile
            }
            const bool isCancelled = !made && made.error().code == core::ErrorCode::Cancelled;
            m_start->showTrouble(
                made || isCancelled ? QString{} : QString::fromStdString(made.error().message));
            if (made) {
                openProject(made.value());
            }
        });
}

void MainWindow::setDemoEnabled(bool enabled) {
    m_demo->setEnabled(enabled);
    m_start->setDemoEnabled(enabled);
}

void MainWindow::restore(const std::filesystem::path& project,
                         const std::filesystem::path& backup) {
    if (m_workspace.store && !m_workspace.store->readOnlyReason().empty()) {
        return;
    }
    closeProject();
    const auto aside = core::project::restoreBackup(project, backup);
    if (!openProject(project)) {
        return;  // the start page says why
    }
    m_status->tell(aside ? tr("Restored. The project as it was before is in %1.")
                               .arg(QString::fromStdString(aside.value().filename().string()))
                         : QString::fromStdString(aside.error().message),
                   StatusLine::kLongMilliseconds);
}

void MainWindow::showDamage(const std::filesystem::path& project, const QString& message) {
    auto* backups = new QPushButton{tr("Copies…")};
    backups->setObjectName(QStringLiteral("damaged_backups"));
    backups->setToolTip(tr("The copies of this project, and the way back to one of them"));
    connect(backups, &QPushButton::clicked, this,
            [this, project] { m_files->showBackups(project); });
    auto* rescue = new QPushButton{tr("Save what can be read…")};
    rescue->setObjectName(QStringLiteral("damaged_rescue"));
    rescue->setToolTip(tr("Into a new project; the damaged one stays as it is"));
    connect(rescue, &QPushButton::clicked, this, [this, project] { m_files->askRescue(project); });
    m_start->showTrouble(message, {backups, rescue});
}

void MainWindow::askReader() {
    style::askForText(
        *this,
        {tr("Who reads?"), tr("Name or initials; they go with every reading from now on."),
         QString::fromStdString(m_workspace.store->snapshot()->reader)},
        [this](const QString& name) { setReader(name); });
}

void MainWindow::setReader(const QString& name) {
    if (!m_workspace.store) {
        return;  // it was closed while the question stood
    }
    const auto done = m_workspace.store->setReader(name.toStdString());
    if (!done) {
        m_status->tell(QString::fromStdString(done.error().message));
        return;
    }
    QSettings{}.setValue(kReaderSetting, name);
}

}  // namespace ui::shell
