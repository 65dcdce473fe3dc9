#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

/// Text files as spreadsheets write them, in whatever encoding.
namespace core {

enum class TextEncoding { Utf8, Utf16LittleEndian, Utf16BigEndian, Windows1252 };

/// "UTF-8", "UTF-16 (little-endian)", "UTF-16 (big-endian)", "Windows-1252".
[[nodiscard]] std::string_view encodingName(TextEncoding encoding) noexcept;

/// A text and the encoding that it was read in.
struct DecodedText {
    std::string utf8;  ///< without a byte order mark
    TextEncoding encoding{TextEncoding::Utf8};
};

/// Recognises the encoding of a text, in this order:
///   1. by its byte order mark: EF BB BF is UTF-8, FF FE and FE FF are UTF-16 (RFC 3629, section 6;
///      RFC 2781, section 3.2);
///   2. what is valid UTF-8 is UTF-8: text in another encoding hardly ever is by chance (RFC 3629,
///      section 1);
///   3. where bytes are zero it is UTF-16: letters, separators and line ends of ASCII have a zero
///      byte there, behind them in little-endian and before them in big-endian;
///   4. all else is Windows-1252, which gives nearly every byte a letter (WHATWG Encoding Standard,
///      index windows-1252; the five bytes without a letter are refused). Another eight-bit
///      encoding cannot be told from it: whoever shows the text says how it was read.
///
/// Errors: InvalidInput for text that is not valid in its encoding, and for control characters
/// other than tabs and line ends: a workbook or another file that is no text.
Result<DecodedText> decodeText(std::string_view bytes);

/// True for UTF-8 (RFC 3629) without a NUL character.
[[nodiscard]] bool isUtf8Text(std::string_view text) noexcept;

}  // namespace core
