#pragma once

#include <QHash>
#include <QMainWindow>
#include <QPointer>
#include <filesystem>
#include <memory>

#include "core/pack/pack.h"
#include "ui/bridge/findings_keeper.h"
#include "ui/shell/appearance.h"
#include "ui/shell/workspace.h"

class QAction;
class QActionGroup;
class QLabel;
class QMenu;
class QStackedWidget;
class QTimer;

namespace ui::doubts {
class DoubtsScreen;
}
namespace ui::footage {
class FootageScreen;
class TestClipWindow;
}  // namespace ui::footage
namespace ui::findings {
class FindingsScreen;
}
namespace ui::plan {
class PlanScreen;
}
namespace ui::publish {
class PublishScreen;
}
namespace ui::reading {
class ReadingScreen;
}

namespace ui::shell {

class BackupKeeper;
class GuideWindow;
class ProjectButton;
class ProjectFiles;
class StatusLine;
class StepBand;
class StartPage;

/// The window: one project at a time, its screens in the order of the work, undo and redo over all
/// of them, and what runs in the background. Confined.
class MainWindow : public QMainWindow {
    Q_OBJECT

public:
    explicit MainWindow(QWidget* parent = nullptr);
    ~MainWindow() override;

    /// Opens a project file; what is wrong with it is said on the start page.
    bool openProject(const std::filesystem::path& file);
    /// Another start asks for the window, with a project where the path is not empty: it comes
    /// forward and opens the project unless it is open, or a dialog is.
    void showProject(const QString& file);
    /// Shows the start page.
    void closeProject();

    enum class Screen { Plan, Footage, Reading, Doubts, Findings, Publish };
    void showScreen(Screen screen);
    [[nodiscard]] core::project::Store* store() const noexcept { return m_workspace.store.get(); }

protected:
    /// A project that is dropped on the window is opened.
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void closeEvent(QCloseEvent* event) override;

private:
    void makeActions();
    void makeBand();
    void layOut();
    void makeMenus();
    void makeProjectMenu();
    void addPack(const QString& name, const QString& text, core::pack::Footage footage);
    void makeViewMenu();
    void makeHelpMenu();
    [[nodiscard]] QAction* action(const QString& name, const QString& text,
                                  const QKeySequence& keys, const QString& tip);
    /// What a key or menu does, unless a dialog is open: the screen that opened it must not go
    /// under it.
    void onTrigger(QAction* action, std::function<void()> act);
    void makeScreens();
    /// To write; where another program does, to look at only.
    [[nodiscard]] static core::Result<std::unique_ptr<core::project::Store>> openStore(
        const std::filesystem::path& file);
    void sayDiskTrouble(const std::string& trouble);
    void noteRecent();
    void placeWindow();
    void placeSplitters();
    void newProject();
    void makeProject(QString file);
    void chooseProject();
    void openDemo();
    void setDemoEnabled(bool enabled);
    /// What the next undo or redo would do, for people; empty when there is nothing.
    [[nodiscard]] QString stepText(bool redo) const;
    void undoStep(bool redo);
    void restore(const std::filesystem::path& project, const std::filesystem::path& backup);
    /// On the start page, with what can be done about it.
    void showDamage(const std::filesystem::path& project, const QString& message);
    void askReader();
    void setReader(const QString& name);
    void refreshActions();
    /// At the page that fits the screen.
    void showGuide();
    void showKeys();
    void showCautions();
    void showAbout();
    void setAppearance(Appearance appearance);
    void addSpinUnits(QMenu& view);
    void addLanguages(QMenu& view);
    void scaleText(double factor);
    void setStatus(const QWidget* screen, const QString& text);
    void openShot(core::project::ShotId shot);
    /// The window for test clips, with this one when it is named.
    void showTestClip(const QString& file);
    void connectDoubts();
    void connectPublish();
    void connectRows();
    [[nodiscard]] QWidget* pageOf(Screen screen) const;
    void refreshSteps();
    void wantDoubtsElsewhere();

    bridge::JobRunner* m_jobs;
    QStackedWidget* m_pages;
    StartPage* m_start;
    StepBand* m_band;
    ProjectButton* m_reader;
    StatusLine* m_status;
    QLabel* m_readOnly;        ///< why nothing can be changed
    QWidget* m_diskTrouble{};  ///< that nothing more can be kept, and what to do
    QLabel* m_backupTrouble;
    BackupKeeper* m_backups;
    ProjectFiles* m_files;
    QTimer* m_steps;    ///< the states of the steps are counted when it runs out
    QTimer* m_refresh;  ///< looks for what the other program has written
    QActionGroup* m_screenActions;
    QAction* m_undo{};
    QAction* m_redo{};
    QAction* m_demo{};
    QAction* m_close{};
    QAction* m_backupsAction{};
    QMenu* m_pack{};
    plan::PlanScreen* m_plan{};
    footage::FootageScreen* m_footage{};
    reading::ReadingScreen* m_reading{};
    doubts::DoubtsScreen* m_doubts{};
    findings::FindingsScreen* m_findings{};
    publish::PublishScreen* m_publish{};
    bridge::FindingsKeeper* m_findingsKeeper{};
    QHash<const QWidget*, QString> m_statusOf;  ///< what each screen has to say below
    QPointer<GuideWindow> m_guide;
    QPointer<footage::TestClipWindow> m_testClip;
    Workspace m_workspace;
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
    std::shared_ptr<void> m_listeningToDisk;
};

}  // namespace ui::shell
