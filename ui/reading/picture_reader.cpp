#include "ui/reading/picture_reader.h"

#include <algorithm>
#include <tuple>

#include "core/intake/shot_pictures.h"
#include "core/project/shuffled_order.h"
#include "core/reading/decoded_frames.h"
#include "core/reading/reading_archive.h"
#include "ui/reading/kept_switch.h"

namespace ui::reading {

using core::project::ShotId;
using core::reading::PictureReading;
using core::reading::ShotRequest;

namespace {

constexpr const char* kAheadKey = "reading_ahead";

}  // namespace

PictureReader::PictureReader(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {
    m_listening =
        store.listen([this](const core::project::Store::Change& change) { onStoreChange(change); });
    if (KeptSwitch{store, kAheadKey}.isOn() && store.readOnlyReason().empty()) {
        setReadingAhead(true);
    }
}

PictureReader::~PictureReader() {
    for (const auto& running : {m_running, m_ahead}) {
        if (running) {
            m_jobs.cancel(running->job);
        }
    }
}

std::shared_ptr<const PictureProposal> PictureReader::proposalOf(ShotId shot) const {
    return m_proposals.value(shot.value);
}

bool PictureReader::isReading(ShotId shot) const noexcept {
    return (m_running && m_running->shot == shot) || (m_ahead && m_ahead->shot == shot);
}

std::size_t PictureReader::shotsToGo() const noexcept {
    return m_isReadingAhead ? m_queue.size() + (m_ahead ? 1 : 0) : 0;
}

void PictureReader::want(ShotId shot) {
    const auto request = core::reading::requestOf(*m_store.snapshot(), shot);
    if (!request) {
        return;  // the card says what is missing
    }
    if ((m_running && m_running->is(shot, request.value())) ||
        (m_ahead && m_ahead->is(shot, request.value()))) {
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
    if (auto reading = core::intake::keptReading(m_store, shot, request.value())) {
        m_proposals.insert(shot.value, std::make_shared<PictureProposal>(
                                           PictureProposal{request.value(), std::move(*reading)}));
        Q_EMIT changed(shot);
        return;
    }
    start(shot, request.value());
}

core::Result<PictureReader::Running> PictureReader::startJob(const QString& title, ShotId shot,
                                                             JobFrames frames, Home home) {
    BOOST_OUTCOME_TRY(task, core::intake::shotPicturesOf(m_store, shot));
    Running running{++m_lastNumber, shot, task.request, {}};
    running.job = m_jobs.start<PictureReading>(
        title,
        [task = std::move(task), frames = std::move(frames)](bridge::JobContext& context) mutable {
            frames.before.reset();
            return core::intake::readShotPictures(
                task, *frames.own, context.stopToken(),
                [&context](double share) { context.report(share, QString{}); });
        },
        this,
        [this, number = running.number, home](const Outcome& outcome) {
            (this->*home)(number, outcome);
        });
    return running;
}

void PictureReader::start(ShotId shot, const ShotRequest& request) {
    std::shared_ptr<Frames> before;
    if (!m_frames || m_framesOf != shot) {
        before = std::exchange(m_frames, std::make_shared<Frames>());
        m_framesOf = shot;
    }
    auto running = startJob(tr("Reading a shot from its pictures"), shot,
                            {m_frames, std::move(before)}, &PictureReader::comeHome);
    if (running) {
        m_running = std::move(running).value();
    } else {
        m_proposals.insert(shot.value, std::make_shared<PictureProposal>(
                                           PictureProposal{request, running.error()}));
    }
    Q_EMIT changed(shot);
}

// A job that was given up comes home too, perhaps after a newer one of the same shot has begun.
void PictureReader::comeHome(quint64 number, const Outcome& outcome) {
    if (m_running && m_running->number == number) {
        const Running ended = *std::exchange(m_running, std::nullopt);
        record(ended.shot, ended.request, outcome);
        readNext();
    }
}

void PictureReader::record(ShotId shot, const ShotRequest& request, const Outcome& outcome) {
    m_proposals.insert(shot.value,
                       std::make_shared<PictureProposal>(PictureProposal{request, outcome}));
    if (outcome && m_store.snapshot()->shots.find(shot) != nullptr) {
        // When it cannot be kept it is read again some day, which is no loss worth a word.
        const std::string key = core::reading::keyOf(request);
        if (m_store.noteArchive(shot, {key, core::reading::toArchive(outcome.value())})) {
            m_keptKeys.insert(shot.value, key);
        }
    }
    Q_EMIT changed(shot);
}

void PictureReader::setReadingAhead(bool on) {
    if (on == m_isReadingAhead) {
        return;
    }
    m_isReadingAhead = on;
    KeptSwitch{m_store, kAheadKey}.keep(on);
    m_queue.clear();
    if (on) {
        queueShots();
        readNext();
    } else if (const auto givenUp = std::exchange(m_ahead, std::nullopt)) {
        m_jobs.cancel(givenUp->job);
        Q_EMIT changed(givenUp->shot);
    }
    Q_EMIT aheadChanged();
}

void PictureReader::setShuffled(bool shuffled) {
    if (shuffled != m_isShuffled) {
        m_isShuffled = shuffled;
        if (m_isReadingAhead) {
            queueShots();
        }
    }
}

void PictureReader::onStoreChange(const core::project::Store::Change& change) {
    if (!m_isReadingAhead) {
        return;
    }
    if (change.allShots || change.clips || change.structure) {
        queueShots();
    } else {
        for (const ShotId id : change.shots) {
            if (const auto* shot = change.snapshot->shots.find(id)) {
                queueUnlessAside(*shot);
            }
        }
    }
    readNext();
}

void PictureReader::queueUnlessAside(const core::project::Shot& shot) {
    const bool isQueued = std::find(m_queue.begin(), m_queue.end(), shot.id) != m_queue.end();
    if (shot.standing != core::project::ShotStanding::SetAside && !isQueued) {
        m_queue.push_back(shot.id);
    }
}

void PictureReader::queueShots() {
    m_queue.clear();
    const auto snapshot = m_store.snapshot();
    using core::project::ShotStanding;
    for (const auto standing : {ShotStanding::Open, ShotStanding::Kept}) {
        for (const auto* shot : m_isShuffled ? shotsShuffled(*snapshot) : shotsInOrder(*snapshot)) {
            if (shot->standing == standing) {
                m_queue.push_back(shot->id);
            }
        }
    }
}

bool PictureReader::isKept(ShotId shot, const ShotRequest& request) {
    if (!m_keptKeys.contains(shot.value)) {
        const auto archive = m_store.archiveOf(shot);
        m_keptKeys.insert(shot.value,
                          archive && archive.value() ? archive.value()->key : std::string{});
    }
    return m_keptKeys.value(shot.value) == core::reading::keyOf(request);
}

// What is kept already, or cannot be read, is passed over.
void PictureReader::readNext() {
    while (m_isReadingAhead && !m_running && !m_ahead && !m_queue.empty()) {
        const ShotId shot = m_queue.front();
        m_queue.pop_front();
        const auto request = core::reading::requestOf(*m_store.snapshot(), shot);
        if (!request || isKept(shot, request.value())) {
            continue;
        }
        auto ahead = startJob(tr("Reading ahead, %1 to go").arg(m_queue.size() + 1), shot,
                              {std::make_shared<Frames>(), {}}, &PictureReader::comeHomeAhead);
        if (ahead) {
            m_ahead = std::move(ahead).value();
            Q_EMIT changed(shot);
        }
    }
    Q_EMIT aheadChanged();
}

void PictureReader::comeHomeAhead(quint64 number, const Outcome& outcome) {
    if (!m_ahead || m_ahead->number != number) {
        return;
    }
    const Running ended = *std::exchange(m_ahead, std::nullopt);
    record(ended.shot, ended.request, outcome);
    if (!outcome && outcome.error().code == core::ErrorCode::Cancelled) {
        setReadingAhead(false);  // by the tester, in the list of jobs
    } else {
        readNext();
    }
}

}  // namespace ui::reading
