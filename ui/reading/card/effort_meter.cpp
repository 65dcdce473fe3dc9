#include "ui/reading/card/effort_meter.h"

#include <QApplication>
#include <QDateTime>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QWidget>
#include <algorithm>

namespace ui::reading {

using core::project::ReadingEffort;
using core::project::ShotId;
using core::project::VisitOutcome;
using std::chrono::milliseconds;

namespace {

/// The next shot is painted by then, and nobody has looked at it long enough to press a key.
constexpr milliseconds kWriteAfter{150};
constexpr std::chrono::duration<double> kLongestPause{core::project::kLongestPauseSeconds};
constexpr milliseconds kShortestIdleVisit{1000};

/// The key on the keyboard: what it stands for may be another at its release, when Shift went up
/// first.
quint64 keyOf(const QKeyEvent& event) {
    constexpr quint64 kScanned = quint64{1} << 32U;
    return event.nativeScanCode() != 0 ? kScanned | event.nativeScanCode()
                                       : static_cast<quint64>(event.key());
}

}  // namespace

EffortMeter::EffortMeter(core::project::Store& store, QWidget& screen, Clock clock)
    : m_store{store}, m_screen{screen}, m_clock{std::move(clock)} {
    m_writing.setSingleShot(true);
    m_writing.setInterval(kWriteAfter);
    connect(&m_writing, &QTimer::timeout, this, &EffortMeter::write);
    if (store.readOnlyReason().empty()) {
        qApp->installEventFilter(this);
    }
}

EffortMeter::~EffortMeter() {
    end();
    write();
}

milliseconds EffortMeter::steadyClock() {
    return std::chrono::duration_cast<milliseconds>(
        std::chrono::steady_clock::now().time_since_epoch());
}

void EffortMeter::open(ShotId shot, bool isBlind) {
    end();
    m_shot = shot;
    m_isBlind = isBlind;
    m_areNamesSeen = false;
    if (m_screen.isVisible()) {
        begin();
    }
}

void EffortMeter::close() {
    end();
    m_shot.reset();
}

void EffortMeter::setOutcome(VisitOutcome outcome) {
    if (m_visit) {
        m_visit->outcome = outcome;
    }
}

void EffortMeter::setNamesHidden(bool hidden) {
    m_areNamesHidden = hidden;
    if (m_visit && !hidden && !m_isBlind) {
        m_visit->namesHidden = false;
    }
}

void EffortMeter::noteNamesSeen() {
    m_areNamesSeen = !m_isBlind;
    if (m_visit && m_areNamesSeen) {
        m_visit->namesHidden = false;
    }
}

void EffortMeter::begin() {
    if (!m_shot || m_visit || !m_store.readOnlyReason().empty()) {
        return;
    }
    m_visit.emplace();
    m_visit->shot = *m_shot;
    m_visit->beganAt = QDateTime::currentDateTimeUtc().toString(Qt::ISODate).toStdString();
    m_visit->namesHidden = (m_areNamesHidden && !m_areNamesSeen) || m_isBlind;
    m_active = {};
    m_lastActivity = m_clock();
    m_isPaused = !m_screen.isActiveWindow();
}

void EffortMeter::end() {
    if (!m_visit) {
        return;
    }
    noteActivity();
    ReadingEffort visit = *std::exchange(m_visit, std::nullopt);
    const bool isIdle = visit.keys == 0 && visit.clicks == 0 && m_active < kShortestIdleVisit;
    if (isIdle && visit.outcome == VisitOutcome::Left) {
        return;
    }
    visit.activeSeconds = std::chrono::duration<double>(m_active).count();
    m_waiting.push_back(std::move(visit));
    m_writing.start();
}

void EffortMeter::write() {
    m_writing.stop();
    const auto written = m_store.noteEfforts(m_waiting);
    if (written) {
        m_waiting.clear();
    } else {
        Q_EMIT failed(QString::fromStdString(written.error().message));
    }
}

/// The time since the last sign of life, as far as it counts, is added to the visit.
void EffortMeter::noteActivity() {
    if (!m_visit || m_isPaused) {
        return;
    }
    const milliseconds now = m_clock();
    m_active +=
        std::min(now - m_lastActivity, std::chrono::duration_cast<milliseconds>(kLongestPause));
    m_lastActivity = now;
}

void EffortMeter::pause(bool isPaused) {
    noteActivity();
    m_isPaused = isPaused;
    m_lastActivity = m_clock();
    m_heldKeys.clear();  // their releases go to another window
    m_heldButtons.clear();
}

bool EffortMeter::isOnScreen(QObject* watched) const {
    const auto* widget = qobject_cast<const QWidget*>(watched);
    return widget != nullptr && (widget == &m_screen || m_screen.isAncestorOf(widget));
}

/// A press comes several times: as a question whether it is a shortcut, as itself, and again for
/// every widget that leaves it to its parent. It counts when the key or button was up before.
void EffortMeter::onInput(QEvent* event) {
    noteActivity();
    if (event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride) {
        const auto& key = *static_cast<QKeyEvent*>(event);
        const bool isNew = !key.isAutoRepeat() && m_heldKeys.insert(keyOf(key)).second;
        m_visit->keys += isNew ? 1 : 0;
    } else if (event->type() == QEvent::MouseButtonPress ||
               event->type() == QEvent::MouseButtonDblClick) {
        const auto& press = *static_cast<QMouseEvent*>(event);
        m_visit->clicks += m_heldButtons.insert(press.button()).second ? 1 : 0;
    }
}

bool EffortMeter::eventFilter(QObject* watched, QEvent* event) {
    switch (event->type()) {
        case QEvent::KeyPress:
        case QEvent::ShortcutOverride:
        case QEvent::MouseButtonPress:
        case QEvent::MouseButtonDblClick:
        case QEvent::MouseMove:
        case QEvent::Wheel:
            if (m_visit && isOnScreen(watched)) {
                onInput(event);
            }
            break;
        case QEvent::KeyRelease:
            if (const auto& key = *static_cast<QKeyEvent*>(event); !key.isAutoRepeat()) {
                m_heldKeys.erase(keyOf(key));
            }
            break;
        case QEvent::MouseButtonRelease:
            m_heldButtons.erase(static_cast<QMouseEvent*>(event)->button());
            break;
        case QEvent::WindowActivate:
        case QEvent::WindowDeactivate:
            if (watched == m_screen.window()) {
                pause(event->type() == QEvent::WindowDeactivate);
            }
            break;
        case QEvent::Show:
            if (watched == &m_screen) {
                begin();
            }
            break;
        case QEvent::Hide:
            if (watched == &m_screen) {
                end();
                write();
            }
            break;
        default:
            break;
    }
    return false;
}

}  // namespace ui::reading
