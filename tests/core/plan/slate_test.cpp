#include "core/plan/slate.h"

#include <gtest/gtest.h>

#include "core/plan/qr_code.h"
#include "tests/core/plan/plans.h"

namespace core::plan {
namespace {

const SlateCard kCard{"Bench day", "Naturdarm 23 kg: weiß 100 %", "new", "Zoë"};

ErrorCode slateTrouble(std::string_view text) {
    const auto card = slateFromText(text);
    EXPECT_FALSE(card);
    return card ? ErrorCode::Busy : card.error().code;
}

TEST(Slate, WordsArePlain) {
    EXPECT_EQ(slateText(kCard),
              "Turnmark slate 1\nsession: Bench day\nimplement: Naturdarm 23 kg: weiß 100 "
              "%\ncondition: new\nhitter: Zoë\n");
    EXPECT_EQ(slateText({"", "a\n b", "", "c"}), "Turnmark slate 1\nimplement: a b\nhitter: c\n");
}

TEST(Slate, ComesBackFromItsWords) {
    for (const SlateCard& card : {kCard, SlateCard{"", "a", "", "b"}}) {
        const auto again = slateFromText(slateText(card));
        ASSERT_TRUE(again) << again.error().message;
        EXPECT_EQ(again.value(), card);
    }
}

TEST(Slate, LinesThatAreNotKnownArePassedOver) {
    const auto card =
        slateFromText("Turnmark slate 1\r\nlane: 4\r\nhitter: A\r\nno colon\r\nimplement: b\r\n");
    ASSERT_TRUE(card) << card.error().message;
    EXPECT_EQ(card.value(), (SlateCard{"", "b", "", "A"}));
}

TEST(Slate, OtherCodesAreForeign) {
    EXPECT_EQ(slateTrouble("https://example.org"), ErrorCode::ForeignFile);
    EXPECT_EQ(slateTrouble(""), ErrorCode::ForeignFile);
    EXPECT_EQ(slateTrouble("Turnmark slate x\n"), ErrorCode::ForeignFile);
    EXPECT_EQ(slateTrouble("Turnmark slate 2\nimplement: a\nhitter: b\n"), ErrorCode::NewerVersion);
    EXPECT_EQ(slateTrouble("Turnmark slate 1\nimplement: a\n"), ErrorCode::InvalidInput);
    EXPECT_EQ(slateTrouble("Turnmark slate 1\nimplement: \xFF\nhitter: b\n"),
              ErrorCode::InvalidInput);
}

TEST(Slate, ThereIsACardForEveryCell) {
    const auto cards = slateCards(tests::plan::planOf(3, 2));
    ASSERT_EQ(cards.size(), 6U);
    EXPECT_EQ(cards[4], (SlateCard{"Bench day", "face 2", "new", "B"}));
}

// ISO/IEC 18004: a code of version v has 17 + 4v modules on a side; version 1 holds 14 bytes at
// level M, version 6 holds 106, version 7 holds 122.
TEST(QrCodeTest, SizeFollowsFromTheLength) {
    EXPECT_EQ(qrCodeOf(std::string(14, 'x')).value().size, 21);
    EXPECT_EQ(qrCodeOf(std::string(106, 'x')).value().size, 41);
    EXPECT_EQ(qrCodeOf(std::string(107, 'x')).value().size, 45);
    EXPECT_EQ(qrCodeOf(std::string(2331, 'x')).value().size, 177);
    EXPECT_EQ(qrCodeOf(std::string(2332, 'x')).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(qrCodeOf("").error().code, ErrorCode::InvalidInput);
}

// ISO/IEC 18004: the finder patterns, 7 x 7 with a light ring, in three corners and not the fourth.
TEST(QrCodeTest, ThreeCornersHoldFinders) {
    const auto code = qrCodeOf(slateText(kCard)).value();
    ASSERT_EQ(code.dark.size(), static_cast<std::size_t>(code.size * code.size));
    for (const auto& [top, left] :
         {std::pair{0, 0}, std::pair{0, code.size - 7}, std::pair{code.size - 7, 0}}) {
        for (int i = 0; i < 7; ++i) {
            EXPECT_TRUE(code.isDark(top, left + i) && code.isDark(top + 6, left + i));
            EXPECT_EQ(code.isDark(top + 1, left + i), i == 0 || i == 6);
        }
        EXPECT_TRUE(code.isDark(top + 3, left + 3));
    }
}

}  // namespace
}  // namespace core::plan
