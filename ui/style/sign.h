#pragma once

#include <QColor>
#include <QIcon>
#include <QRectF>

class QPainter;
class QWidget;

namespace ui::style {

/// Small drawings that stand before words: the steps of the work, kinds of remarks, states of
/// shots, actions. Lines in one colour, of our own.
enum class Sign {
    Plan,
    Footage,
    Reading,
    Doubts,
    Findings,
    Publish,
    Jobs,
    Undo,
    Redo,
    Grave,
    Question,
    Note,
    Done,
    Search,
    Folder,
    Print,
    Add,
    Keep,
    SetAside,
    Doubtful,
    ToRead,
    Bracket,
    Dial,
    Compare,
    Replay,
    Keys,
};
inline constexpr int kSigns = static_cast<int>(Sign::Keys) + 1;

/// Fills the square with the drawing; lines get thicker with it.
void drawSign(QPainter& painter, Sign sign, const QRectF& square, const QColor& colour);

/// For a button: in the colour of words of that rank of the widget's palette, quiet when disabled.
[[nodiscard]] QIcon signIcon(Sign sign, const QWidget& widget);

}  // namespace ui::style
