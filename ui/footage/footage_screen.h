#pragma once

#include <QStringList>
#include <QWidget>
#include <optional>

#include "core/intake/add_clip.h"
#include "core/project/store.h"
#include "ui/bridge/frame_requester.h"
#include "ui/bridge/job_runner.h"

class QLabel;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace ui::models {
class ClipTableModel;
class ShotTableModel;
}  // namespace ui::models

namespace ui::footage {

class AssignPanel;
class ClipTimeLine;
class ClockPanel;
class FramePreview;
class SessionPanel;
class ShotFinder;

/// Clips of the project: added by dialog or by drag and drop, their clocks and faults, their shots,
/// which are looked for as soon as a clip is added, and whose the shots are. Confined.
class FootageScreen : public QWidget {
    Q_OBJECT

public:
    FootageScreen(core::project::Store& store, bridge::FrameRequester& pictures,
                  bridge::JobRunner& jobs, QWidget* parent = nullptr);
    ~FootageScreen() override;

    /// Reads the files in the background and adds them as they are ready.
    void addFiles(const QStringList& files);
    void chooseFiles();
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
    void refreshEmptiness();
    void onClipChosen();
    void onShotsChosen();
    void refreshBlocks();
    void requestFrame(qint64 frame);
    void openChosenClip();
    void findShots();
    void addShotHere();
    void splitHere();
    void joinWithNext();
    void removeChosenShots();
    void changeRange(core::project::ShotId shot, qint64 first, qint64 last,
                     std::optional<qint64> strike);
    [[nodiscard]] std::optional<core::project::ShotId> oneChosenShot();
    void chooseShot(core::project::ShotId shot);
    void comeHome(const QString& file, const core::Result<core::intake::PreparedClip>& prepared);
    [[nodiscard]] core::Result<core::project::SessionId> sessionForClips();
    [[nodiscard]] std::optional<core::project::ClipId> chosenClip() const;
    [[nodiscard]] std::vector<core::project::ShotId> chosenShots() const;
    void report(const core::Result<void>& result);
    void addTrouble(const QString& line);
    void say(const QString& trouble);

    core::project::Store& m_store;
    bridge::FrameRequester& m_pictures;
    bridge::JobRunner& m_jobs;
    models::ClipTableModel* m_clips;
    models::ShotTableModel* m_shots;
    QStackedWidget* m_pages{};
    QTableView* m_clipView{};
    QTableView* m_shotView{};
    FramePreview* m_preview{};
    ClipTimeLine* m_timeLine{};
    ClockPanel* m_clock{};
    AssignPanel* m_assign{};
    SessionPanel* m_session{};
    ShotFinder* m_finder;
    QPushButton* m_findShots{};
    QPushButton* m_addShot{};
    QPushButton* m_splitShot{};
    QPushButton* m_joinShot{};
    QPushButton* m_removeShot{};
    QPushButton* m_pointAt{};  ///< shown while the file of the chosen clip is not found
    QLabel* m_trouble{};
    std::optional<bridge::FrameRequester::Clip> m_open;
    std::optional<core::project::ClipId> m_lastClip;  ///< chosen again when the list is built anew
    quint64 m_pictureNumber{0};
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
