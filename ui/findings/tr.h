#pragma once

#include <QCoreApplication>
#include <QString>

namespace ui::findings {

/// Words of this screen that stand outside of a class with words of its own.
inline QString tr(const char* text) {
    return QCoreApplication::translate("ui::findings", text);
}

}  // namespace ui::findings
