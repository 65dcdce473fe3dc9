#include "core/base/text_encoding.h"

#include <gtest/gtest.h>

#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

namespace core {
namespace {

using namespace std::string_view_literals;

// "é" is E9 in Windows-1252, 00E9 in UTF-16, C3 A9 in UTF-8; "€" is 80, 20AC, E2 82 AC (WHATWG
// Encoding Standard, index windows-1252; RFC 2781; RFC 3629).
TEST(TextEncodingTest, EncodingsAreRecognised) {
    struct Expected {
        std::string_view bytes;
        TextEncoding encoding;
        std::string_view utf8;
    };
    for (const Expected& expected :
         {Expected{"bl\xC3\xA9,5\n"sv, TextEncoding::Utf8, "bl\u00E9,5\n"},
          Expected{"\xEF\xBB\xBF"
                   "a,b"sv,
                   TextEncoding::Utf8, "a,b"},
          Expected{"bl\xE9,\x80 5\r\n"sv, TextEncoding::Windows1252, "bl\u00E9,\u20AC 5\r\n"},
          Expected{"\xFF\xFE"
                   "b\0\xE9\0"sv,
                   TextEncoding::Utf16LittleEndian, "b\u00E9"},
          Expected{"\xFE\xFF\0b\0\xE9"sv, TextEncoding::Utf16BigEndian, "b\u00E9"},
          Expected{"a\0,\0\xAC\x20\n\0"sv, TextEncoding::Utf16LittleEndian, "a,\u20AC\n"},
          Expected{"\0a\0,\x20\xAC\0\n"sv, TextEncoding::Utf16BigEndian, "a,\u20AC\n"},
          Expected{"\xFF\xFE\x3D\xD8\x00\xDE"sv, TextEncoding::Utf16LittleEndian, "\U0001F600"},
          Expected{""sv, TextEncoding::Utf8, ""}}) {
        const auto text = decodeText(expected.bytes);
        ASSERT_TRUE(text) << text.error().message;
        EXPECT_EQ(text.value().encoding, expected.encoding);
        EXPECT_EQ(text.value().utf8, expected.utf8);
    }
}

// 81 has no letter in Windows-1252; D800 alone is no character in UTF-16; a zip archive, which
// workbooks are, begins with PK 03 04.
TEST(TextEncodingTest, WhatIsNoTextIsRefused) {
    for (const std::string_view bad :
         {"bl\xE9 \x81"sv,
          "\xFF\xFE\x00\xD8"
          "a\0"sv,
          "\xFF\xFE"
          "a"sv,
          "\xEF\xBB\xBF\xC3"sv, "PK\x03\x04 a"sv, "PK\x03\x04\0\0\0\xE9"sv}) {
        const auto text = decodeText(bad);
        ASSERT_FALSE(text) << text.value().utf8;
        EXPECT_EQ(text.error().code, ErrorCode::InvalidInput);
        EXPECT_NE(text.error().message.find("CSV"), std::string::npos);
    }
}

// Each file of tests/data/tallies read by iconv, and by us.
TEST(TextEncodingTest, FilesReadAsIconvReadsThem) {
    struct Given {
        const char* file;
        const char* encoding;
    };
    for (const Given& given : {Given{"shots_windows1252_semicolon.csv", "WINDOWS-1252"},
                               Given{"cells_utf16le_semicolon.csv", "UTF-16LE"},
                               Given{"cells_utf16le_mark_tab.txt", "UTF-16"},
                               Given{"blocks_numbered_utf16be.txt", "UTF-16BE"},
                               Given{"blocks_two_headers_utf16be_mark.txt", "UTF-16"},
                               Given{"blocks_unnamed_utf8.txt", "UTF-8"}}) {
        const auto file = tests::dataFolder() / "tallies" / given.file;
        const auto iconv =
            tests::runProgram({"iconv", "-f", given.encoding, "-t", "UTF-8", file.string()});
        ASSERT_EQ(iconv.status, 0) << iconv.errors;
        EXPECT_EQ(decodeText(tests::bytesOf(file)).value().utf8, iconv.output) << given.file;
    }
}

// RFC 3629, section 3 and 4: overlong forms, surrogates, what lies beyond U+10FFFF, cut characters.
TEST(TextEncodingTest, ValidUtf8IsToldFromOtherBytes) {
    EXPECT_TRUE(isUtf8Text("Schl\u00E4ger, \u7DB2\u7403, \xF4\x8F\xBF\xBF"));
    for (const std::string_view bad : {"\xC0\x80"sv, "\xE0\x80\xAF"sv, "\xED\xA0\x80"sv,
                                       "\xF4\x90\x80\x80"sv, "Schl\xE4ger"sv, "ab\xC3"sv, "\0"sv}) {
        EXPECT_FALSE(isUtf8Text(bad));
    }
}

}  // namespace
}  // namespace core
