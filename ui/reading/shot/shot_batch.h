#pragma once

#include <QObject>
#include <optional>
#include <vector>

#include "core/project/store.h"

class QMenu;
class QWidget;

namespace ui::reading {

/// What can be done with several shots at once. Each is one step of undo. Confined.
class ShotBatch : public QObject {
    Q_OBJECT

public:
    using Shots = std::vector<core::project::ShotId>;

    /// window: over which questions are asked.
    ShotBatch(core::project::Store& store, QWidget* window);

    /// Fills a menu for these shots. While names are hidden nothing is offered that shows them.
    void fill(QMenu& menu, const Shots& shots, bool areNamesHidden);

    /// Says which would be kept, and which not and why; keeps them when the person agrees.
    void keepAgreed(const Shots& shots);
    void assign(const Shots& shots, const std::string& implement, const std::string& hitter);
    /// Absent: as on the filming day.
    void setStroke(const Shots& shots, std::optional<core::project::Stroke> stroke);
    /// Asks for one reason.
    void setAside(const Shots& shots);
    /// Takes their decisions back, so that they are read again.
    void readAgain(const Shots& shots);

Q_SIGNALS:
    /// Kept shots whose number rests on a stroke that was changed.
    void readAgainWanted(const std::vector<core::project::ShotId>& shots);

private:
    void addStrokes(QMenu& menu, const Shots& shots);
    void addCells(QMenu& menu, const Shots& shots);
    void say(const core::Result<void>& result);
    core::Result<void> together(
        const std::string& what, const Shots& shots,
        const std::function<core::Result<void>(core::project::ShotId)>& edit);

    core::project::Store& m_store;
    QWidget* m_window;
};

}  // namespace ui::reading
