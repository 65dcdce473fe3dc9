#include <QAbstractButton>
#include <QApplication>
#include <QKeyEvent>

#include "ui/reading/card/key_list.h"
#include "ui/reading/grid/beside_view.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/shot_strip.h"

/// Keys that are no plain actions: digits that belong together, coarse steps, Escape, the menu.
namespace ui::reading {
namespace {

constexpr int kDigitsTogetherMilliseconds = 900;

}  // namespace

void ReadingScreen::typeTurns(int digit) {
    const bool continues =
        m_sinceDigit.isValid() && m_sinceDigit.elapsed() < kDigitsTogetherMilliseconds;
    const int before = continues && m_typedTurns < 100 ? 10 * m_typedTurns : 0;
    m_typedTurns = before + digit;
    m_sinceDigit.start();
    m_desk.setTurns(m_desk.frame(), m_typedTurns);
}

void ReadingScreen::stepRow(double factor) {
    m_desk.setRowSeconds(m_desk.rowSeconds() * factor);
}

void ReadingScreen::setKeysShown(bool shown) {
    shown ? m_keyList->open() : m_keyList->hide();
}

/// Whether the key is exactly that of a coarse step. On keyboards where + needs Shift, the keys of
/// the fine and the coarse step are the same press, and Qt would call them ambiguous.
bool ReadingScreen::isCoarseKey(const QKeyEvent& key) const {
    const QKeySequence pressed{key.keyCombination()};
    return m_actions.longerRowCoarse->shortcuts().contains(pressed) ||
           m_actions.shorterRowCoarse->shortcuts().contains(pressed);
}

bool ReadingScreen::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        // Space presses the button that the Tab key has gone to.
        const bool pressesButton =
            key->key() == Qt::Key_Space &&
            qobject_cast<QAbstractButton*>(QApplication::focusWidget()) != nullptr;
        if (pressesButton || isCoarseKey(*key)) {
            event->accept();
            return true;
        }
    }
    return QWidget::event(event);
}

void ReadingScreen::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && m_actions.keys->isChecked()) {
        m_actions.keys->setChecked(false);
    } else if (event->key() == Qt::Key_Escape && m_beside->other() != nullptr) {
        m_beside->hideOther();
    } else if (event->key() == Qt::Key_Escape && m_desk.isBlind()) {
        m_strip->show();
        showNotice({});
        Q_EMIT blindEnded();
    } else if (isCoarseKey(*event)) {
        const QKeySequence pressed{event->keyCombination()};
        const bool isLonger = m_actions.longerRowCoarse->shortcuts().contains(pressed);
        (isLonger ? m_actions.longerRowCoarse : m_actions.shorterRowCoarse)->trigger();
    } else {
        QWidget::keyPressEvent(event);
    }
}

/// The key that opens a menu: that of the shots, which are chosen by keys of this screen.
void ReadingScreen::contextMenuEvent(QContextMenuEvent* event) {
    if (event->reason() == QContextMenuEvent::Keyboard && m_strip->isVisible()) {
        m_strip->showMenuOfCurrent();
        event->accept();
        return;
    }
    QWidget::contextMenuEvent(event);
}

void ReadingScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (!m_desk.hasShot()) {
        openFirstShot();  // of clips that came in since
    }
    setFocus();
}

}  // namespace ui::reading
