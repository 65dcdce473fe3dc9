#pragma once

#include <QImage>
#include <QList>
#include <QString>

#include "ui/shell/step_state.h"

/// Projects that were open lately, for the start page; kept in the settings of the program.
namespace ui::shell {

struct RecentProject {
    QString file;
    QString words;  ///< "8 implements · 94 of 96 read"
    QString on;     ///< day it was open last, "2026-05-16"
    StepState::Need need{};
    QString needWords;  ///< "22 to check"
    QImage ball;        ///< null: none is known

    [[nodiscard]] QString name() const;
};

/// The newest first; those whose file is gone are left out.
[[nodiscard]] QList<RecentProject> recentProjects();
/// In the place of what was known of the file.
void noteRecentProject(const RecentProject& project);

}  // namespace ui::shell
