#pragma once

#include <QHash>
#include <QObject>
#include <QTimer>
#include <memory>
#include <optional>

#include "core/intake/reading_ahead.h"
#include "core/project/store.h"
#include "core/reading/project_reading.h"
#include "ui/bridge/job_runner.h"

namespace core::reading {
class DecodedFrames;
}

namespace ui::reading {

/// What the pictures of a shot say, and for which state of shot, clip and session. Immutable value.
struct PictureProposal {
    core::reading::ShotRequest request;
    core::Result<core::reading::PictureReading> outcome;
};

/// Reads shots from their pictures in the background, the one under review first, and keeps what
/// came out in the project, so that nothing is read twice. A shot whose clicks, range or clock have
/// changed is read again; the decoded frames of the one under review are kept for that, as long as
/// somebody works on it. Confined to the thread of the store.
class PictureReader : public QObject {
    Q_OBJECT

public:
    /// Both must outlive the reader.
    PictureReader(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent = nullptr);
    ~PictureReader() override;

    /// Starts reading this shot unless what is known is up to date. A reading of another shot that
    /// has not ended is given up, unless it is one read ahead.
    void want(core::project::ShotId shot);
    /// Makes known what is kept in the project of this shot; nothing is read.
    void lookUp(core::project::ShotId shot);
    /// The newest, which may be of an earlier state of the shot. Null when there is none.
    [[nodiscard]] std::shared_ptr<const PictureProposal> proposalOf(
        core::project::ShotId shot) const;
    [[nodiscard]] bool isReading(core::project::ShotId shot) const;

    /// While it is on, the open shots are read one after the other when nothing else is, then the
    /// kept ones, so that their marks can be held against their pictures. Kept in the project: it
    /// goes on when the project is opened again.
    void setReadingAhead(bool on);
    [[nodiscard]] bool isReadingAhead() const noexcept { return m_ahead != nullptr; }
    /// In which order it reads ahead: that of the shots while names are hidden.
    void setShuffled(bool shuffled);
    /// Shots that it has not come to; zero when it is off.
    [[nodiscard]] std::size_t shotsToGo() const noexcept;

Q_SIGNALS:
    /// A reading has begun or ended.
    void changed(core::project::ShotId shot);
    /// Reading ahead was turned on or off, or has come to another shot.
    void aheadChanged();

private:
    struct Running {
        quint64 number{};  ///< tells it from an earlier one of the same shot in the same state
        core::project::ShotId shot;
        core::reading::ShotRequest request;
        bridge::JobRunner::JobId job{};

        [[nodiscard]] bool is(core::project::ShotId other,
                              const core::reading::ShotRequest& otherRequest) const {
            return shot == other && request == otherRequest;
        }
    };
    using Frames = std::shared_ptr<core::reading::DecodedFrames>;
    using Outcome = core::Result<core::reading::PictureReading>;

    /// False when nothing is kept.
    bool adoptKept(core::project::ShotId shot, const core::reading::ShotRequest& request);
    void start(core::project::ShotId shot, const core::reading::ShotRequest& request);
    /// Errors: of the clip, when it cannot be read.
    core::Result<Running> startJob(core::project::ShotId shot);
    void comeHome(quint64 number, const Outcome& outcome);
    void record(core::project::ShotId shot, const core::reading::ShotRequest& request,
                const Outcome& outcome);
    void aheadEnded(const core::intake::ReadingAhead::Outcome& outcome);
    void aheadMoved();
    void onStoreChange(const core::project::Store::Change& change);
    void queueShots();
    void letAheadGo();
    void letFramesGo();

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    std::optional<Running> m_running;
    quint64 m_lastNumber{0};
    bool m_isShuffled{false};
    std::shared_ptr<core::intake::ReadingAhead> m_ahead;  ///< null while it is off, as the next
    std::unique_ptr<core::jobs::Conveyor> m_conveyor;
    QHash<qint64, std::shared_ptr<const PictureProposal>> m_proposals;
    std::shared_ptr<Frames> m_frames;  ///< of m_framesOf, filled by its job; one job at a time
    core::project::ShotId m_framesOf;
    QTimer m_framesRest;  ///< runs out when nobody has worked on that shot for a while
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::reading
