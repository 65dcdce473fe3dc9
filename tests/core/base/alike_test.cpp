#include "core/base/alike.h"

#include <gtest/gtest.h>

namespace core {
namespace {

TEST(Alike, CaseAndSpacesMakeNoDifference) {
    for (const char* name : {"Set 3", "set 3 ", "SET  3", "Set3", "set\t3", "Set\u00A03",
                             "Set\u202F3", "Set\u20073"}) {
        EXPECT_EQ(alikeKey(name), alikeKey("set 3")) << name;
    }
    EXPECT_NE(alikeKey("Set 3"), alikeKey("Set 4"));
    EXPECT_NE(alikeKey("Set 3"), alikeKey("Set-3"));
}

// Unicode Character Database, CaseFolding.txt: 00CB folds to 00EB, 0416 to 0436, 03A9 to 03C9.
TEST(Alike, LettersOfEveryLanguageHaveTheirCase) {
    EXPECT_EQ(alikeKey("Zo\u00CB"), alikeKey("zo\u00EB"));
    EXPECT_EQ(alikeKey("\u0416"), alikeKey("\u0436"));
    EXPECT_EQ(alikeKey("\u03A9"), alikeKey("\u03C9"));
    EXPECT_NE(alikeKey("Zoe"), alikeKey("Zo\u00EB"));
    EXPECT_EQ(alikeKey("\u7DB2 \u7403"), alikeKey("\u7DB2\u7403"));
}

TEST(Alike, BytesThatAreNoTextStayApart) {
    EXPECT_NE(alikeKey("a\xFF"), alikeKey("a\xFE"));
    EXPECT_EQ(alikeKey(""), "");
}

}  // namespace
}  // namespace core
