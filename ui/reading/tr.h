#pragma once

#include <QCoreApplication>
#include <QString>

namespace ui::reading {

/// Words of this screen that stand outside of its widgets.
inline QString tr(const char* text) {
    return QCoreApplication::translate("ui::reading", text);
}

}  // namespace ui::reading
