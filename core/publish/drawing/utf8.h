#pragma once

#include <string>
#include <string_view>

/// Text from people, made safe to set and to write.
namespace core::publish {

/// The letters (code points) of a text; bytes that are not UTF-8 (RFC 3629) become U+FFFD.
[[nodiscard]] std::u32string lettersOf(std::string_view text);
void appendUtf8(std::string& text, char32_t letter);

/// Valid UTF-8 without control characters: each run of them, line ends and tabs included, becomes
/// one space. Codes that turn the direction of the text around them (U+202A to U+202E, U+2066 to
/// U+2069) are left out, so that a name cannot reorder what stands beside it.
[[nodiscard]] std::string singleLine(std::string_view text);

/// The same with line ends kept, for notes.
[[nodiscard]] std::string plainText(std::string_view text);

/// For element content and quoted attributes of HTML and XML: plainText() with & < > " ' escaped.
/// Letters that XML 1.0 does not allow (U+FFFE, U+FFFF) become U+FFFD.
[[nodiscard]] std::string escaped(std::string_view text);

}  // namespace core::publish
