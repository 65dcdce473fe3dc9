#pragma once

#include <QObject>
#include <QTimer>
#include <chrono>
#include <functional>
#include <optional>
#include <set>
#include <vector>

#include "core/project/store.h"

class QWidget;

namespace ui::reading {

/// Counts what reading costs a person, shot by shot: keys and presses of the pointer that reach the
/// screen, and the time during which its window is active. A pause counts up to
/// core::project::kLongestPauseSeconds and what is beyond not at all. A key that is held counts
/// once. Motion of the pointer and turns of the wheel end a pause and are not counted.
///
/// A visit ends when another shot is opened or the screen is hidden. It is written a moment later,
/// so that the next shot is seen first; what waits is written at the latest when the screen is
/// hidden or goes. Confined to the thread of the store.
class EffortMeter : public QObject {
    Q_OBJECT

public:
    /// Time since any fixed moment.
    using Clock = std::function<std::chrono::milliseconds()>;

    /// Both must outlive the meter. A store that is open to read is left alone.
    EffortMeter(core::project::Store& store, QWidget& screen, Clock clock = steadyClock);
    ~EffortMeter() override;

    /// A shot is before the person. isBlind: without its names for this once.
    void open(core::project::ShotId shot, bool isBlind);
    /// No shot is.
    void close();
    /// What has become of the shot in this visit; until then it is left as it was.
    void setOutcome(core::project::VisitOutcome outcome);
    /// Whether implement and hitter are hidden and the order is shuffled. Who sees them during a
    /// visit has seen them for the whole of it.
    void setNamesHidden(bool hidden);
    /// Another screen has just shown whose this shot is.
    void noteNamesSeen();

    [[nodiscard]] static std::chrono::milliseconds steadyClock();

Q_SIGNALS:
    /// The project could not be written, in words; it is tried again with the next visit.
    void failed(const QString& message);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void begin();
    void end();
    void write();
    void onInput(QEvent* event);
    void noteActivity();
    void pause(bool isPaused);
    [[nodiscard]] bool isOnScreen(QObject* watched) const;

    core::project::Store& m_store;
    QWidget& m_screen;
    Clock m_clock;
    std::optional<core::project::ShotId> m_shot;
    bool m_isBlind{false};
    bool m_areNamesHidden{false};
    bool m_areNamesSeen{false};
    std::optional<core::project::ReadingEffort> m_visit;  ///< while the shot is seen
    std::chrono::milliseconds m_active{};                 ///< of the visit
    std::chrono::milliseconds m_lastActivity{};
    bool m_isPaused{false};  ///< another window is active
    std::set<quint64> m_heldKeys;
    std::set<Qt::MouseButton> m_heldButtons;
    std::vector<core::project::ReadingEffort> m_waiting;
    QTimer m_writing;
};

}  // namespace ui::reading
