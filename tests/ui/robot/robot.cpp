#include "tests/ui/robot/robot.h"

#include <QAction>
#include <QApplication>
#include <QFileDialog>
#include <QPointer>
#include <QTest>
#include <QTimer>
#include <QWheelEvent>
#include <QWindow>
#include <algorithm>
#include <ostream>
#include <utility>

#include "ui/reading/reading_screen.h"
#include "ui/shell/main_window.h"

namespace tests {
namespace {

using ui::shell::MainWindow;

const std::vector<int> kKeys{
    Qt::Key_S,      Qt::Key_R,       Qt::Key_B,      Qt::Key_A,         Qt::Key_C,
    Qt::Key_H,      Qt::Key_O,       Qt::Key_Q,      Qt::Key_N,         Qt::Key_M,
    Qt::Key_1,      Qt::Key_2,       Qt::Key_0,      Qt::Key_Left,      Qt::Key_Right,
    Qt::Key_Up,     Qt::Key_Down,    Qt::Key_Return, Qt::Key_Space,     Qt::Key_Escape,
    Qt::Key_Tab,    Qt::Key_Home,    Qt::Key_End,    Qt::Key_PageUp,    Qt::Key_Plus,
    Qt::Key_Delete, Qt::Key_Backtab, Qt::Key_F1,     Qt::Key_Backspace, Qt::Key_PageDown};

const std::vector<QString> kTexts{
    QStringLiteral("240"),  QStringLiteral("1,000"),  QStringLiteral("-3"),
    QStringLiteral("0"),    QStringLiteral("mishit"), QStringLiteral("1e400"),
    QStringLiteral("   "),  QStringLiteral("=1+1"),   QStringLiteral("Zoë, B"),
    QStringLiteral("../x"), QStringLiteral("球"),     QString{300, QLatin1Char{'w'}}};

void sendPointer(QWidget& window, QPoint at, Qt::MouseButton button, QEvent::Type type) {
    const auto held = type == QEvent::MouseButtonRelease ? Qt::MouseButtons{} : button;
    qt_handleMouseEvent(window.windowHandle(), at, window.mapToGlobal(at), held,
                        type == QEvent::MouseMove ? Qt::NoButton : button, type, Qt::NoModifier,
                        QTest::lastMouseTimestamp += 600);
}

void sendKey(QWidget& window, int key, Qt::KeyboardModifiers held, const QString& text) {
    for (const auto type : {QEvent::KeyPress, QEvent::KeyRelease}) {
        qt_handleKeyEvent(window.windowHandle(), type, key, held, text);
    }
}

bool isUsable(const QWidget* widget) {
    return widget->isVisible() && widget->windowHandle() != nullptr;
}

}  // namespace

Robot::Robot(std::uint64_t seed, std::filesystem::path folder, std::ostream* trace)
    : m_chance{seed}, m_folder{std::move(folder)}, m_trace{trace} {}

int Robot::upTo(int below) {
    return static_cast<int>(m_chance() % static_cast<std::uint64_t>(below));
}

int Robot::pauseMilliseconds() {
    const int kind = upTo(100);
    return kind < 70 ? upTo(10) : kind < 96 ? upTo(100) : 200 + upTo(800);
}

void Robot::start() {
    m_isRunning = true;
    step();
}

void Robot::stop() {
    m_isRunning = false;
}

// Armed again before anything is done: what is done may open a dialog with an event loop.
void Robot::step() {
    if (!m_isRunning) {
        return;
    }
    QTimer::singleShot(pauseMilliseconds(), this, &Robot::step);
    ++m_actions;
    QWidget* window = windowInFront();
    if (window == nullptr) {
        return;
    }
    if (auto* dialog = qobject_cast<QFileDialog*>(window)) {
        answer(*dialog);
    } else {
        act(*window);
    }
}

QWidget* Robot::windowInFront() {
    for (QWidget* front : {QApplication::activePopupWidget(), QApplication::activeModalWidget()}) {
        if (front != nullptr && isUsable(front)) {
            return front;
        }
    }
    std::vector<QWidget*> windows;
    for (QWidget* widget : QApplication::topLevelWidgets()) {
        if (isUsable(widget)) {
            windows.push_back(widget);
        }
    }
    return windows.empty() ? nullptr : oneOf(windows);
}

QWidget& Robot::someWidgetOf(QWidget& window) {
    std::vector<QWidget*> shown{&window};
    for (auto* child : window.findChildren<QWidget*>()) {
        if (child->window() == &window && child->isVisible() && !child->size().isEmpty()) {
            shown.push_back(child);
        }
    }
    return *oneOf(shown);
}

void Robot::note(const char* what, const QWidget& where, const std::string& more) {
    if (m_trace != nullptr) {
        *m_trace << m_actions << ' ' << what << ' ' << where.metaObject()->className() << ' '
                 << where.objectName().toStdString() << ' ' << more << std::endl;
    }
}

void Robot::act(QWidget& window) {
    const int kind = upTo(1000);
    if (kind < 420) {
        usePointer(window);
    } else if (kind < 520) {
        turnWheel(window);
    } else if (kind < 750) {
        pressKey(window);
    } else if (kind < 850) {
        pressShortcut(window);
    } else if (kind < 900) {
        type(window);
    } else if (kind < 990) {
        goElsewhere(window);
    } else if (kind < 996) {
        note("resize", window);
        window.resize(300 + upTo(1400), 200 + upTo(900));
    } else if (QApplication::activeModalWidget() == nullptr) {
        note("close", window);
        window.close();
    }
}

void Robot::usePointer(QWidget& window) {
    QWidget& target = someWidgetOf(window);
    // A widget that a narrow window leaves no room has no place inside; its corner will do.
    const auto placeIn = [&] {
        return QPoint{upTo(std::max(target.width(), 1)), upTo(std::max(target.height(), 1))};
    };
    const QPoint at = target.mapTo(&window, placeIn());
    const int kind = upTo(10);
    const auto button = upTo(12) == 0   ? Qt::RightButton
                        : upTo(20) == 0 ? Qt::MiddleButton
                                        : Qt::LeftButton;
    note(kind == 0   ? "drag"
         : kind == 1 ? "double click"
                     : "click",
         target, std::to_string(at.x()) + ' ' + std::to_string(at.y()));
    // A press may close what it hits: a menu that stood open, a window of its own.
    const QPointer<QWidget> hit{&target};
    const auto send = [&, above = QPointer<QWidget>{&window}](QPoint place, QEvent::Type type) {
        if (above != nullptr && above->windowHandle() != nullptr) {
            sendPointer(*above, place, button, type);
        }
    };
    send(at, QEvent::MouseButtonPress);
    QPoint last = at;
    for (int moves = kind == 0 ? 1 + upTo(5) : 0; moves > 0 && hit != nullptr; --moves) {
        last = target.mapTo(&window, placeIn());
        send(last, QEvent::MouseMove);
    }
    send(last, QEvent::MouseButtonRelease);
    if (kind == 1) {
        QTest::lastMouseTimestamp -= 1100;  // soon after the first
        send(last, QEvent::MouseButtonPress);
        send(last, QEvent::MouseButtonRelease);
    }
}

void Robot::turnWheel(QWidget& window) {
    QWidget& target = someWidgetOf(window);
    const QPointF at{0.5 * target.width(), 0.5 * target.height()};
    const int turn = (upTo(2) == 0 ? 120 : -120) * (1 + upTo(4));
    note("wheel", target, std::to_string(turn));
    QWheelEvent event{at,
                      target.mapToGlobal(at),
                      {},
                      {0, turn},
                      Qt::NoButton,
                      upTo(8) == 0 ? Qt::ControlModifier : Qt::NoModifier,
                      Qt::NoScrollPhase,
                      false};
    QSpontaneKeyEvent::setSpontaneous(&event);
    QCoreApplication::instance()->notify(&target, &event);
}

void Robot::pressKey(QWidget& window) {
    const int key = oneOf(kKeys);
    const Qt::KeyboardModifiers held = upTo(6) == 0 ? Qt::ShiftModifier : Qt::NoModifier;
    note("key", window, std::to_string(key));
    const bool isLetter = key < 0x80;
    sendKey(window, key, held, isLetter ? QString{QChar{key}}.toLower() : QString{});
}

void Robot::pressShortcut(QWidget& window) {
    std::vector<QKeySequence> shortcuts;
    for (const auto* action : window.findChildren<QAction*>()) {
        for (const auto& keys : action->shortcuts()) {
            shortcuts.push_back(keys);
        }
    }
    if (!shortcuts.empty()) {
        const auto keys = oneOf(shortcuts)[0];
        note("shortcut", window, QKeySequence{keys}.toString().toStdString());
        sendKey(window, keys.key(), keys.keyboardModifiers(), {});
    }
}

void Robot::type(QWidget& window) {
    const QString text = oneOf(kTexts);
    note("type", window, text.toStdString());
    for (const QChar& each : text) {
        sendKey(window, each.toUpper().unicode(), Qt::NoModifier, each);
    }
    if (upTo(2) == 0) {
        sendKey(window, Qt::Key_Return, Qt::NoModifier, {});
    }
}

void Robot::goElsewhere(QWidget& window) {
    auto* main = qobject_cast<MainWindow*>(&window);
    if (main == nullptr) {
        note("escape", window);
        sendKey(window, Qt::Key_Escape, Qt::NoModifier, {});
        return;
    }
    if (main->store() == nullptr) {
        note("open", window);
        main->openProject(chosenFor(QFileDialog{}));
        return;
    }
    const auto snapshot = main->store()->snapshot();
    auto* reading = main->findChild<ui::reading::ReadingScreen*>();
    if (upTo(2) == 0 && !snapshot->shots.isEmpty()) {
        const auto shot =
            snapshot->shots.begin()[upTo(static_cast<int>(snapshot->shots.size()))].id;
        note("shot", window, std::to_string(shot.value));
        reading->openShot(shot);
    } else {
        using Screen = MainWindow::Screen;
        const std::vector screens{Screen::Plan,    Screen::Footage, Screen::Reading,
                                  Screen::Reading, Screen::Doubts,  Screen::Findings,
                                  Screen::Publish};
        note("screen", window);
        main->showScreen(oneOf(screens));
    }
}

std::filesystem::path Robot::chosenFor(const QFileDialog& dialog) {
    namespace fs = std::filesystem;
    if (dialog.acceptMode() == QFileDialog::AcceptSave) {
        const QString ending = dialog.nameFilters()
                                   .join(QLatin1Char{' '})
                                   .section(QStringLiteral("*."), 1)
                                   .section(QRegularExpression{QStringLiteral("[ ;)]")}, 0, 0);
        return m_folder / ("saved " + std::to_string(m_actions) + "." + ending.toStdString());
    }
    const bool isFolder = dialog.fileMode() == QFileDialog::Directory;
    std::vector<fs::path> found;
    // What is listed may go meanwhile: films and copies are being written there.
    std::error_code gone;
    for (fs::recursive_directory_iterator at{m_folder, gone}, end; !gone && at != end;
         at.increment(gone)) {
        std::error_code unknown;
        if (at->is_directory(unknown) == isFolder) {
            found.push_back(at->path());
        }
    }
    return found.empty() ? m_folder : oneOf(found);
}

void Robot::answer(QFileDialog& dialog) {
    if (upTo(3) == 0) {
        note("cancel", dialog);
        dialog.reject();
        return;
    }
    const auto chosen = chosenFor(dialog);
    note("choose", dialog, chosen.string());
    dialog.setDirectory(QString::fromStdString(chosen.parent_path().string()));
    dialog.selectFile(QString::fromStdString(chosen.filename().string()));
    static_cast<QDialog&>(dialog).accept();
}

}  // namespace tests
