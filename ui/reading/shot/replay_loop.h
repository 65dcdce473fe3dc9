#pragma once

#include <QObject>
#include <QTimer>

#include "ui/reading/reading_desk.h"

namespace ui::reading {

/// Steps the desk through the reading again and again, from the start to the last return (or
/// through the whole shot while there is none), slower than the world by a chosen factor. Frames
/// stay as long as their capture times say.
class ReplayLoop : public QObject {
    Q_OBJECT

public:
    explicit ReplayLoop(ReadingDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] bool isRunning() const noexcept { return m_timer.isActive(); }
    void setRunning(bool running);
    /// Times slower than the world, at least 1.
    void setSlowness(int slowness);
    [[nodiscard]] int slowness() const noexcept { return m_slowness; }
    [[nodiscard]] core::timebase::FrameIndex firstFrame() const;
    [[nodiscard]] core::timebase::FrameIndex lastFrame() const;
    /// How long a frame is shown.
    [[nodiscard]] int millisecondsOf(core::timebase::FrameIndex frame) const;

Q_SIGNALS:
    void runningChanged(bool running);

private:
    void step();

    ReadingDesk& m_desk;
    QTimer m_timer;
    int m_slowness{16};
};

}  // namespace ui::reading
