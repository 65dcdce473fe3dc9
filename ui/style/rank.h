#pragma once

class QWidget;

namespace ui::style {

/// How much a button asks to be pressed: one primary a screen, the next thing that the work needs;
/// quiet ones are for what is done rarely, or edits.
enum class Rank { Secondary, Primary, Quiet };

/// Says it of a button, at any time. A button of which nothing was said is secondary, or quiet when
/// it raises itself only below the pointer (`autoRaise`).
void setRank(QWidget* button, Rank rank);

/// Shows that what stands in a field cannot be used.
void setWrong(QWidget* field, bool isWrong);

}  // namespace ui::style
