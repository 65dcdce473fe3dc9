#pragma once

#include <QObject>
#include <set>

#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

namespace ui::footage {

/// Finds the shots of clips in the background and adds them to the project. Confined.
class ShotFinder : public QObject {
    Q_OBJECT

public:
    ShotFinder(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent = nullptr);

    /// Begins to look for the shots of a clip, unless that is being done.
    void find(core::project::ClipId clip);

Q_SIGNALS:
    /// One sentence on a clip that was searched: how many shots are new, or what went wrong.
    void finished(const QString& sentence, bool isTrouble);

private:
    void comeHome(core::project::ClipId clip, const QString& name,
                  const core::Result<std::vector<core::project::Shot>>& found);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    std::set<std::int64_t> m_running;
};

}  // namespace ui::footage
