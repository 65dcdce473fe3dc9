#pragma once

#include <QObject>
#include <functional>
#include <optional>
#include <vector>

#include "core/project/store.h"

class QAction;
class QMenu;
class QPoint;
class QTableView;

namespace ui::footage {

/// What can be done with the chosen clips of a list: read, move to another filming day, turn,
/// remove. Each is one step of undo. Confined.
class ClipMenu : public QObject {
    Q_OBJECT

public:
    using Clips = std::vector<core::project::ClipId>;

    /// chosen: the chosen clips of the list; isMissing: whether the file of a clip is not there.
    ClipMenu(core::project::Store& store, QTableView& list, std::function<Clips()> chosen,
             std::function<bool(core::project::ClipId)> isMissing);

    void removeChosen();
    void move(const Clips& clips, core::project::SessionId day);
    void turn(const Clips& clips, int degrees);

Q_SIGNALS:
    void shotActivated(core::project::ShotId shot);
    void findWanted();
    void whereWanted();
    void setUpWanted(core::project::SessionId day);
    /// Kept shots that rest on what was changed.
    void readAgainWanted(const std::vector<core::project::ShotId>& shots);
    /// What went wrong; empty when something went well.
    void troubled(const QString& text);

private:
    void show(const QPoint& at);
    void addDays(QMenu& menu, const Clips& clips);
    void addTurns(QMenu& menu, const Clips& clips);
    void moveToNewDay(const Clips& clips);
    /// Absent: to a new day.
    void askToMove(const Clips& clips, std::optional<core::project::SessionId> day,
                   std::function<void()> act);
    void askFirst(const QString& title, const QString& what, const Clips& clips,
                  const std::vector<core::project::ShotId>& resting, std::function<void()> act);

    core::project::Store& m_store;
    QTableView& m_list;
    std::function<Clips()> m_chosen;
    std::function<bool(core::project::ClipId)> m_isMissing;
    QAction* m_remove;
};

}  // namespace ui::footage
