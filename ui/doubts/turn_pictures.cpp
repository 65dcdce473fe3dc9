#include "ui/doubts/turn_pictures.h"

#include <algorithm>

#include "core/evidence/gather.h"
#include "core/evidence/picture_codec.h"
#include "ui/bridge/cut_out.h"
#include "ui/doubts/text.h"
#include "ui/reading/grid/ball_pictures.h"

namespace ui::doubts {
namespace {

using core::project::StoredPictures;
using core::timebase::FrameIndex;

constexpr int kRestMilliseconds = 60;
constexpr int kTurnPicturePx = 216;  // the largest that is shown, on a screen of scale two

/// The ball and a little around it, as everywhere where a turn is shown.
QImage turnPicture(const core::project::StoredPicture& stored, const QImage& image) {
    if (!stored.ball) {
        return image;
    }
    const bridge::CutOut around{
        stored.frame,
        {stored.ball->xPx, stored.ball->yPx},
        reading::BallPictures::kHalfSideRadii * stored.ball->radiusPx,
        kTurnPicturePx,
    };
    return bridge::cutOutPicture(
        image, QRectF{stored.leftPx, stored.topPx, stored.sidePx, stored.sidePx}, around);
}

}  // namespace

TurnPictures::TurnPictures(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs} {
    m_rest.setSingleShot(true);
    m_rest.setInterval(kRestMilliseconds);
    connect(&m_rest, &QTimer::timeout, this, &TurnPictures::lookUp);
}

TurnPictures::~TurnPictures() = default;

void TurnPictures::want(core::project::ShotId shot, std::vector<FrameIndex> frames) {
    if (shot == m_shot && frames == m_frames && (m_areAwaited || m_trouble.isEmpty())) {
        return;
    }
    if (m_job != 0) {
        m_jobs.cancel(m_job);
        m_job = 0;
    }
    ++m_wish;
    m_shot = shot;
    m_frames = std::move(frames);
    m_pictures.clear();
    m_trouble.clear();
    m_areAwaited = !m_frames.empty();
    if (m_areAwaited) {
        m_rest.start();
    } else {
        m_rest.stop();
    }
    Q_EMIT changed();
}

QImage TurnPictures::picture(FrameIndex frame) const {
    return m_pictures.value(frame.value);
}

bool TurnPictures::areAllThere() const {
    return std::all_of(m_frames.begin(), m_frames.end(),
                       [this](FrameIndex frame) { return m_pictures.contains(frame.value); });
}

void TurnPictures::take(const StoredPictures& pictures) {
    const auto snapshot = m_store.snapshot();
    const auto* shot = snapshot->shots.find(m_shot);
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    for (const auto& stored : pictures.pictures) {
        const bool isWanted =
            clip != nullptr && stored.turnedDegrees == clip->turnedDegrees &&
            std::find(m_frames.begin(), m_frames.end(), stored.frame) != m_frames.end();
        if (!isWanted) {
            continue;
        }
        const auto pixels = core::evidence::decodePicture(pictures.codec, stored.bytes);
        if (pixels && !pixels.value().view().isEmpty()) {
            m_pictures.insert(stored.frame.value,
                              turnPicture(stored, bridge::imageOf(pixels.value())));
        }
    }
}

void TurnPictures::lookUp() {
    const auto kept = m_store.picturesOf(m_shot);
    if (kept && kept.value()) {
        take(*kept.value());
    }
    if (areAllThere()) {
        settle({});
    } else {
        cutFromFilm();
    }
}

void TurnPictures::cutFromFilm() {
    auto task = core::evidence::gatherTask(m_store, m_shot);
    if (!task) {
        settle(text(task.error().message));
        return;
    }
    auto& wanted = task.value();
    const FrameIndex first = std::max(wanted.first, m_frames.front());
    const FrameIndex last = std::min(wanted.last, m_frames.back());
    if (first > last) {
        settle(tr("The turn lies outside of the frames of the shot."));
        return;
    }
    auto& seconds = wanted.captureSeconds;
    seconds.erase(seconds.begin(), seconds.begin() + (first.value - wanted.first.value));
    seconds.resize(static_cast<std::size_t>(last.value - first.value + 1));
    wanted.first = first;
    wanted.last = last;
    m_job = m_jobs.start<StoredPictures>(
        tr("Cutting out the pictures of a turn"),
        [task = std::move(wanted)](bridge::JobContext& context) {
            return core::evidence::gather(task, context.stopToken());
        },
        this,
        [this, wish = m_wish](const core::Result<StoredPictures>& made) {
            if (wish != m_wish) {
                return;
            }
            m_job = 0;
            if (made) {
                take(made.value());
            }
            settle(!made           ? text(made.error().message)
                   : areAllThere() ? QString{}
                                   : tr("The film has no more frames of this shot."));
        },
        bridge::JobRunner::Priority::Looked);
}

void TurnPictures::settle(const QString& trouble) {
    m_areAwaited = false;
    m_trouble = trouble;
    Q_EMIT changed();
}

}  // namespace ui::doubts
