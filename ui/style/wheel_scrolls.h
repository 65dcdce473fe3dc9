#pragma once

#include <QObject>

namespace ui::style {

/// Keeps the wheel from every field of a program when it is installed on the application: over a
/// number, a date, a choice or a slider it scrolls the panel that the field is in, and neither
/// changes the value nor takes the focus. Values are changed by keys, arrows and lists.
class WheelScrolls : public QObject {
    Q_OBJECT

public:
    using QObject::QObject;
    bool eventFilter(QObject* watched, QEvent* event) override;
};

}  // namespace ui::style
