#pragma once

#include <QDialog>
#include <QList>
#include <QPointer>

class QAction;
class QLabel;
class QTableWidget;

namespace ui::shell {

/// Every action with its key; a key can be changed in its row and is kept in the person's settings.
/// Does not block the window behind it, and closes when one of the actions goes. Confined.
class KeysWindow : public QDialog {
    Q_OBJECT

public:
    explicit KeysWindow(const QList<QAction*>& actions, QWidget* parent = nullptr);

    /// Gives actions the keys that the person chose earlier. Actions are known by object name.
    static void applyStoredKeys(const QList<QAction*>& actions);

private:
    void change(int row, const QKeySequence& keys);

    QList<QPointer<QAction>> m_actions;
    QTableWidget* m_table;
    QLabel* m_message;
};

}  // namespace ui::shell
