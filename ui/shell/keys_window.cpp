#include "ui/shell/keys_window.h"

#include <QAction>
#include <QHeaderView>
#include <QKeySequenceEdit>
#include <QLabel>
#include <QSettings>
#include <QTableWidget>
#include <QVBoxLayout>

namespace ui::shell {
namespace {

QString settingOf(const QAction* action) {
    return QStringLiteral("keys/") + action->objectName();
}

QString plainText(const QAction* action) {
    return action->text().remove(QLatin1Char('&'));
}

}  // namespace

void KeysWindow::applyStoredKeys(const QList<QAction*>& actions) {
    const QSettings settings;
    for (QAction* action : actions) {
        const QVariant stored = settings.value(settingOf(action));
        if (stored.isValid() && !action->objectName().isEmpty()) {
            action->setShortcut(
                QKeySequence::fromString(stored.toString(), QKeySequence::PortableText));
        }
    }
}

KeysWindow::KeysWindow(const QList<QAction*>& actions, QWidget* parent)
    : QDialog{parent},
      m_actions{actions.begin(), actions.end()},
      m_table{new QTableWidget{static_cast<int>(actions.size()), 2}},
      m_message{new QLabel} {
    setWindowTitle(tr("Keys"));
    setAttribute(Qt::WA_DeleteOnClose);
    m_message->setWordWrap(true);
    m_message->setText(tr("Click into a key and press another one to change it."));
    m_table->setHorizontalHeaderLabels({tr("Action"), tr("Key")});
    m_table->verticalHeader()->hide();
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setSelectionMode(QAbstractItemView::NoSelection);
    m_table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_table->horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    for (int row = 0; row < actions.size(); ++row) {
        m_table->setItem(row, 0, new QTableWidgetItem{plainText(actions[row])});
        // With the project that is closed its screens go, and their actions.
        connect(actions[row], &QObject::destroyed, this, &QWidget::close);
        auto* edit = new QKeySequenceEdit{actions[row]->shortcut()};
        connect(edit, &QKeySequenceEdit::editingFinished, this,
                [this, row, edit] { change(row, edit->keySequence()); });
        m_table->setCellWidget(row, 1, edit);
    }
    m_table->resizeRowsToContents();
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(m_message);
    layout->addWidget(m_table);
    resize(560, 620);
}

void KeysWindow::change(int row, const QKeySequence& keys) {
    QAction* action = m_actions[row];
    if (action == nullptr || keys == action->shortcut()) {
        return;
    }
    for (const QPointer<QAction>& other : std::as_const(m_actions)) {
        if (other != nullptr && other != action && !keys.isEmpty() && other->shortcut() == keys) {
            m_message->setText(tr("%1 is already the key of \"%2\". Give that another key first.")
                                   .arg(keys.toString(QKeySequence::NativeText), plainText(other)));
            qobject_cast<QKeySequenceEdit*>(m_table->cellWidget(row, 1))
                ->setKeySequence(action->shortcut());
            return;
        }
    }
    action->setShortcut(keys);
    QSettings{}.setValue(settingOf(action), keys.toString(QKeySequence::PortableText));
    m_message->setText(tr("\"%1\" is now %2.")
                           .arg(plainText(action), keys.isEmpty()
                                                       ? tr("without a key")
                                                       : keys.toString(QKeySequence::NativeText)));
}

}  // namespace ui::shell
