#pragma once

#include <QWidget>
#include <stdexcept>
#include <string>

namespace tests {

/// The widget of that object name below another one; throws when there is none.
template <class Widget>
[[nodiscard]] Widget& namedWidget(const QWidget& parent, const char* name) {
    auto* found = parent.findChild<Widget*>(QLatin1String{name});
    if (found == nullptr) {
        throw std::runtime_error(std::string{"no widget named "} + name);
    }
    return *found;
}

}  // namespace tests
