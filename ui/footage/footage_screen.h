#pragma once

#include <QStringList>
#include <QWidget>
#include <array>
#include <optional>
#include <set>
#include <vector>

#include "core/project/store.h"
#include "ui/bridge/frame_requester.h"
#include "ui/bridge/job_runner.h"

class QScrollArea;
class QLabel;
class QStackedWidget;

namespace ui::bridge {
class KeptAgain;
}

namespace ui::style {
class FoldCard;
}

namespace ui::footage {

class AssignPanel;
class ClipList;
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
    /// Chooses this clip in the list, and brings its clock into view.
    void chooseClip(core::project::ClipId clip);
    /// Opens the set-up of a filming day beside the list of clips; absent: of the latest.
    void setUpDay(std::optional<core::project::SessionId> session);
    /// The same for the day of a clip.
    void setUpDayOf(core::project::ClipId clip);
    /// Takes this file for the chosen clip, whose own was not found; refused when its content is
    /// another.
    void pointChosenClipTo(const QString& file);

Q_SIGNALS:
    void shotActivated(core::project::ShotId shot);
    void doubtsWanted(core::project::ShotId shot);
    void statusChanged(const QString& text);
    void testClipWanted();

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    [[nodiscard]] QWidget* makeLists();
    [[nodiscard]] QWidget* makeDetails();
    [[nodiscard]] QWidget* makeSides();
    void connectParts();
    void refresh();
    void onClipsChosen();
    void showClip(std::optional<core::project::ClipId> clip);
    void refreshAssignment();
    void lead();
    void showAnswer();
    void findShots();
    void askForSetUp();
    void showDetails();
    void addTrouble(const QString& line);
    void say(const QString& trouble);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    bridge::KeptAgain* m_again;
    ClipList* m_clips;
    IntakePanel* m_intake;
    ClipViewer* m_viewer;
    ShotList* m_shots;
    ShotFinder* m_finder;
    QStackedWidget* m_sides{};  ///< the chosen clip, or the set-up of its day
    QScrollArea* m_setUp{};
    bool m_isRateAsked{false};
    bool m_areNamesAsked{false};
    style::FoldCard* m_clockCard{};
    std::array<style::FoldCard*, 2> m_assignCards{};
    ClockPanel* m_clock{};
    ClockCheckPanel* m_check{};
    AssignPanel* m_assign{};
    SessionPanel* m_session{};
    QLabel* m_answer{};  ///< what is unsettled, where there is room for it
    QLabel* m_trouble{};
    std::optional<core::project::ClipId> m_shown;
    std::size_t m_clipCount;  ///< clips that the set-up of their day was asked for, or not
    std::set<core::project::SessionId> m_notNow;  ///< days whose set-up was closed without a word
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
