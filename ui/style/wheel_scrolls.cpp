#include "ui/style/wheel_scrolls.h"

#include <QAbstractSpinBox>
#include <QComboBox>
#include <QEvent>
#include <QScrollBar>

namespace ui::style {
namespace {

bool isField(const QObject* object) {
    return qobject_cast<const QAbstractSpinBox*>(object) != nullptr ||
           qobject_cast<const QComboBox*>(object) != nullptr ||
           (qobject_cast<const QAbstractSlider*>(object) != nullptr &&
            qobject_cast<const QScrollBar*>(object) == nullptr);
}

}  // namespace

bool WheelScrolls::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::Polish && isField(watched)) {
        auto* field = static_cast<QWidget*>(watched);
        if (field->focusPolicy() == Qt::WheelFocus) {
            field->setFocusPolicy(Qt::StrongFocus);
        }
    } else if (event->type() == QEvent::Wheel && isField(watched)) {
        event->ignore();  // it goes on to the parent
        return true;
    }
    return false;
}

}  // namespace ui::style
