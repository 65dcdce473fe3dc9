#pragma once

#include <QHash>
#include <QObject>
#include <memory>
#include <optional>

#include "core/pictures/project_reading.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

namespace core::pictures {
class DecodedFrames;
}

namespace ui::reading {

/// What the pictures of a shot say, and for which state of shot, clip and session. Immutable value.
struct PictureProposal {
    core::pictures::ShotRequest request;
    core::Result<core::pictures::PictureReading> outcome;
};

/// Reads shots from their pictures in the background, the one under review first, and keeps what
/// came out. A shot whose clicks, range or clock have changed is read again; its decoded frames
/// are kept for that. Confined to the thread of the store.
class PictureReader : public QObject {
    Q_OBJECT

public:
    /// Both must outlive the reader.
    PictureReader(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent = nullptr);
    ~PictureReader() override;

    /// Starts reading this shot unless what is known is up to date. A reading of another shot that
    /// has not ended is given up.
    void want(core::project::ShotId shot);
    /// The newest, which may be of an earlier state of the shot. Null when there is none.
    [[nodiscard]] std::shared_ptr<const PictureProposal> proposalOf(
        core::project::ShotId shot) const;
    [[nodiscard]] bool isReading(core::project::ShotId shot) const noexcept {
        return m_running && m_running->shot == shot;
    }

Q_SIGNALS:
    /// A reading has begun or ended.
    void changed(core::project::ShotId shot);

private:
    struct Running {
        core::project::ShotId shot;
        core::pictures::ShotRequest request;
        bridge::JobRunner::JobId job{};
    };
    using Frames = std::shared_ptr<core::pictures::DecodedFrames>;

    void start(core::project::ShotId shot, const core::pictures::ShotRequest& request);
    void comeHome(core::project::ShotId shot,
                  const core::Result<core::pictures::PictureReading>& outcome);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    std::optional<Running> m_running;
    QHash<qint64, std::shared_ptr<const PictureProposal>> m_proposals;
    std::shared_ptr<Frames> m_frames;  ///< of m_framesOf, filled by its job; one job at a time
    core::project::ShotId m_framesOf;
};

}  // namespace ui::reading
