#pragma once

#include <QObject>
#include <functional>

#include "core/project/store.h"

namespace ui::plan {

/// The plan of the project, and the one way in which this screen changes it. Confined.
class PlanDesk : public QObject {
    Q_OBJECT

public:
    explicit PlanDesk(core::project::Store& store, QObject* parent = nullptr);

    [[nodiscard]] core::project::Store& store() noexcept { return m_store; }
    [[nodiscard]] const core::plan::Plan& plan() const;
    [[nodiscard]] core::project::SnapshotPtr snapshot() const noexcept { return m_snapshot; }
    /// Changes the plan as one step of undo; false when it is refused, and trouble() says why.
    bool change(const std::function<void(core::plan::Plan&)>& edit);
    /// Says what went wrong; an empty text takes it back.
    void say(const QString& trouble) { Q_EMIT troubled(trouble); }

Q_SIGNALS:
    /// The plan, or what the advice rests on, is another.
    void changed();
    void troubled(const QString& text);

private:
    core::project::Store& m_store;
    core::project::SnapshotPtr m_snapshot;
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::plan
