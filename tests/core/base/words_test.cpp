#include "core/base/words.h"

#include <gtest/gtest.h>

#include <cstdlib>

#include "tests/support/in_german.h"

namespace core {
namespace {

TEST(Words, ACountAgreesWithItsNoun) {
    EXPECT_EQ(counted(0, "shot", "shots"), "0 shots");
    EXPECT_EQ(counted(1, "shot", "shots"), "1 shot");
    EXPECT_EQ(counted(12U, "shot", "shots"), "12 shots");
    EXPECT_EQ(counted(2, "pass", "passes"), "2 passes");
    const InGerman german;
    EXPECT_EQ(counted(1, "shot", "shots"), "1 Schlag");
    EXPECT_EQ(counted(2, "shot", "shots"), "2 Schläge");
}

TEST(Words, WhatNoCatalogueHasIsSaidInEnglish) {
    const InGerman german;
    EXPECT_EQ(said("{} of {} without a translation", 1, 2), "1 of 2 without a translation");
    EXPECT_EQ(saidOf(2, "{} such", "{} suches", 2), "2 suches");
    EXPECT_EQ(saidText("No such words"), "No such words");
}

TEST(Words, EnglishIsSaidWhereTheLanguageIsNotCarried) {
    EXPECT_EQ(words::speak("xx_XX"), "en");
    EXPECT_EQ(words::language(), "en");
    EXPECT_EQ(words::decimal("1.5"), "1.5");
    EXPECT_EQ(said("{:.1f} rpm and {{}}", 2.5), "2.5 rpm and {}");
}

TEST(Words, GermanHasADecimalComma) {
    const InGerman german;
    EXPECT_EQ(words::language(), "de");
    EXPECT_EQ(words::decimalSign(), ',');
    EXPECT_EQ(words::decimal("-1234.5"), "-1234,5");
    EXPECT_EQ(words::filled("{:.1f} of {}", "{1}: {0:.1Lf}", fmt::make_format_args(1234.5, "all")),
              "all: 1234,5");
    // A translation that is damaged is not used.
    EXPECT_EQ(words::filled("{} rpm", "{0} {", fmt::make_format_args(5)), "5 rpm");
}

// The order of POSIX.1-2017, XBD 8.2, and GNU gettext's manual, "Locale Environment Variables".
TEST(Words, TheEnvironmentNamesTheLanguage) {
    struct Case {
        const char *language, *all, *messages, *lang, *expected;
    };
    for (const Case& each :
         {Case{"", "", "", "de_DE.UTF-8", "de"}, Case{"", "", "de_CH", "en_GB.UTF-8", "de"},
          Case{"", "en_US.UTF-8", "de_CH", "de_DE", "en"},
          Case{"de:fr", "", "", "en_GB.UTF-8", "de"}, Case{"de", "C.UTF-8", "", "de_DE", "en"},
          Case{"de", "", "", "", "en"}, Case{"", "", "", "POSIX", "en"}}) {
        setenv("LANGUAGE", each.language, 1);
        setenv("LC_ALL", each.all, 1);
        setenv("LC_MESSAGES", each.messages, 1);
        setenv("LANG", each.lang, 1);
        EXPECT_EQ(words::ofEnvironment(), each.expected) << each.language << ' ' << each.lang;
    }
    for (const char* name : {"LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"}) {
        unsetenv(name);
    }
}

}  // namespace
}  // namespace core
