#include "ui/style/field_undo.h"

#include <QAbstractItemView>
#include <QAbstractSpinBox>
#include <QComboBox>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QTextDocument>
#include <optional>

namespace ui::style {
namespace {

struct Typing {
    bool canUndo{};
    bool canRedo{};
};

/// Absent: no field for text.
std::optional<Typing> typingIn(const QObject& field) {
    if (const auto* lines = qobject_cast<const QPlainTextEdit*>(&field)) {
        return Typing{lines->document()->isUndoAvailable(), lines->document()->isRedoAvailable()};
    }
    const auto* line = qobject_cast<const QLineEdit*>(&field);
    if (const auto* choice = qobject_cast<const QComboBox*>(&field)) {
        line = choice->lineEdit();
    } else if (qobject_cast<const QAbstractSpinBox*>(&field) != nullptr) {
        line = field.findChild<const QLineEdit*>();
    }
    return line == nullptr
               ? std::nullopt
               : std::optional{Typing{line->isUndoAvailable(), line->isRedoAvailable()}};
}

/// A cell that is being written: a step taken back might take it away under its editor.
bool isCell(const QObject& field) {
    for (const QObject* above = field.parent(); above != nullptr; above = above->parent()) {
        if (qobject_cast<const QAbstractItemView*>(above) != nullptr) {
            return true;
        }
    }
    return false;
}

}  // namespace

bool FieldUndo::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::ShortcutOverride) {
        return false;
    }
    const auto* key = static_cast<const QKeyEvent*>(event);
    const bool isUndo = key->matches(QKeySequence::Undo);
    if (!isUndo && !key->matches(QKeySequence::Redo)) {
        return false;
    }
    const auto typing = typingIn(*watched);
    if (!typing || isCell(*watched) || (isUndo ? typing->canUndo : typing->canRedo)) {
        return false;
    }
    event->ignore();  // a shortcut takes it
    return true;
}

}  // namespace ui::style
