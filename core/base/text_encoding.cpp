#include "core/base/text_encoding.h"

#include <iconv.h>

#include <algorithm>
#include <array>
#include <memory>
#include <optional>

#include "core/base/words.h"

namespace core {
namespace {

constexpr std::size_t kMostUtf8PerByte = 3;  // of a letter that Windows-1252 has in one byte

struct ByteOrderMark {
    std::string_view bytes;
    TextEncoding encoding;
};
constexpr std::array kByteOrderMarks{
    ByteOrderMark{"\xEF\xBB\xBF", TextEncoding::Utf8},
    ByteOrderMark{"\xFF\xFE", TextEncoding::Utf16LittleEndian},
    ByteOrderMark{"\xFE\xFF", TextEncoding::Utf16BigEndian},
};

/// Bytes that follow the first byte of a character; 0 for ASCII, -1 for no first byte.
int followers(unsigned char first) {
    if (first < 0x80U) {
        return 0;
    }
    if (first >= 0xC2U && first <= 0xDFU) {
        return 1;
    }
    if (first >= 0xE0U && first <= 0xEFU) {
        return 2;
    }
    return first >= 0xF0U && first <= 0xF4U ? 3 : -1;
}

/// RFC 3629, section 4: the second byte is limited after E0 (overlong), ED (surrogates), F0
/// (overlong) and F4 (beyond U+10FFFF).
bool isSecondByte(unsigned char first, unsigned char second) {
    switch (first) {
        case 0xE0U:
            return second >= 0xA0U && second <= 0xBFU;
        case 0xEDU:
            return second >= 0x80U && second <= 0x9FU;
        case 0xF0U:
            return second >= 0x90U && second <= 0xBFU;
        case 0xF4U:
            return second >= 0x80U && second <= 0x8FU;
        default:
            return second >= 0x80U && second <= 0xBFU;
    }
}

/// Absent without zero bytes.
std::optional<TextEncoding> utf16ByZeroBytes(std::string_view bytes) {
    std::array<std::size_t, 2> zeros{};  // at even places and at odd ones
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        zeros.at(i % 2) += bytes[i] == '\0' ? 1U : 0U;
    }
    if (zeros[0] == zeros[1]) {
        return std::nullopt;
    }
    return zeros[0] > zeros[1] ? TextEncoding::Utf16BigEndian : TextEncoding::Utf16LittleEndian;
}

const char* iconvName(TextEncoding encoding) {
    switch (encoding) {
        case TextEncoding::Utf16LittleEndian:
            return "UTF-16LE";
        case TextEncoding::Utf16BigEndian:
            return "UTF-16BE";
        case TextEncoding::Windows1252:
            return "WINDOWS-1252";
        case TextEncoding::Utf8:
            break;
    }
    return "UTF-8";
}

/// Absent for bytes that are not valid in the encoding.
std::optional<std::string> converted(std::string_view bytes, TextEncoding encoding) {
    struct Close {
        void operator()(void* converter) const { iconv_close(converter); }
    };
    const auto opened = iconv_open("UTF-8", iconvName(encoding));
    if (opened == reinterpret_cast<iconv_t>(-1)) {  // NOLINT(performance-no-int-to-ptr): POSIX
        return std::nullopt;
    }
    const std::unique_ptr<void, Close> converter{opened};
    std::string from{bytes};  // iconv() wants them writable
    char* next = from.data();
    std::size_t left = from.size();
    std::string text(kMostUtf8PerByte * from.size(), '\0');
    char* to = text.data();
    std::size_t room = text.size();
    if (iconv(converter.get(), &next, &left, &to, &room) == std::size_t(-1)) {
        return std::nullopt;
    }
    text.resize(text.size() - room);
    return text;
}

bool isControl(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte == 0x7FU || (byte < 0x20U && (byte < 0x09U || byte > 0x0DU));
}

auto noText(const std::string& why) {
    return fail(
        ErrorCode::InvalidInput,
        said("This is not a table of text: {}. Save it from the spreadsheet as CSV in UTF-8.",
             why));
}

}  // namespace

std::string_view encodingName(TextEncoding encoding) noexcept {
    switch (encoding) {
        case TextEncoding::Utf16LittleEndian:
            return "UTF-16 (little-endian)";
        case TextEncoding::Utf16BigEndian:
            return "UTF-16 (big-endian)";
        case TextEncoding::Windows1252:
            return "Windows-1252";
        case TextEncoding::Utf8:
            break;
    }
    return "UTF-8";
}

Result<DecodedText> decodeText(std::string_view bytes) {
    std::optional<TextEncoding> encoding;
    for (const ByteOrderMark& mark : kByteOrderMarks) {
        if (!encoding && bytes.starts_with(mark.bytes)) {
            bytes.remove_prefix(mark.bytes.size());
            encoding = mark.encoding;
        }
    }
    if (!encoding && isUtf8Text(bytes)) {
        encoding = TextEncoding::Utf8;
    }
    if (!encoding) {
        encoding = utf16ByZeroBytes(bytes).value_or(TextEncoding::Windows1252);
    }
    auto text = *encoding == TextEncoding::Utf8
                    ? (isUtf8Text(bytes) ? std::optional{std::string{bytes}} : std::nullopt)
                    : converted(bytes, *encoding);
    if (!text) {
        return noText(said("its bytes are not valid {}", encodingName(*encoding)));
    }
    if (std::any_of(text->begin(), text->end(), isControl)) {
        return noText(said("it holds control characters, as a workbook does"));
    }
    return DecodedText{std::move(*text), *encoding};
}

bool isUtf8Text(std::string_view text) noexcept {
    for (std::size_t i = 0; i < text.size();) {
        const auto first = static_cast<unsigned char>(text[i]);
        const int count = followers(first);
        if (first == 0 || count < 0 || i + static_cast<std::size_t>(count) >= text.size()) {
            return false;
        }
        for (std::size_t k = 1; k <= static_cast<std::size_t>(count); ++k) {
            const auto byte = static_cast<unsigned char>(text[i + k]);
            if (k == 1 ? !isSecondByte(first, byte) : (byte & 0xC0U) != 0x80U) {
                return false;
            }
        }
        i += static_cast<std::size_t>(count) + 1;
    }
    return true;
}

}  // namespace core
