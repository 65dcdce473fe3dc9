#pragma once

#include <QFrame>

class QGridLayout;

namespace ui::reading {

class ReadingActions;

/// The keys of the screen, laid over it until its key or a click closes it.
class KeyList : public QFrame {
    Q_OBJECT

public:
    KeyList(const ReadingActions& actions, QWidget* parent);

    /// Reads the keys again and lies in the middle of the parent.
    void open();

Q_SIGNALS:
    void closed();

protected:
    void mousePressEvent(QMouseEvent* event) override;

private:
    void fill();

    const ReadingActions& m_actions;
    QGridLayout* m_grid;
};

}  // namespace ui::reading
