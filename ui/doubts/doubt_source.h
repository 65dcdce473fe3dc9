#pragma once

#include <QObject>
#include <QTimer>
#include <memory>

#include "core/doubts/find_doubts.h"
#include "core/project/store.h"
#include "ui/bridge/findings_keeper.h"

namespace ui::doubts {

/// Keeps what is doubtful up to date while somebody wants to see it: gathers from the store in
/// small portions between two events, then computes on a thread from that and the findings.
/// Confined to the thread of the store.
class DoubtSource : public QObject {
    Q_OBJECT

public:
    /// All must outlive the source.
    DoubtSource(core::project::Store& store, bridge::JobRunner& jobs,
                bridge::FindingsKeeper& findings, QObject* parent = nullptr);
    ~DoubtSource() override;

    /// While it is off, nothing is computed before the project has been quiet for a while: keys of
    /// other screens have to be quick.
    void setWanted(bool wanted);
    /// The pictures of this shot have been read.
    void onPicturesRead(core::project::ShotId shot);
    /// The newest; null before the first are there.
    [[nodiscard]] core::doubts::DoubtsPtr doubts() const noexcept { return m_doubts; }

Q_SIGNALS:
    void changed();
    /// They cannot be computed, in words.
    void failed(const QString& message);

private:
    [[nodiscard]] bool isWanted() const { return m_isWanted || m_isQuiet; }
    void startWhereWanted();
    void noteChange();
    void onStoreChange(const core::project::Store::Change& change);
    void gatherSome();
    void compute();

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    bridge::FindingsKeeper& m_findings;
    core::doubts::MaterialGatherer m_gatherer;
    QTimer m_timer;
    QTimer m_quiet;  ///< runs out when nothing has changed for a while
    bool m_isWanted{false};
    bool m_isQuiet{false};
    bool m_isStale{true};
    bool m_isComputing{false};
    core::doubts::DoubtsPtr m_doubts;
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::doubts
