#pragma once

#include <QComboBox>

#include "core/spin/counting_habit.h"

namespace ui::plan {

/// Asks how whole frames were counted, with a small picture of each habit: frames as ticks, the
/// start, the instant at which the mark is back (hollow), and the frame that was counted to.
/// Confined.
class HabitChoice : public QComboBox {
    Q_OBJECT

public:
    explicit HabitChoice(QWidget* parent = nullptr);

    [[nodiscard]] core::spin::CountingHabit habit() const;

protected:
    void changeEvent(QEvent* event) override;

private:
    void drawPictures();
};

}  // namespace ui::plan
