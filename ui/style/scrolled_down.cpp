#include "ui/style/scrolled_down.h"

#include <QEvent>
#include <QScrollBar>
#include <QTimer>

namespace ui::style {

ScrolledDown::ScrolledDown(QWidget* content) {
    setWidget(content);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
}

QSize ScrolledDown::sizeHint() const {
    const QSize usual = QScrollArea::sizeHint();
    return widget() == nullptr ? usual : QSize{usual.width(), widget()->sizeHint().height()};
}

QSize ScrolledDown::minimumSizeHint() const {
    const int content = widget() != nullptr ? widget()->minimumSizeHint().width() : 0;
    return {content + verticalScrollBar()->sizeHint().width(),
            QScrollArea::minimumSizeHint().height()};
}

/// What the content needs may have changed, with larger text for one.
bool ScrolledDown::eventFilter(QObject* watched, QEvent* event) {
    if (watched == widget() && event->type() == QEvent::LayoutRequest) {
        updateGeometry();
    }
    return QScrollArea::eventFilter(watched, event);
}

void bringIntoView(QWidget& widget) {
    QTimer::singleShot(0, &widget, [&widget] {
        for (QWidget* around = widget.parentWidget(); around != nullptr;
             around = around->parentWidget()) {
            if (auto* area = qobject_cast<QScrollArea*>(around)) {
                area->ensureWidgetVisible(&widget);
            }
        }
    });
}

}  // namespace ui::style
