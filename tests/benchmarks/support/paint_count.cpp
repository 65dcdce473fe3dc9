#include "tests/benchmarks/support/paint_count.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QEvent>
#include <QWheelEvent>
#include <QWidget>
#include <ctime>
#include <stdexcept>

#include "tests/benchmarks/support/figures.h"

namespace benchmarks {
namespace {

constexpr int kPatience = 60'000;           // ms
constexpr double kMostForAPainting = 16.7;  // ms

double threadMilliseconds() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return 1e3 * static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_nsec);
}

}  // namespace

PaintCount::PaintCount(QWidget& widget) {
    widget.installEventFilter(this);
}

bool PaintCount::eventFilter(QObject*, QEvent* event) {
    m_count += event->type() == QEvent::Paint ? 1 : 0;
    return false;
}

void PaintCount::waitForMoreThan(int before) const {
    QElapsedTimer patience;
    patience.start();
    while (m_count <= before) {
        if (patience.hasExpired(kPatience)) {
            throw std::runtime_error("Nothing is painted.");
        }
        QCoreApplication::processEvents(QEventLoop::AllEvents);
    }
}

void Waits::add(const PaintCount& paints, const std::function<void()>& sendEvent) {
    const int before = paints.count();
    QElapsedTimer timer;
    timer.start();
    const double start = threadMilliseconds();
    sendEvent();
    paints.waitForMoreThan(before);
    wall.push_back(1e-6 * static_cast<double>(timer.nsecsElapsed()));
    processor.push_back(threadMilliseconds() - start);
}

void Waits::print(const std::string& name) const {
    printFigure(name + ", median, ms", median(wall));
    printFigure(name + ", p99, ms", quantile(wall, 0.99), atMost(kMostForAPainting));
    printFigure(name + ", p99 in processor time, ms", quantile(processor, 0.99));
    printFigure(name + ", slowest, ms", quantile(wall, 1.0));
    printFigure(name + ", slowest in processor time, ms", quantile(processor, 1.0));
}

void turnWheel(QWidget& over, int notches) {
    constexpr int kStep = 120;  // one notch of a wheel, in eighths of a degree
    const QPointF at = QRectF{over.rect()}.center();
    QWheelEvent wheel{at,
                      over.mapToGlobal(at),
                      {},
                      {0, kStep * notches},
                      Qt::NoButton,
                      Qt::NoModifier,
                      Qt::NoScrollPhase,
                      false};
    QCoreApplication::sendEvent(&over, &wheel);
}

}  // namespace benchmarks
