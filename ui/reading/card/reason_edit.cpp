#include "ui/reading/card/reason_edit.h"

#include <QKeyEvent>

namespace ui::reading {

bool ReasonEdit::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if ((key->modifiers() & (Qt::ControlModifier | Qt::AltModifier)) == 0) {
            event->accept();
            return true;
        }
    }
    return QLineEdit::event(event);
}

void ReasonEdit::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
            Q_EMIT given(text());
            break;
        case Qt::Key_Escape:
            Q_EMIT givenUp();
            break;
        case Qt::Key_Up:
        case Qt::Key_Down:
        case Qt::Key_PageUp:
        case Qt::Key_PageDown:
            break;  // not a word of a reason, and not a step through the shot either
        default:
            QLineEdit::keyPressEvent(event);
    }
}

}  // namespace ui::reading
