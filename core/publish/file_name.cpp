#include "core/publish/file_name.h"

#include <array>
#include <cstddef>

namespace core::publish {
namespace {

constexpr std::size_t kMaxNameLength = 60;

/// Names that Windows reserves for devices, with any extension (Microsoft, "Naming Files, Paths,
/// and Namespaces").
bool isDeviceName(std::string_view name) {
    constexpr std::array<std::string_view, 4> kPlain{"con", "prn", "aux", "nul"};
    for (const auto reserved : kPlain) {
        if (name == reserved) {
            return true;
        }
    }
    return name.size() == 4 && (name.substr(0, 3) == "com" || name.substr(0, 3) == "lpt");
}

std::string plainName(std::string_view text) {
    std::string name;
    for (char c : text) {
        if (c >= 'A' && c <= 'Z') {
            c = static_cast<char>(c - 'A' + 'a');
        }
        const bool isKept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (isKept) {
            name += c;
        } else if (!name.empty() && name.back() != '-') {
            name += '-';
        }
        if (name.size() == kMaxNameLength) {
            break;
        }
    }
    while (!name.empty() && name.back() == '-') {
        name.pop_back();
    }
    if (name.empty()) {
        return "unnamed";
    }
    return isDeviceName(name) ? name + "-" : name;
}

}  // namespace

std::string FileNames::nameFor(std::string_view text) {
    const std::string plain = plainName(text);
    std::string name = plain;
    for (int number = 2; !m_taken.insert(name).second; ++number) {
        name = plain + "-" + std::to_string(number);
    }
    return name;
}

}  // namespace core::publish
