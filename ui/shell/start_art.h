#pragma once

#include <QWidget>

namespace ui::shell {

/// The left half of the start page: what the program is called and does, the turn mark, and the six
/// steps of the work. Confined.
class StartArt : public QWidget {
    Q_OBJECT

public:
    explicit StartArt(QWidget* parent = nullptr);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] int paintHead(QPainter& painter) const;
    /// The steps in one row with their words, in one row, or in two where their names need it.
    struct Steps {
        int columns{};
        int stepPx{};   ///< from one to the next
        int rowPx{};    ///< how high a row is
        int wordsPx{};  ///< of it, what the words take
        bool hasWords{};
    };
    [[nodiscard]] Steps placeSteps() const;
    [[nodiscard]] int paintSteps(QPainter& painter) const;
};

}  // namespace ui::shell
