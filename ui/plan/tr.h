#pragma once

#include <QCoreApplication>
#include <QString>

namespace ui::plan {

/// Words of this screen that stand outside of its widgets.
inline QString tr(const char* text) {
    return QCoreApplication::translate("ui::plan", text);
}

}  // namespace ui::plan
