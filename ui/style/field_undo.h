#pragma once

#include <QObject>

namespace ui::style {

/// Leaves the keys for undo and redo to the window, when it is installed on the application, while
/// the field with the cursor has nothing typed to take back or bring back: they mean the project's
/// step then. A field with typing of its own keeps them.
class FieldUndo : public QObject {
    Q_OBJECT

public:
    using QObject::QObject;
    bool eventFilter(QObject* watched, QEvent* event) override;
};

}  // namespace ui::style
