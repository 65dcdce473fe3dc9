#include <QApplication>
#include <QDir>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QInputDialog>
#include <QLabel>
#include <QMimeData>
#include <QSettings>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QStatusBar>
#include <QTimer>

#include "core/demo/demo_project.h"
#include "core/project/backups.h"
#include "ui/doubts/doubts_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/footage/footage_screen.h"
#include "ui/plan/plan_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/backup_keeper.h"
#include "ui/shell/backups_window.h"
#include "ui/shell/main_window.h"
#include "ui/shell/start_page.h"

/// The project that is open: made, opened, restored, closed, and who reads it.
namespace ui::shell {
namespace {

constexpr QLatin1String kReaderSetting{"reader"};

/// The project that is dragged, alone; else empty.
QString draggedProject(const QMimeData& data) {
    const QList<QUrl> urls = data.urls();
    if (urls.size() != 1 || !urls.front().isLocalFile()) {
        return {};
    }
    const QString file = urls.front().toLocalFile();
    return file.endsWith(QLatin1String(".turnmark")) ? file : QString{};
}

QString projectFilter() {
    return QStringLiteral("Turnmark project (*.turnmark)");
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
        m_start->showTrouble(QString::fromStdString(opened.error().message));
        return false;
    }
    m_start->showTrouble({});
    m_workspace.store = std::move(opened).value();
    m_workspace.frames = core::media::FrameService::create({});
    m_workspace.pictures = std::make_unique<bridge::FrameRequester>(*m_workspace.frames);
    makeScreens();
    m_listening = m_workspace.store->listen([this](const auto&) { refreshActions(); });
    m_projectName->setText(QString::fromStdString(file.stem().string()));
    m_projectName->setToolTip(QString::fromStdString(file.string()));
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
    if (!draggedProject(*event->mimeData()).isEmpty()) {
        event->acceptProposedAction();
    }
}

void MainWindow::dropEvent(QDropEvent* event) {
    event->acceptProposedAction();
    // Opening lets the screen go over which it was dropped: not before the drop is done.
    QTimer::singleShot(0, this,
                       [this, file = draggedProject(*event->mimeData())] { showProject(file); });
}

void MainWindow::closeProject() {
    m_listening.reset();
    m_jobs->cancelAll();
    m_pages->setCurrentWidget(m_start);
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
    m_projectName->clear();
    m_statusOf.clear();
    m_status->clear();
    refreshActions();
}

void MainWindow::newProject() {
    QString file = QFileDialog::getSaveFileName(this, QStringLiteral("New project"),
                                                QDir::homePath(), projectFilter());
    if (file.isEmpty()) {
        return;
    }
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
    const QString file = QFileDialog::getOpenFileName(this, QStringLiteral("Open a project"),
                                                      QDir::homePath(), projectFilter());
    if (!file.isEmpty()) {
        openProject(std::filesystem::path{file.toStdString()});
    }
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
    m_start->showTrouble(
        QStringLiteral("Making the demo: its clips are rendered now, which takes a minute…"));
    setDemoEnabled(false);
    m_jobs->start<std::filesystem::path>(
        QStringLiteral("Making the demo"),
        [folder](bridge::JobContext& context) {
            return core::demo::makeDemoProject(
                folder / "demo",
                [&context](double share, const std::string& step) {
                    context.report(share, QString::fromStdString(step));
                },
                context.stopToken());
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

void MainWindow::showBackups() {
    auto* window = new BackupsWindow{m_workspace.store->file(), *m_jobs, *m_backups, this};
    connect(window, &BackupsWindow::restoreWanted, this, &MainWindow::restore);
    window->show();
}

void MainWindow::restore(const std::filesystem::path& backup) {
    if (!m_workspace.store || !m_workspace.store->readOnlyReason().empty()) {
        return;
    }
    const auto project = m_workspace.store->file();
    closeProject();
    const auto aside = core::project::restoreBackup(project, backup);
    if (!openProject(project)) {
        return;  // the start page says why
    }
    statusBar()->showMessage(
        aside ? QStringLiteral("Restored. The project as it was before is in %1.")
                    .arg(QString::fromStdString(aside.value().filename().string()))
              : QString::fromStdString(aside.error().message),
        20000);
}

void MainWindow::askReader() {
    const QString name = QInputDialog::getText(
        this, QStringLiteral("Who reads?"),
        QStringLiteral("Name or initials; they go with every reading from now on."),
        QLineEdit::Normal, QString::fromStdString(m_workspace.store->snapshot()->reader));
    if (!name.trimmed().isEmpty()) {
        setReader(name.trimmed());
    }
}

void MainWindow::setReader(const QString& name) {
    const auto done = m_workspace.store->setReader(name.toStdString());
    if (!done) {
        statusBar()->showMessage(QString::fromStdString(done.error().message), 4000);
        return;
    }
    QSettings{}.setValue(kReaderSetting, name);
}

}  // namespace ui::shell
