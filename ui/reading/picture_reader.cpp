#include "ui/reading/picture_reader.h"

#include "core/intake/clip_record.h"
#include "core/intake/find_clip.h"
#include "core/pictures/decoded_frames.h"
#include "core/project/shot_reading.h"

namespace ui::reading {

using core::pictures::PictureReading;
using core::pictures::ShotRequest;
using core::project::ShotId;

namespace {

/// Everything a job needs, so that it touches neither store nor widget.
struct Task {
    ShotRequest request;
    std::filesystem::path file;
    core::media::ClipIndex index;
    core::timebase::ClipClock clock;
};

core::Result<Task> taskFor(core::project::Store& store, ShotId id, const ShotRequest& request) {
    const auto snapshot = store.snapshot();
    const auto* shot = snapshot->shots.find(id);
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    if (clip == nullptr) {
        return core::fail(core::ErrorCode::NotFound, "The shot is no longer in the project.");
    }
    BOOST_OUTCOME_TRY(file, core::intake::findClip(store, clip->id));
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip->id));
    BOOST_OUTCOME_TRY(clock, core::project::clipClock(request.clock, *frames));
    return Task{request, file, core::intake::indexOf(*clip, *frames), clock};
}

core::Result<PictureReading> run(const Task& task,
                                 std::shared_ptr<core::pictures::DecodedFrames>& frames,
                                 bridge::JobContext& context) {
    if (!frames) {
        BOOST_OUTCOME_TRY(decoder, core::media::FrameDecoder::open(task.file, task.index));
        frames = std::make_shared<core::pictures::DecodedFrames>(std::move(decoder));
    }
    return core::pictures::readShot(*frames, task.clock, task.request.range, task.request.clicks,
                                    task.request.facts, context.stopToken(),
                                    [&context](double share) { context.report(share, QString{}); });
}

}  // namespace

PictureReader::PictureReader(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {}

PictureReader::~PictureReader() {
    if (m_running) {
        m_jobs.cancel(m_running->job);
    }
}

std::shared_ptr<const PictureProposal> PictureReader::proposalOf(ShotId shot) const {
    return m_proposals.value(shot.value);
}

void PictureReader::want(ShotId shot) {
    const auto request = core::pictures::requestOf(*m_store.snapshot(), shot);
    if (!request) {
        return;  // the card says what is missing
    }
    if (m_running && m_running->shot == shot && m_running->request == request.value()) {
        return;
    }
    const auto known = proposalOf(shot);
    if (known && known->request == request.value()) {
        return;
    }
    if (m_running) {
        m_jobs.cancel(m_running->job);
        m_frames.reset();  // the job that was given up still uses them
        m_running.reset();
    }
    start(shot, request.value());
}

void PictureReader::start(ShotId shot, const ShotRequest& request) {
    auto task = taskFor(m_store, shot, request);
    if (!task) {
        m_proposals.insert(
            shot.value, std::make_shared<PictureProposal>(PictureProposal{request, task.error()}));
        Q_EMIT changed(shot);
        return;
    }
    if (!m_frames || m_framesOf != shot) {
        m_frames = std::make_shared<Frames>();
        m_framesOf = shot;
    }
    const auto job = m_jobs.start<PictureReading>(
        tr("Reading a shot from its pictures"),
        [task = std::move(task).value(), frames = m_frames](bridge::JobContext& context) {
            return run(task, *frames, context);
        },
        this,
        [this, shot, request](const core::Result<PictureReading>& outcome) {
            // A job that was given up comes home too; only the newest one counts.
            if (m_running && m_running->shot == shot && m_running->request == request) {
                comeHome(shot, outcome);
            }
        });
    m_running = Running{shot, request, job};
    Q_EMIT changed(shot);
}

void PictureReader::comeHome(ShotId shot, const core::Result<PictureReading>& outcome) {
    m_proposals.insert(shot.value, std::make_shared<PictureProposal>(
                                       PictureProposal{m_running->request, outcome}));
    m_running.reset();
    Q_EMIT changed(shot);
}

}  // namespace ui::reading
