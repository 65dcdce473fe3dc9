#pragma once

#include <QObject>
#include <functional>
#include <string>
#include <vector>

class QWidget;

namespace benchmarks {

/// Counts how often a widget is painted.
class PaintCount : public QObject {
public:
    explicit PaintCount(QWidget& widget);
    [[nodiscard]] int count() const noexcept { return m_count; }
    /// Turns the event loop until the widget was painted more often than so; the painting is done
    /// when the turn is. Throws when it is not painted within a minute.
    void waitForMoreThan(int before) const;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    int m_count{0};
};

/// What it took from an event until it was painted, ms: by the wall clock, and by the processor of
/// this thread, which a busy machine disturbs less.
struct Waits {
    std::vector<double> wall;
    std::vector<double> processor;

    void add(const PaintCount& paints, const std::function<void()>& sendEvent);
    /// The 99th percentile should be below 16.7 ms: sixty a second.
    void print(const std::string& name) const;
};

/// A wheel event in the middle of a widget, as the window system sends it; notches away from the
/// person are positive.
void turnWheel(QWidget& over, int notches);

}  // namespace benchmarks
