#pragma once

#include <QGuiApplication>
#include <QTest>
#include <QWidget>
#include <QWindow>
#include <stdexcept>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace tests {

/// Keys and presses of the pointer as a person makes them, counted by the part of the work that
/// they belong to. They go to the window that has the focus, which finds whom they are for.
class CountedHand {
public:
    static constexpr int kPatienceOfAHandMs = 1000;
    explicit CountedHand(QWidget& window) : m_window{window} {}
    void begin(std::string part) { m_counts.emplace_back(std::move(part), 0); }
    void key(Qt::Key key, Qt::KeyboardModifiers held = {}) {
        ++m_counts.back().second;
        QTest::keyClick(focusWindow(), key, held);
    }
    /// A letter is a key.
    void type(const char* letters) {
        for (const char* letter = letters; *letter != '\0'; ++letter) {
            ++m_counts.back().second;
            QTest::keyClick(focusWindow(), *letter);
        }
    }
    /// In the middle, or near the left edge, where the box of a tick is. Throws when that cannot be
    /// seen: whoever sits there would have to scroll first.
    void click(QWidget& widget, bool isTick = false) {
        ++m_counts.back().second;
        const QPoint at = isTick ? QPoint{8, widget.height() / 2} : widget.rect().center();
        const auto isSeen = [&] {
            return widget.isVisible() && widget.visibleRegion().contains(at);
        };
        if (!QTest::qWaitFor(isSeen, kPatienceOfAHandMs)) {
            throw std::runtime_error("cannot be seen: " + widget.objectName().toStdString());
        }
        QWidget* window = widget.window();
        QTest::mouseClick(window->windowHandle(), Qt::LeftButton, {}, widget.mapTo(window, at));
    }
    [[nodiscard]] int inAll() const {
        int sum = 0;
        for (const auto& [part, count] : m_counts) {
            sum += count;
        }
        return sum;
    }
    [[nodiscard]] const std::vector<std::pair<std::string, int>>& counts() const {
        return m_counts;
    }

private:
    /// Where a dialog was that has gone, a window manager gives the focus back.
    [[nodiscard]] QWindow* focusWindow() {
        if (QGuiApplication::focusWindow() == nullptr) {
            m_window.activateWindow();
            std::ignore = QTest::qWaitForWindowActive(&m_window);
        }
        QWindow* window = QGuiApplication::focusWindow();
        if (window == nullptr) {
            throw std::runtime_error("no window has the focus");
        }
        return window;
    }

    QWidget& m_window;
    std::vector<std::pair<std::string, int>> m_counts;
};

}  // namespace tests
