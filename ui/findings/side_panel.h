#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/project/store.h"

class QAction;
class QLabel;
class QPushButton;
class QTableView;

namespace ui::models {
class ShotTableModel;
}

namespace ui::findings {

/// What is said of the chosen row, and the shots behind it. Confined.
class SidePanel : public QWidget {
    Q_OBJECT

public:
    explicit SidePanel(core::project::Store& store, QWidget* parent = nullptr);

    void say(const QString& sentence);
    /// areOfOne: all of one implement, so that the hitter is enough to tell them apart.
    void showShots(const std::vector<core::project::ShotId>& shots, bool areOfOne);
    /// The project is another now.
    void update(const core::project::SnapshotPtr& snapshot);
    void focusShots();

Q_SIGNALS:
    void shotActivated(core::project::ShotId shot);
    void doubtsWanted(core::project::ShotId shot);

private:
    void openShot();
    void showMenu(const QPoint& at);
    [[nodiscard]] std::optional<core::project::ShotId> chosenShot() const;
    void refreshFlight();
    [[nodiscard]] bool hasNotes() const;

    models::ShotTableModel* m_shots;
    QTableView* m_table;
    QLabel* m_sentence;
    QLabel* m_count;
    QPushButton* m_flight;
    QAction* m_copy;
    QLabel* m_summary;  ///< how the balls of these shots flew
};

}  // namespace ui::findings
