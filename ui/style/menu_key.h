#pragma once

#include <QObject>

namespace ui::style {

/// Lets Shift+F10 open the menu of what has the focus, as the key for menus does, which many
/// keyboards lack, when it is installed on the application.
class MenuKey : public QObject {
    Q_OBJECT

public:
    using QObject::QObject;
    bool eventFilter(QObject* watched, QEvent* event) override;
};

}  // namespace ui::style
