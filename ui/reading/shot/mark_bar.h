#pragma once

#include <QWidget>

namespace ui::reading {

class ReadingActions;
class ReplayLoop;

/// The buttons of the loop of reading, in the order of the work.
class MarkBar : public QWidget {
    Q_OBJECT

public:
    MarkBar(const ReadingActions& actions, ReplayLoop& replay, QWidget* parent = nullptr);

protected:
    void changeEvent(QEvent* event) override;

private:
    void drawIcons();

    const ReadingActions& m_actions;
};

}  // namespace ui::reading
