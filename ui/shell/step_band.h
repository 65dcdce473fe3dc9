#pragma once

#include <QList>
#include <QWidget>

#include "ui/shell/step_button.h"

class QHBoxLayout;
class QMenuBar;

namespace ui::shell {

class JobsButton;
class ProjectButton;

/// The band over everything: menus, the six steps with their state, what runs in the background,
/// whose project it is, undo and redo. It stands in the place of menu bar and tool bar. Where it
/// is too narrow the words of states give way first, then the names of steps. Confined.
class StepBand : public QWidget {
    Q_OBJECT

public:
    explicit StepBand(QWidget* parent = nullptr);

    [[nodiscard]] QMenuBar& menus() noexcept { return *m_menus; }
    void addStep(QAction* step, style::Sign sign);
    /// At the right end, in this order.
    void addRight(JobsButton* jobs, ProjectButton* project, QAction* undo, QAction* redo);
    void setState(int step, const StepState& state);
    [[nodiscard]] const StepState& stateOf(int step) const { return m_steps.at(step)->state(); }
    /// Without a project there are no steps.
    void setStepsShown(bool areShown);

protected:
    void changeEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void fit();
    void colourChildren();

    QHBoxLayout* m_row;
    QMenuBar* m_menus;
    QList<StepButton*> m_steps;
    JobsButton* m_jobs{};
    ProjectButton* m_project{};
    int m_besides{};  ///< what else is in the row, in pixels
};

}  // namespace ui::shell
