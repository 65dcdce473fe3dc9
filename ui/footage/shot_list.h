#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/project/store.h"

class QAction;
class QPushButton;
class QTableView;

namespace ui::models {
class ShotTableModel;
}

namespace ui::footage {

class ClipTimeLine;

/// The shots of the chosen clip as a list, in step with the time line, and their corrections by
/// button and by the time line's keys and handles. Confined.
class ShotList : public QWidget {
    Q_OBJECT

public:
    ShotList(core::project::Store& store, ClipTimeLine& timeLine, QWidget* parent = nullptr);

    void showClip(std::optional<core::project::ClipId> clip);
    /// The project is another now.
    void refresh();
    [[nodiscard]] std::vector<core::project::ShotId> chosenShots() const;

Q_SIGNALS:
    void choiceChanged();
    void shotActivated(core::project::ShotId shot);
    void doubtsWanted(core::project::ShotId shot);
    void findWanted();
    /// What went wrong; empty when something went well.
    void troubled(const QString& text);

private:
    QPushButton* button(const char* name, const QString& text, const QString& tip,
                        void (ShotList::*act)());
    void connectTimeLine();
    void showMenu(const QPoint& at);
    void onShotsChosen();
    void addHere();
    void splitHere();
    void joinWithNext();
    void dropChosen();
    void changeRange(core::project::ShotId shot, qint64 first, qint64 last,
                     std::optional<qint64> strike);
    [[nodiscard]] std::optional<core::project::ShotId> oneChosenShot();
    /// Leaves the time line at its frame.
    void chooseShot(core::project::ShotId shot);
    void report(const core::Result<void>& result);

    core::project::Store& m_store;
    ClipTimeLine& m_timeLine;
    models::ShotTableModel* m_shots;
    QTableView* m_view;
    std::optional<core::project::ClipId> m_clip;
    QPushButton* m_find;
    QPushButton* m_add;
    QPushButton* m_split;
    QPushButton* m_join;
    QPushButton* m_drop;
    QAction* m_copy;
};

}  // namespace ui::footage
