#pragma once

#include <QWidget>

class QLabel;

namespace ui::plan {

class PlanDesk;

/// What the plan can show and what to mind, in sentences that follow every change. Confined.
class AdvicePanel : public QWidget {
    Q_OBJECT

public:
    explicit AdvicePanel(PlanDesk& desk, QWidget* parent = nullptr);

private:
    void refresh();

    PlanDesk& m_desk;
    QLabel* m_advice;
};

}  // namespace ui::plan
