#pragma once

#include <QLineEdit>

namespace ui::reading {

/// A line for the reason of a decision. While it has the focus all keys but those with Ctrl or Alt
/// are its own, so that typing never marks a frame. Enter gives the reason, Escape gives up.
class ReasonEdit : public QLineEdit {
    Q_OBJECT

public:
    using QLineEdit::QLineEdit;

Q_SIGNALS:
    void given(const QString& reason);
    void givenUp();

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
};

}  // namespace ui::reading
