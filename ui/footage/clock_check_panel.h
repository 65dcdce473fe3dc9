#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/project/store.h"
#include "core/timebase/clock_check.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;

namespace ui::footage {

class ClipTimeLine;

/// Where a clock check is made: frames of the shown clip are marked with what a filmed stopwatch
/// shows in them, or with the turns that something of known speed has made. Confined.
class ClockCheckPanel : public QWidget {
    Q_OBJECT

public:
    /// Marks the frame that the time line shows.
    ClockCheckPanel(core::project::Store& store, ClipTimeLine& timeLine, QWidget* parent = nullptr);

    void showClip(std::optional<core::project::ClipId> clip);
    void setChosenClips(std::vector<core::project::ClipId> clips);

Q_SIGNALS:
    /// Kept shots that rest on a clock that was changed.
    void readAgainWanted(const std::vector<core::project::ShotId>& shots);

private:
    void layOut();
    void refresh();
    void changeKind();
    void markFrame();
    void removeMark();
    void showMarks();
    void use();
    void withdraw();
    [[nodiscard]] bool isTurning() const;
    [[nodiscard]] core::Result<core::timebase::ClockCheck> check() const;
    [[nodiscard]] std::vector<core::project::ClipId> countsFor() const;
    void say(const core::Result<core::timebase::ClockCheckResult>& outcome);

    core::project::Store& m_store;
    ClipTimeLine& m_timeLine;
    std::optional<core::project::ClipId> m_clip;
    std::vector<core::project::ClipId> m_chosen;
    std::vector<core::timebase::ReferenceReading> m_marks;  ///< by frame
    QComboBox* m_kind;
    QLabel* m_caution;
    QLabel* m_speedLabel;
    QLineEdit* m_speed;
    QLabel* m_toleranceLabel;
    QLineEdit* m_tolerance;
    QLabel* m_frameLabel;
    QLineEdit* m_shown;
    QPushButton* m_mark;
    QListWidget* m_list;
    QPushButton* m_remove;
    QComboBox* m_reach;
    QLabel* m_says;
    QPushButton* m_use;
    QPushButton* m_withdraw;
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
