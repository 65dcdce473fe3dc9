#pragma once

#include <QWidget>

#include "ui/reading/grid/turn_grid.h"

class QLabel;
class QToolButton;

namespace ui::reading {

class ReadingActions;

/// The turn grid under a line that says what a row is, with what changes it.
class TurnGridPanel : public QWidget {
    Q_OBJECT

public:
    TurnGridPanel(ReadingDesk& desk, const BallPictures& pictures, const ReadingActions& actions,
                  QWidget* parent = nullptr);

    [[nodiscard]] TurnGrid& grid() noexcept { return *m_grid; }
    /// "row = one turn of 4.83 frames (1491 rpm)"
    [[nodiscard]] QString rowText() const;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void refresh();
    void showRow();
    [[nodiscard]] QString frames() const;  ///< of a row
    [[nodiscard]] QString rpm() const;

    ReadingDesk& m_desk;
    TurnGrid* m_grid;
    QLabel* m_row;
    QToolButton* m_sense;
};

}  // namespace ui::reading
