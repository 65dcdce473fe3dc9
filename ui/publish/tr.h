#pragma once

#include <QCoreApplication>
#include <QString>
#include <string_view>

#include "core/base/words.h"

namespace ui::publish {

/// Words of this screen that stand outside of a class with words of its own.
inline QString tr(const char* text) {
    return QCoreApplication::translate("ui::publish", text);
}

inline QString counted(std::size_t number, std::string_view one, std::string_view more) {
    return QString::fromStdString(core::counted(number, one, more));
}

}  // namespace ui::publish
