#pragma once

#include <QAction>
#include <QElapsedTimer>
#include <QList>
#include <QWidget>
#include <memory>

#include "core/project/store.h"
#include "ui/bridge/frame_requester.h"
#include "ui/reading/card/effort_meter.h"
#include "ui/reading/grid/ball_pictures.h"
#include "ui/reading/pictures/evidence_keeper.h"
#include "ui/reading/reading_actions.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/shot/replay_loop.h"
#include "ui/reading/shot/shot_list_model.h"
#include "ui/style/empty_page.h"

class QLabel;
class QSplitter;
class QStackedWidget;

namespace ui::bridge {
class KeptAgain;
}

namespace ui::reading {

class BallView;
class BesideView;
class CompareView;
class FrameTimeLine;
class KeyList;
class ReadingCard;
class SceneView;
class ShotStrip;
class TurnGridPanel;

/// The screen on which shots are read: scene, ball view and turn grid of one shot in step, the
/// reading card beside them, the list of shots at the left. Every mark is in the project as soon as
/// it is made.
class ReadingScreen : public QWidget {
    Q_OBJECT

public:
    /// All must outlive the screen. jobs: for reading the pictures; null: they are not read.
    ReadingScreen(core::project::Store& store, bridge::FrameRequester& requester,
                  bridge::JobRunner* jobs, QWidget* parent = nullptr);
    ~ReadingScreen() override;

    void openShot(core::project::ShotId shot);
    /// The same from a screen that shows whose the shot is.
    void openNamedShot(core::project::ShotId shot);
    /// Lists the shots of an implement alone and opens the first one.
    void readShotsOf(core::project::ImplementId implement);
    /// The first of the list, if it has one.
    void openFirstShot();
    /// Opens a doubtful shot with start and return side by side, replaying; `why` stands above.
    void replayShot(core::project::ShotId shot, const QString& why);
    /// Opens the next second reading that waits, without names and numbers; blindEnded() when none
    /// does.
    void readBlind();
    /// Whether implement, hitter and clip are hidden and the shots come in an order that tells
    /// nothing of them; kept in the project.
    [[nodiscard]] bool areNamesHidden() const;
    /// Shots with a doubt that nobody has settled, for the filter of the list.
    void setInDoubt(std::set<core::project::ShotId> shots);
    /// A ball of this project, for a list of projects; null where none is known.
    [[nodiscard]] QImage someBall() const;
    /// For the list of keys and for changing them.
    [[nodiscard]] QList<QAction*> readingActions() const;

    [[nodiscard]] ReadingActions& actionSet() noexcept { return m_actions; }
    [[nodiscard]] ReadingDesk& desk() noexcept { return m_desk; }
    [[nodiscard]] BallPictures& pictures() noexcept { return m_pictures; }
    /// Null where there are no jobs.
    [[nodiscard]] EvidenceKeeper* evidenceKeeper() noexcept { return m_evidenceKeeper.get(); }
    [[nodiscard]] ShotStrip& strip() noexcept { return *m_strip; }
    [[nodiscard]] SceneView& scene() noexcept { return *m_scene; }
    [[nodiscard]] BallView& ballView() noexcept { return *m_ball; }
    [[nodiscard]] CompareView& compareView() noexcept { return *m_compare; }
    [[nodiscard]] BesideView& beside() noexcept { return *m_beside; }
    [[nodiscard]] TurnGridPanel& gridPanel() noexcept { return *m_gridPanel; }
    [[nodiscard]] FrameTimeLine& timeLine() noexcept { return *m_timeLine; }
    [[nodiscard]] ReadingCard& card() noexcept { return *m_card; }

Q_SIGNALS:
    /// "frame 131 · +37.5 ms · 240 frames/s, slow motion ×8 (file's tag)"
    void statusChanged(const QString& text);
    void shotOpened(core::project::ShotId shot);
    /// No second reading waits any more, or the reader leaves them.
    void blindEnded();
    void namesHiddenChanged();
    /// What is known of the filming day of this clip should be entered.
    void setUpWanted(core::project::ClipId clip);
    /// The clock of this clip has to be settled.
    void clockWanted(core::project::ClipId clip);
    /// Every shot is decided.
    void findingsWanted();
    /// Where the next step is done, while there is nothing to read.
    void wayChosen(ui::style::EmptyPage::Way way);
    /// What was read from the pictures of a shot is another.
    void picturesRead(core::project::ShotId shot);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void fitColumns();
    void build();
    [[nodiscard]] QWidget* buildMiddle();
    void showPage();
    void connectActions();
    void connectReadingAhead();
    void connectHidingNames();
    void connectBeside();
    void toggleBeside();
    void setNamesHidden(bool hidden);
    void connectMarkActions();
    void connectDesk();
    bridge::FrameRequester::Clip openClip(const ShotView& view);
    void lookForFilm(core::project::ShotId shot);
    void noteBall();
    void showClip();
    void showStatus();
    void refreshActions();
    void prepareNext();
    void moveToShot(int step);
    void moveToNext(ShotListModel::Filter kind);
    void keepAndNext();
    void showNotice(const QString& text);
    void showDoubt();
    void typeTurns(int digit);
    void stepRow(double factor);
    void setKeysShown(bool shown);
    [[nodiscard]] bool isCoarseKey(const QKeyEvent& key) const;

    core::project::Store& m_store;
    bridge::FrameRequester& m_requester;
    ReadingActions m_actions;
    std::unique_ptr<PictureReader> m_pictureReader;
    std::unique_ptr<EvidenceKeeper> m_evidenceKeeper;
    bridge::KeptAgain* m_again;  ///< null where there are no jobs
    ReadingDesk m_desk;
    EffortMeter m_effort;
    BallPictures m_pictures;
    ReplayLoop m_replay;
    QLabel* m_notice{};  ///< above everything: why the shot is here
    QString m_doubt;     ///< why the shot is replayed; empty when it is not
    ShotStrip* m_strip{};
    QStackedWidget* m_pages{};
    QStackedWidget* m_sceneStack{};
    SceneView* m_scene{};
    CompareView* m_compare{};
    BallView* m_ball{};
    TurnGridPanel* m_gridPanel{};
    BesideView* m_beside{};
    FrameTimeLine* m_timeLine{};
    ReadingCard* m_card{};
    KeyList* m_keyList{};
    QElapsedTimer m_sinceDigit;  ///< digits typed quickly form one number
    int m_typedTurns{0};
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::reading
