#pragma once

#include <QString>
#include <initializer_list>

class QWidget;

namespace ui::style {

/// Keeps controls disabled for as long as they live, whoever enables them, and says why in their
/// tips: for what would change a project that is open to look at only. Nothing for an empty reason.
void holdBack(std::initializer_list<QWidget*> controls, const QString& reason);

}  // namespace ui::style
