#include "core/base/alike.h"

#include <array>
#include <climits>
#include <cwchar>
#include <cwctype>

#include "core/base/neutral_locale.h"

namespace core {
namespace {

/// No-break spaces are no white space to the C library.
bool isSpace(wchar_t letter) {
    return std::iswspace(static_cast<std::wint_t>(letter)) != 0 || letter == L'\u00A0' ||
           letter == L'\u2007' || letter == L'\u202F';
}

}  // namespace

std::string alikeKey(std::string_view name) {
    const NeutralLocale neutral;
    std::mbstate_t from{};
    std::mbstate_t to{};
    std::string key;
    while (!name.empty()) {
        wchar_t letter{};
        const std::size_t size = std::mbrtowc(&letter, name.data(), name.size(), &from);
        if (size == 0 || size > name.size()) {  // no character of UTF-8: as it is
            return key.append(name);
        }
        name.remove_prefix(size);
        if (isSpace(letter)) {
            continue;
        }
        const auto low = std::towlower(static_cast<std::wint_t>(letter));
        std::array<char, MB_LEN_MAX> bytes{};
        const std::size_t written = std::wcrtomb(bytes.data(), static_cast<wchar_t>(low), &to);
        key.append(bytes.data(), written <= bytes.size() ? written : 0);
    }
    return key;
}

}  // namespace core
