#include "ui/reading/shot/shot_facts.h"

#include "core/evidence/picture_codec.h"
#include "core/intake/shot_pictures.h"
#include "ui/bridge/cut_out.h"

namespace ui::reading {

using core::project::Shot;
using core::project::ShotId;

namespace {

constexpr int kBetweenMilliseconds = 15;  // a key that comes meanwhile goes first
constexpr int kThumbnailPx = 80;          // twice the height of the picture in a row

}  // namespace

ShotFacts::ShotFacts(const core::project::Store& store, QObject* parent)
    : QObject{parent}, m_store{store} {
    m_timer.setInterval(kBetweenMilliseconds);
    connect(&m_timer, &QTimer::timeout, this, &ShotFacts::lookUpOne);
}

const ShotFacts::Fact& ShotFacts::of(ShotId shot) {
    Entry& entry = m_entries[shot.value];
    if (entry.isOld && !entry.isWaiting) {
        entry.isWaiting = true;
        m_waiting.push_back(shot);
        if (!m_timer.isActive()) {
            m_timer.start();
        }
    }
    return entry.fact;
}

QImage ShotFacts::someBall() const {
    for (const Entry& entry : m_entries) {
        if (!entry.fact.ball.isNull()) {
            return entry.fact.ball;
        }
    }
    return {};
}

void ShotFacts::setBall(ShotId shot, const QImage& ball) {
    m_entries[shot.value].fact.ball =
        ball.scaled(kThumbnailPx, kThumbnailPx, Qt::KeepAspectRatio, Qt::SmoothTransformation);
    Q_EMIT changed(shot);
}

void ShotFacts::forget(ShotId shot) {
    if (const auto at = m_entries.find(shot.value); at != m_entries.end()) {
        at->isOld = true;
        Q_EMIT changed(shot);  // who shows it asks again
    }
}

QImage ShotFacts::storedBall(const Shot& shot) const {
    const auto stored = m_store.picturesOf(shot.id);
    if (!stored || !stored.value() || stored.value()->pictures.empty()) {
        return {};
    }
    const auto& pictures = stored.value()->pictures;
    const auto* wanted = &pictures[pictures.size() / 2];  // at the ends it may be half outside
    for (const auto& picture : pictures) {
        if (shot.marks.start && picture.frame == shot.marks.start->frame) {
            wanted = &picture;
        }
    }
    const auto pixels = core::evidence::decodePicture(stored.value()->codec, wanted->bytes);
    return pixels && wanted->ball ? bridge::imageOf(pixels.value())
                                        .scaled(kThumbnailPx, kThumbnailPx, Qt::KeepAspectRatio,
                                                Qt::SmoothTransformation)
                                  : QImage{};
}

void ShotFacts::lookUpOne() {
    if (m_waiting.empty()) {
        m_timer.stop();
        return;
    }
    const ShotId id = m_waiting.front();
    m_waiting.pop_front();
    Entry& entry = m_entries[id.value];
    entry.isWaiting = false;
    entry.isOld = false;
    const auto snapshot = m_store.snapshot();
    const Shot* shot = snapshot->shots.find(id);
    if (shot == nullptr) {
        m_entries.remove(id.value);
        return;
    }
    if (QImage ball = storedBall(*shot); !ball.isNull()) {
        entry.fact.ball = std::move(ball);
    }
    entry.fact.pictures.reset();
    if (shot->standing == core::project::ShotStanding::Open) {
        if (const auto request = core::reading::requestOf(*snapshot, id)) {
            const auto read = core::intake::keptReading(m_store, id, request.value());
            entry.fact.pictures = read ? read->rate : std::nullopt;
        }
    }
    Q_EMIT changed(id);
}

}  // namespace ui::reading
