#pragma once

#include <QCoreApplication>
#include <QString>

namespace ui::models {

/// Words of the models that stand outside of a class with words of its own.
inline QString tr(const char* text) {
    return QCoreApplication::translate("ui::models", text);
}

}  // namespace ui::models
