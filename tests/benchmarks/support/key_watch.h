#pragma once

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QTest>
#include <QTimer>
#include <stdexcept>

#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/scene_view.h"

namespace benchmarks {

/// Presses keys on the reading screen and notices when the scene has painted the frame that they
/// lead to.
class KeyWatch : public QObject {
public:
    explicit KeyWatch(ui::reading::ReadingScreen& screen) : m_screen{screen} {
        screen.scene().installEventFilter(this);
        m_pulse.start(kPulseMilliseconds);
    }

    /// Presses the key; milliseconds until the frame is painted. A press that leads to another
    /// shot counts from that shot's picture on.
    double press(Qt::Key key) {
        m_painted.reset();
        QElapsedTimer timer;
        timer.start();
        QTest::keyPress(&m_screen, key);
        m_handled = 1e-6 * static_cast<double>(timer.nsecsElapsed());
        const auto wanted = m_screen.desk().frame();
        while (m_painted != wanted) {
            if (timer.hasExpired(kPatienceMilliseconds)) {
                throw std::runtime_error("The picture that the key leads to does not come.");
            }
            QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents);
        }
        const double milliseconds = 1e-6 * static_cast<double>(timer.nsecsElapsed());
        QTest::keyRelease(&m_screen, key);
        return milliseconds;
    }

    /// Milliseconds of the last press until it was handled: what is in the project is on the disk.
    [[nodiscard]] double handled() const noexcept { return m_handled; }

protected:
    bool eventFilter(QObject*, QEvent* event) override {
        if (event->type() == QEvent::Paint) {
            m_painted = m_screen.scene().pictureFrame();  // done when this turn of the loop is
        }
        return false;
    }

private:
    static constexpr int kPatienceMilliseconds = 20'000;
    static constexpr int kPulseMilliseconds = 500;

    ui::reading::ReadingScreen& m_screen;
    std::optional<core::timebase::FrameIndex> m_painted;
    double m_handled{};
    QTimer m_pulse;  // ends a wait in which nothing happens any more
};

}  // namespace benchmarks
