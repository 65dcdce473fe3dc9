#pragma once

#include <QObject>
#include <QString>
#include <optional>
#include <vector>

#include "core/findings/findings.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

namespace ui::bridge {

/// What can be said of a project, computed once for every screen that shows it, when one of them
/// wants it. Confined to the thread of the store.
class FindingsKeeper : public QObject {
    Q_OBJECT

public:
    /// Both must outlive the keeper.
    FindingsKeeper(core::project::Store& store, JobRunner& jobs, QObject* parent = nullptr);

    /// Sees to it that the findings are those of the project as it is now: changed() follows unless
    /// they are.
    void want();
    /// Whether findings() and trouble() are those of the project as it is now.
    [[nodiscard]] bool isUpToDate() const;
    /// The newest; null before the first are there.
    [[nodiscard]] core::findings::FindingsPtr findings() const noexcept { return m_findings; }
    /// Why they could not be computed the last time, in words; empty when they could.
    [[nodiscard]] const QString& trouble() const noexcept { return m_trouble; }

Q_SIGNALS:
    /// Findings or trouble is another.
    void changed();

private:
    /// What they hang on: time spent on reading is bookkeeping and no new revision.
    struct State {
        std::int64_t revision{-1};
        std::size_t efforts{};
        std::vector<core::project::ClipId> leftOut{};  ///< what a flight says is noted so too
        bool operator==(const State&) const = default;
    };
    [[nodiscard]] static State stateOf(const core::project::Snapshot& snapshot);
    void comeHome(const State& state, const core::Result<core::findings::FindingsPtr>& found);

    core::project::Store& m_store;
    JobRunner& m_jobs;
    State m_known;
    bool m_isComputing{false};
    bool m_isWanted{false};  ///< again, when those under way are home
    core::findings::FindingsPtr m_findings;
    QString m_trouble;
};

}  // namespace ui::bridge
