#include <gtest/gtest.h>

#include "core/media/file/sha256.h"
#include "core/publish/drawing/utf8.h"
#include "core/publish/figures/figure.h"
#include "core/publish/page/page.h"

namespace core::publish {
namespace {

// FIPS 180-4 example values published by NIST (Secure Hash Standard, SHA-256 examples): "abc" and
// the empty message.
TEST(Sha256, GivesTheStandardsExamples) {
    EXPECT_EQ(media::sha256("abc"),
              "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(media::sha256(""),
              "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

// RFC 4648, section 10, test vectors.
TEST(Base64, GivesTheVectorsOfRfc4648) {
    EXPECT_EQ(base64(""), "");
    EXPECT_EQ(base64("f"), "Zg==");
    EXPECT_EQ(base64("fo"), "Zm8=");
    EXPECT_EQ(base64("foo"), "Zm9v");
    EXPECT_EQ(base64("foob"), "Zm9vYg==");
    EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
    EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

// RFC 3629, sections 3, 4 and 10: overlong forms, surrogates and cut sequences are not UTF-8.
TEST(Text, BytesThatAreNotUtf8BecomeReplacements) {
    EXPECT_EQ(singleLine("a\xC0\x80"
                         "b"),
              "a\xEF\xBF\xBD\xEF\xBF\xBD"
              "b");
    EXPECT_EQ(lettersOf("\xED\xA0\x80").front(), char32_t{0xFFFD});
    EXPECT_EQ(lettersOf("\xF0\x9F\x8E"), std::u32string{U"\uFFFD"});
    EXPECT_EQ(lettersOf("\xF0\x9F\x8E\xBE"), std::u32string{U"\U0001F3BE"});
}

TEST(Text, EveryLetterComesBack) {
    const std::string text = "aé€\xF0\x9F\x8E\xBE\xD7\x9E";
    std::string back;
    for (const char32_t letter : lettersOf(text)) {
        appendUtf8(back, letter);
    }
    EXPECT_EQ(back, text);
}

// Unicode Standard Annex 9, 2.1 and 2.4: explicit directional controls.
TEST(Text, CodesThatTurnDirectionsAreLeftOut) {
    EXPECT_EQ(singleLine("\xE2\x80\xAE"
                         "abc\xE2\x81\xA6"),
              "abc");
}

TEST(Text, LineEndsBecomeOneSpaceInANameAndStayInANote) {
    EXPECT_EQ(singleLine("a\r\n\tb"), "a b");
    EXPECT_EQ(plainText("a\nb\x01"
                        "c"),
              "a\nb c");
}

// XML 1.0, 2.4 and HTML 13.3: these five cannot stand for themselves in text and attributes.
TEST(Text, FiveLettersAreEscaped) {
    EXPECT_EQ(escaped("<a href=\"x\">'&'"), "&lt;a href=&quot;x&quot;&gt;&#39;&amp;&#39;");
}

TEST(Text, LongNamesAreCutBehindALetter) {
    const std::string cut = cutToWidth(std::string(300, 'x'), 100.0, 10.0);
    EXPECT_LE(roughWidthPt(cut, 10.0), 100.0);
    EXPECT_EQ(cut.substr(cut.size() - 3), "…");
    EXPECT_EQ(cutToWidth("short", 100.0, 10.0), "short");
    EXPECT_NE(lettersOf(cutToWidth("\xF0\x9F\x8E\xBE\xF0\x9F\x8E\xBE\xF0\x9F\x8E\xBE", 30.0, 10.0))
                  .front(),
              char32_t{0xFFFD});
}

}  // namespace
}  // namespace core::publish
