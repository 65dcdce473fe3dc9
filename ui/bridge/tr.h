#pragma once

#include <QCoreApplication>
#include <QString>

namespace ui::bridge {

/// Words of jobs that stand outside of a class with words of its own.
inline QString tr(const char* text) {
    return QCoreApplication::translate("ui::bridge", text);
}

}  // namespace ui::bridge
