#include "ui/reading/shot/replay_loop.h"

#include <algorithm>
#include <cmath>

namespace ui::reading {

using core::timebase::FrameIndex;

namespace {

constexpr int kPauseAtEndMilliseconds = 300;  // so that the eye sees where the loop closes

}  // namespace

ReplayLoop::ReplayLoop(ReadingDesk& desk, QObject* parent) : QObject{parent}, m_desk{desk} {
    m_timer.setTimerType(Qt::PreciseTimer);
    connect(&m_timer, &QTimer::timeout, this, &ReplayLoop::step);
    connect(&desk, &ReadingDesk::shotOpened, this, [this] { setRunning(false); });
    connect(&desk, &ReadingDesk::shotClosed, this, [this] { setRunning(false); });
}

void ReplayLoop::setRunning(bool running) {
    running = running && m_desk.hasShot();
    if (running == isRunning()) {
        return;
    }
    if (running) {
        m_desk.goToFrame(firstFrame());
        m_timer.start(millisecondsOf(m_desk.frame()));
    } else {
        m_timer.stop();
    }
    Q_EMIT runningChanged(running);
}

void ReplayLoop::setSlowness(int slowness) {
    m_slowness = std::max(1, slowness);
}

FrameIndex ReplayLoop::firstFrame() const {
    return m_desk.view().referenceFrame();
}

FrameIndex ReplayLoop::lastFrame() const {
    const auto& returns = m_desk.view().shot.marks.returns;
    const FrameIndex last = returns.empty() ? m_desk.view().lastFrame() : returns.back().frameAfter;
    return std::max(last, firstFrame());
}

int ReplayLoop::millisecondsOf(FrameIndex frame) const {
    const ShotView& view = m_desk.view();
    if (frame >= lastFrame()) {
        return kPauseAtEndMilliseconds;
    }
    const double gap = view.secondsOf({frame.value + 1}) - view.secondsOf(frame);
    return std::max(1, static_cast<int>(std::lround(1000.0 * gap * m_slowness)));
}

void ReplayLoop::step() {
    const FrameIndex now = m_desk.frame();
    const bool isInside = now >= firstFrame() && now < lastFrame();
    m_desk.goToFrame(isInside ? FrameIndex{now.value + 1} : firstFrame());
    m_timer.start(millisecondsOf(m_desk.frame()));
}

}  // namespace ui::reading
