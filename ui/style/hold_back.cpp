#include "ui/style/hold_back.h"

#include <QEvent>
#include <QWidget>

namespace ui::style {
namespace {

class HoldBack : public QObject {
public:
    HoldBack(QWidget* control, QString reason) : QObject{control}, m_reason{std::move(reason)} {
        control->installEventFilter(this);
        hold(*control);
    }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::EnabledChange || event->type() == QEvent::ToolTipChange) {
            hold(*static_cast<QWidget*>(watched));
        }
        return QObject::eventFilter(watched, event);
    }

private:
    void hold(QWidget& control) {
        if (control.isEnabledTo(control.parentWidget())) {
            control.setEnabled(false);
        }
        if (control.toolTip() != m_reason) {
            control.setToolTip(m_reason);
        }
    }

    QString m_reason;
};

}  // namespace

void holdBack(std::initializer_list<QWidget*> controls, const QString& reason) {
    if (reason.isEmpty()) {
        return;
    }
    for (QWidget* control : controls) {
        new HoldBack{control, reason};
    }
}

}  // namespace ui::style
