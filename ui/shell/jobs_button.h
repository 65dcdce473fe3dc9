#pragma once

#include <QToolButton>

#include "ui/bridge/job_runner.h"

namespace ui::shell {

/// What runs in the background: a line about the first job, the rest in a menu, each can be
/// cancelled there. Hidden while nothing runs. Confined.
class JobsButton : public QToolButton {
    Q_OBJECT

public:
    explicit JobsButton(bridge::JobRunner& jobs, QWidget* parent = nullptr);

private:
    void refresh();

    bridge::JobRunner& m_jobs;
    QMenu* m_menu;
};

}  // namespace ui::shell
