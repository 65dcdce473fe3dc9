#include "ui/reading/grid/ball_pictures.h"

#include <algorithm>
#include <cmath>

namespace ui::reading {

using core::timebase::FrameIndex;

namespace {

constexpr int kMinSidePx = 96;
constexpr int kMaxSidePx = 288;        // a ball of 200 px, magnified by nothing
constexpr int kMaxSideOfManyPx = 176;  // keeps a long shot below 40 MB
constexpr std::size_t kMany = 120;

std::vector<bridge::CutOut> cutOutsOf(const ShotView& view) {
    const int maxSide = view.seconds.size() > kMany ? kMaxSideOfManyPx : kMaxSidePx;
    std::vector<bridge::CutOut> cutOuts;
    for (std::size_t k = 0; k < view.seconds.size(); ++k) {
        bridge::CutOut cutOut;
        cutOut.frame = {view.firstFrame().value + static_cast<std::int64_t>(k)};
        if (const auto ball = view.ballIn(cutOut.frame)) {
            cutOut.centrePx = ball->centrePx;
            cutOut.halfSidePx = BallPictures::kHalfSideRadii * ball->radiusPx;
        } else {
            cutOut.centrePx = {view.clip.width / 2.0, view.clip.height / 2.0};
            cutOut.halfSidePx = std::max(1.0, std::max(view.clip.width, view.clip.height) / 2.0);
        }
        cutOut.sidePx =
            std::clamp(static_cast<int>(std::lround(2.0 * cutOut.halfSidePx)), kMinSidePx, maxSide);
        cutOuts.push_back(cutOut);
    }
    return cutOuts;
}

bool isSame(const bridge::CutOut& a, const bridge::CutOut& b) {
    return a.frame == b.frame && a.centrePx == b.centrePx && a.halfSidePx == b.halfSidePx &&
           a.sidePx == b.sidePx;
}

}  // namespace

BallPictures::BallPictures(bridge::FrameRequester& requester, QObject* parent)
    : QObject{parent}, m_requester{requester} {
    connect(&requester, &bridge::FrameRequester::cutOutReady, this,
            [this](quint64 number, qint64 frame, const QImage& picture) {
                take(number, frame, picture, {});
            });
    connect(&requester, &bridge::FrameRequester::cutOutFailed, this,
            [this](quint64 number, qint64 frame, const QString& reason) {
                take(number, frame, {}, reason);
            });
}

bool BallPictures::ask(const ShotView& view) {
    auto wanted = cutOutsOf(view);
    if (view.shot.id != m_shot) {
        clear();
        m_shot = view.shot.id;
    } else if (std::equal(wanted.begin(), wanted.end(), m_asked.begin(), m_asked.end(), isSame)) {
        return false;
    }
    m_asked = std::move(wanted);
    m_areCutOut = !view.path.isEmpty();
    m_awaited = static_cast<qsizetype>(m_asked.size());
    return true;
}

void BallPictures::show(const ShotView& view, bridge::FrameRequester::Clip clip) {
    if (ask(view)) {
        m_number = m_requester.requestCutOuts(clip, m_asked);
    }
}

void BallPictures::showKept(const ShotView& view) {
    if (!ask(view)) {
        return;
    }
    m_number = 0;  // what is on its way from a film comes too late
    for (const bridge::CutOut& cutOut : std::vector{m_asked}) {
        const QImage picture = view.kept->cutOut(cutOut);
        take(0, cutOut.frame.value, picture,
             picture.isNull() ? tr("No picture of this frame is kept.") : QString{});
    }
}

void BallPictures::clear() {
    m_shot = {};
    m_asked.clear();
    m_pictures.clear();
    m_held.set(0);
    m_failures.clear();
    m_awaited = 0;
}

void BallPictures::take(quint64 number, qint64 frame, const QImage& picture,
                        const QString& failure) {
    if (number != m_number || m_asked.empty()) {
        return;
    }
    m_failures.remove(frame);
    if (failure.isEmpty()) {
        const auto before = static_cast<std::size_t>(m_pictures.value(frame).sizeInBytes());
        m_held.set(m_held.bytes() - before + static_cast<std::size_t>(picture.sizeInBytes()));
        m_pictures.insert(frame, picture);
    } else {
        m_failures.insert(frame, failure);
    }
    Q_EMIT changed(FrameIndex{frame});
    if (m_awaited > 0 && --m_awaited == 0) {
        Q_EMIT completed();
    }
}

QImage BallPictures::picture(FrameIndex frame) const {
    return m_pictures.value(frame.value);
}

QString BallPictures::failure(FrameIndex frame) const {
    return m_failures.value(frame.value);
}

}  // namespace ui::reading
