#pragma once

#include <QStringList>
#include <QWidget>
#include <optional>
#include <vector>

#include "core/project/store.h"
#include "ui/bridge/frame_requester.h"
#include "ui/bridge/job_runner.h"

class QAction;
class QLabel;
class QStackedWidget;
class QTableView;

namespace ui::models {
class ClipTableModel;
}

namespace ui::footage {

class AssignPanel;
class ClipViewer;
class ClockCheckPanel;
class ClockPanel;
class IntakePanel;
class SessionPanel;
class ShotFinder;
class ShotList;

/// Clips of the project: taken in by dialog or by drag and drop, their clocks and faults, their
/// shots, and whose the shots are. Confined.
class FootageScreen : public QWidget {
    Q_OBJECT

public:
    FootageScreen(core::project::Store& store, bridge::FrameRequester& pictures,
                  bridge::JobRunner& jobs, QWidget* parent = nullptr);
    ~FootageScreen() override;

    /// Takes in files and folders in the background, as the intake panel says.
    void takeIn(const QStringList& sources);
    /// Chooses this clip in the list.
    void chooseClip(core::project::ClipId clip);
    /// Says what hangs on the chosen clips, and takes them out when the person agrees.
    void removeChosenClips();
    /// Takes this file for the chosen clip, whose own was not found; refused when its content is
    /// another.
    void pointChosenClipTo(const QString& file);

Q_SIGNALS:
    void shotActivated(core::project::ShotId shot);
    void statusChanged(const QString& text);

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    [[nodiscard]] QWidget* makeLists();
    [[nodiscard]] QWidget* makeDetails();
    void connectParts();
    void refresh();
    void chooseAgain();
    void onClipsChosen();
    void showClip(std::optional<core::project::ClipId> clip);
    void refreshAssignment();
    void lead();
    void findShots();
    void makeClipMenu();
    void showClipMenu(const QPoint& at);
    void lookForFiles();
    [[nodiscard]] std::vector<core::project::ClipId> chosenClips() const;
    void addTrouble(const QString& line);
    void say(const QString& trouble);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    models::ClipTableModel* m_clips;
    IntakePanel* m_intake;
    ClipViewer* m_viewer;
    ShotList* m_shots;
    ShotFinder* m_finder;
    QStackedWidget* m_pages{};
    QTableView* m_clipView{};
    QAction* m_remove{};
    ClockPanel* m_clock{};
    ClockCheckPanel* m_check{};
    AssignPanel* m_assign{};
    SessionPanel* m_session{};
    QLabel* m_trouble{};
    std::optional<core::project::ClipId> m_shown;
    std::vector<core::project::ClipId> m_chosen;  ///< chosen again when the list is built anew
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
