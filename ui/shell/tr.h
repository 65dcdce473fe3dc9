#pragma once

#include <QCoreApplication>
#include <QString>

namespace ui::shell {

/// Words of the window that stand outside of a class with words of its own.
inline QString tr(const char* text) {
    return QCoreApplication::translate("ui::shell", text);
}

}  // namespace ui::shell
