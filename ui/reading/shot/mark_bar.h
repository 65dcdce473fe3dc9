#pragma once

#include <QList>
#include <QWidget>

class QToolButton;

namespace ui::reading {

class ReadingActions;
class ReplayLoop;

/// The buttons of the loop of reading, in the order of the work. Where there is no room their words
/// go; signs and tooltips stay.
class MarkBar : public QWidget {
    Q_OBJECT

public:
    MarkBar(const ReadingActions& actions, ReplayLoop& replay, QWidget* parent = nullptr);

    /// Without words.
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void drawIcons();
    void fit();

    const ReadingActions& m_actions;
    QList<QToolButton*> m_marks;  ///< their words go second
    QList<QToolButton*> m_quiet;  ///< and those of these first
};

}  // namespace ui::reading
