#pragma once

#include <QObject>
#include <cstdint>
#include <filesystem>
#include <iosfwd>
#include <random>
#include <string>
#include <vector>

class QFileDialog;
class QWidget;

namespace tests {

/// Does to the windows of this program what a person might do, at random, from the event loop:
/// clicks, drags, keys, typing, the wheel, other shots and screens, dialogs, leaving. The same seed
/// gives the same choices as long as the program answers in the same order. Confined.
class Robot : public QObject {
    Q_OBJECT

public:
    /// In file dialogs it goes nowhere but into the folder. trace: one line an action, before it is
    /// done; may be null, must outlive the robot.
    Robot(std::uint64_t seed, std::filesystem::path folder, std::ostream* trace);

    /// Works until stop(); the program may leave its event loop and enter it again meanwhile.
    void start();
    void stop();
    [[nodiscard]] std::int64_t actions() const noexcept { return m_actions; }
    /// Zero to below: for who else needs chance from the same seed.
    [[nodiscard]] int upTo(int below);

private:
    void step();
    [[nodiscard]] QWidget* windowInFront();
    [[nodiscard]] QWidget& someWidgetOf(QWidget& window);
    template <class T>
    [[nodiscard]] const T& oneOf(const std::vector<T>& all) {
        return all[static_cast<std::size_t>(upTo(static_cast<int>(all.size())))];
    }
    [[nodiscard]] int pauseMilliseconds();
    void note(const char* what, const QWidget& where, const std::string& more = {});

    void act(QWidget& window);
    void usePointer(QWidget& window);
    void turnWheel(QWidget& window);
    void pressKey(QWidget& window);
    void pressShortcut(QWidget& window);
    void type(QWidget& window);
    void goElsewhere(QWidget& window);
    void answer(QFileDialog& dialog);
    [[nodiscard]] std::filesystem::path chosenFor(const QFileDialog& dialog);

    std::mt19937_64 m_chance;
    std::filesystem::path m_folder;
    std::ostream* m_trace;
    std::int64_t m_actions{0};
    bool m_isRunning{false};
};

}  // namespace tests
