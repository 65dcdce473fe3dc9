#pragma once

#include <QImage>
#include <QPointF>
#include <QRectF>
#include <QSize>
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>

#include "core/media/frame.h"

namespace ui::bridge {

/// A square of a frame, resampled: what is inside centre ± halfSidePx of the picture fills an image
/// of sidePx by sidePx.
struct CutOut {
    core::timebase::FrameIndex frame;
    QPointF
        centrePx;  ///< continuous picture coordinates, (0, 0) is the corner of the top left pixel
    double halfSidePx{};
    int sidePx{};
};

/// The whole picture, scaled down to fit into the box when the box is not empty.
[[nodiscard]] QImage wholePicture(const core::media::Frame& frame, QSize fitInto);
/// A copy in the format that Qt paints fastest.
[[nodiscard]] QImage imageOf(const core::PixelBuffer& pixels);
/// Parts outside the picture are black.
[[nodiscard]] QImage cutOutPicture(const core::media::Frame& frame, const CutOut& cutOut);
/// The same from a picture that shows only `place` of the frame; parts outside it are black.
[[nodiscard]] QImage cutOutPicture(const QImage& picture, const QRectF& place,
                                   const CutOut& cutOut);

/// One thread that converts pictures, so that the window does not. Shared: tasks may be added from
/// any thread. The destructor drops what waits and joins after the running task.
class PictureWorker {
public:
    PictureWorker();
    ~PictureWorker();
    PictureWorker(const PictureWorker&) = delete;
    PictureWorker& operator=(const PictureWorker&) = delete;

    /// Runs after what waits already.
    void add(std::function<void()> task);
    /// Runs before what waits; replaces an urgent task that has not begun.
    void addUrgent(std::function<void()> task);
    /// Drops what waits and is not urgent.
    void clear();

private:
    void run(const std::stop_token& stop);

    std::mutex m_mutex;
    std::condition_variable_any m_wake;
    std::function<void()> m_urgent;
    std::deque<std::function<void()>> m_tasks;
    std::jthread m_thread;  // last: starts when the rest is built, is joined first
};

}  // namespace ui::bridge
