#include "ui/reading/pictures/picture_reader.h"

#include <algorithm>
#include <deque>
#include <utility>

#include "core/intake/shot_pictures.h"
#include "core/project/shuffled_order.h"
#include "core/reading/decoded_frames.h"
#include "core/reading/reading_archive.h"
#include "ui/reading/pictures/kept_switch.h"

namespace ui::reading {

using core::project::ShotId;
using core::reading::PictureReading;
using core::reading::ShotRequest;

namespace {

constexpr const char* kAheadKey = "reading_ahead";
constexpr int kFramesKeptMs = 30'000;

}  // namespace

PictureReader::PictureReader(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {
    m_framesRest.setSingleShot(true);
    m_framesRest.setInterval(kFramesKeptMs);
    connect(&m_framesRest, &QTimer::timeout, this, &PictureReader::letFramesGo);
    m_listening =
        store.listen([this](const core::project::Store::Change& change) { onStoreChange(change); });
    if (KeptSwitch{store, kAheadKey}.isOn() && store.readOnlyReason().empty()) {
        setReadingAhead(true);
    }
}

PictureReader::~PictureReader() {
    if (m_running) {
        m_jobs.cancel(m_running->job);
    }
}

std::shared_ptr<const PictureProposal> PictureReader::proposalOf(ShotId shot) const {
    return m_proposals.value(shot.value);
}

bool PictureReader::isReading(ShotId shot) const {
    return (m_running && m_running->shot == shot) || (m_ahead && m_ahead->isAtWork(shot));
}

std::size_t PictureReader::shotsToGo() const noexcept {
    return m_ahead ? m_ahead->waiting() + (m_conveyor->isIdle() ? 0 : 1) : 0;
}

void PictureReader::want(ShotId shot) {
    const auto request = core::reading::requestOf(*m_store.snapshot(), shot);
    if (!request) {
        return;  // the card says what is missing
    }
    if ((m_running && m_running->is(shot, request.value())) ||
        (m_ahead && m_ahead->isAtWork(shot, request.value()))) {
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
    if (adoptKept(shot, request.value())) {
        letAheadGo();
        return;
    }
    start(shot, request.value());
}

bool PictureReader::adoptKept(ShotId shot, const ShotRequest& request) {
    auto reading = core::intake::keptReading(m_store, shot, request);
    if (reading) {
        m_proposals.insert(shot.value, std::make_shared<PictureProposal>(
                                           PictureProposal{request, std::move(*reading)}));
        Q_EMIT changed(shot);
    }
    return reading.has_value();
}

void PictureReader::lookUp(ShotId shot) {
    const auto request = core::reading::requestOf(*m_store.snapshot(), shot);
    const auto known = proposalOf(shot);
    if (request && !(known && known->request == request.value())) {
        adoptKept(shot, request.value());
    }
}

/// The job owns the frames that it works with, and those of another shot: freeing them takes long.
core::Result<PictureReader::Running> PictureReader::startJob(ShotId shot) {
    std::shared_ptr<Frames> before;
    if (!m_frames || m_framesOf != shot) {
        before = std::exchange(m_frames, std::make_shared<Frames>());
        m_framesOf = shot;
    }
    BOOST_OUTCOME_TRY(task, core::intake::shotPicturesOf(m_store, shot));
    Running running{++m_lastNumber, shot, task.request, {}};
    running.job = m_jobs.start<PictureReading>(
        tr("Reading a shot from its pictures"),
        [task = std::move(task), own = m_frames,
         before = std::move(before)](bridge::JobContext& context) mutable {
            before.reset();
            return core::intake::readShotPictures(
                task, *own, context.stopToken(),
                [&context](double share) { context.report(share, QString{}); });
        },
        this,
        [this, number = running.number](const Outcome& outcome) { comeHome(number, outcome); },
        core::jobs::Priority::Looked);
    return running;
}

void PictureReader::start(ShotId shot, const ShotRequest& request) {
    m_framesRest.stop();
    auto running = startJob(shot);
    if (running) {
        m_running = std::move(running).value();
    } else {
        m_proposals.insert(shot.value, std::make_shared<PictureProposal>(
                                           PictureProposal{request, running.error()}));
    }
    letAheadGo();
    Q_EMIT changed(shot);
}

// A job that was given up comes home too, perhaps after a newer one of the same shot has begun.
void PictureReader::comeHome(quint64 number, const Outcome& outcome) {
    if (m_running && m_running->number == number) {
        const Running ended = *std::exchange(m_running, std::nullopt);
        m_framesRest.start();
        record(ended.shot, ended.request, outcome);
        letAheadGo();
        Q_EMIT aheadChanged();
    }
}

void PictureReader::letFramesGo() {
    m_jobs.pool().add(tr("Letting go of pictures").toStdString(), core::jobs::Priority::Ahead,
                      [frames = std::exchange(m_frames, nullptr)](core::jobs::Context&) {});
}

void PictureReader::record(ShotId shot, const ShotRequest& request, const Outcome& outcome) {
    m_proposals.insert(shot.value,
                       std::make_shared<PictureProposal>(PictureProposal{request, outcome}));
    if (outcome && m_store.snapshot()->shots.find(shot) != nullptr) {
        // When it cannot be kept it is read again some day, which is no loss worth a word.
        const auto kept = core::intake::keepPictures(m_store, shot, request, outcome.value());
        if (kept && m_ahead) {
            m_ahead->noteKept(shot, request);
        }
    }
    Q_EMIT changed(shot);
}

void PictureReader::setReadingAhead(bool on) {
    if (on == isReadingAhead()) {
        return;
    }
    KeptSwitch{m_store, kAheadKey}.keep(on);
    if (on) {
        using core::intake::ReadingAhead;
        m_ahead = std::make_shared<ReadingAhead>(
            m_store,
            ReadingAhead::Listeners{.begun = [this](ShotId shot) { Q_EMIT changed(shot); },
                                    .ended = [this](const auto& outcome) { aheadEnded(outcome); }});
        m_conveyor = std::make_unique<core::jobs::Conveyor>(
            m_jobs.pool(), m_ahead,
            core::jobs::Conveyor::Options{.priority = core::jobs::Priority::Ahead,
                                          .home = m_jobs.home(),
                                          .moved = [this] { aheadMoved(); }});
        queueShots();
        letAheadGo();
    } else {
        const auto givenUp = std::exchange(m_ahead, nullptr);
        m_conveyor.reset();
        for (const ShotId shot : givenUp->shotsAtWork()) {
            Q_EMIT changed(shot);
        }
    }
    Q_EMIT aheadChanged();
}

/// Nothing is read ahead while somebody waits for a shot.
void PictureReader::letAheadGo() {
    if (m_conveyor) {
        m_running ? m_conveyor->pause() : m_conveyor->resume();
    }
}

void PictureReader::aheadEnded(const core::intake::ReadingAhead::Outcome& outcome) {
    if (outcome.reading || outcome.reading.error().code != core::ErrorCode::Cancelled) {
        m_proposals.insert(outcome.shot.value, std::make_shared<PictureProposal>(PictureProposal{
                                                   outcome.request, outcome.reading}));
    }
    Q_EMIT changed(outcome.shot);
}

void PictureReader::aheadMoved() {
    if (m_ahead->isCancelled()) {
        setReadingAhead(false);  // by the tester, in the list of jobs
    } else {
        Q_EMIT aheadChanged();
    }
}

void PictureReader::setShuffled(bool shuffled) {
    if (shuffled != m_isShuffled) {
        m_isShuffled = shuffled;
        queueShots();
    }
}

void PictureReader::onStoreChange(const core::project::Store::Change& change) {
    if (!m_ahead) {
        return;
    }
    if (change.allShots || change.clips || change.structure) {
        queueShots();
    } else {
        for (const ShotId id : change.shots) {
            const auto* shot = change.snapshot->shots.find(id);
            if (shot != nullptr && shot->standing != core::project::ShotStanding::SetAside) {
                m_ahead->queue(id);
            }
        }
    }
    letAheadGo();
    Q_EMIT aheadChanged();
}

void PictureReader::queueShots() {
    if (!m_ahead) {
        return;
    }
    std::deque<ShotId> queue;
    const auto snapshot = m_store.snapshot();
    using core::project::ShotStanding;
    for (const auto standing : {ShotStanding::Open, ShotStanding::Kept}) {
        for (const auto* shot : m_isShuffled ? shotsShuffled(*snapshot) : shotsInOrder(*snapshot)) {
            if (shot->standing == standing) {
                queue.push_back(shot->id);
            }
        }
    }
    m_ahead->setQueue(std::move(queue));
}

}  // namespace ui::reading
