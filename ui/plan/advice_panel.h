#pragma once

#include <QWidget>

#include "core/plan/advice.h"

class QLabel;

namespace ui::chart {
class ScatterChart;
}

namespace ui::plan {

class PlanDesk;

/// What the plan can show, as a curve and in sentences, and what to mind. Confined.
class AdvicePanel : public QWidget {
    Q_OBJECT

public:
    explicit AdvicePanel(PlanDesk& desk, QWidget* parent = nullptr);

    /// The plan, or what its advice rests on, is another.
    void refresh();
    [[nodiscard]] const core::plan::Advice& advice() const noexcept { return m_newest; }

private:
    void showCurve(const core::plan::AdviceFacts& facts);

    PlanDesk& m_desk;
    core::plan::Advice m_newest;
    QLabel* m_advice;
    QLabel* m_curveTitle;
    chart::ScatterChart* m_curve;
};

}  // namespace ui::plan
