#include "tests/support/comma_locale.h"

#include <clocale>
#include <cstdlib>
#include <stdexcept>
#include <string_view>

namespace tests {

CommaLocale::CommaLocale() {
    const auto made =
        runProgram({"localedef", "-i", "de_DE", "-f", "UTF-8", m_folder.file("de_DE.UTF-8")});
    setenv("LOCPATH", m_folder.path().c_str(), 1);
    const bool isSet = std::setlocale(LC_ALL, "de_DE.UTF-8") != nullptr;
    unsetenv("LOCPATH");
    if (!isSet || std::string_view{std::localeconv()->decimal_point} != ",") {
        throw std::runtime_error{"No locale with a decimal comma: " + made.errors};
    }
}

CommaLocale::~CommaLocale() {
    std::setlocale(LC_ALL, "C");
}

}  // namespace tests
