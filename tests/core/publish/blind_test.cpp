#include "core/publish/blind.h"

#include <gtest/gtest.h>

#include "tests/core/publish/invented_project.h"

namespace core::publish {
namespace {

TEST(NameReplacer, FindsWholeWordsOnly) {
    const NameReplacer replacer{{{"Ann", "H1"}}};
    EXPECT_EQ(replacer.in("Ann, ANN and Annabel; Joann"), "H1, H1 and Annabel; Joann");
    EXPECT_EQ(replacer.in("clips/ann_2.mp4"), "clips/H1_2.mp4");
    EXPECT_EQ(replacer.in("Ann\xC3\xA9 (\xC3\xA9"
                          "Ann)"),
              "Ann\xC3\xA9 (\xC3\xA9"
              "Ann)");
    EXPECT_EQ(replacer.in("\xE2\x80\x9C"
                          "Ann\xE2\x80\x9D"),
              "\xE2\x80\x9CH1\xE2\x80\x9D");
}

TEST(NameReplacer, JoinsOfWordsMayDiffer) {
    const NameReplacer replacer{{{"Ann Lee", "H1"}}};
    EXPECT_EQ(replacer.in("ann_lee-3.mp4, Ann  Lee"), "H1-3.mp4, H1");
}

TEST(NameReplacer, LongerNamesComeFirstAndNothingIsReplacedTwice) {
    const NameReplacer replacer{{{"Ann", "H2"}, {"Ann Lee", "H1"}, {"H1", "H3"}}};
    EXPECT_EQ(replacer.in("Ann Lee and Ann and H1"), "H1 and H2 and H3");
}

TEST(NameReplacer, SingleLetterIsTakenAsItIsWritten) {
    const NameReplacer replacer{{{"A", "H1"}}};
    EXPECT_EQ(replacer.in("a ball of hitter A"), "a ball of hitter H1");
}

TEST(NameReplacer, ArticleAndPronounAreNotTakenForNames) {
    const NameReplacer replacer{{{"A", "H1"}, {"I", "H2"}}};
    EXPECT_EQ(replacer.in("A windy day. A ball was lost"), "A windy day. A ball was lost");
    EXPECT_EQ(replacer.in("I was late; I think so"), "I was late; I think so");
    EXPECT_EQ(replacer.in("A was tired, so filmed A and I."), "H1 was tired, so filmed H1 and H2.");
    EXPECT_EQ(replacer.in("A; Hitter A ball 3; A's day; with A."),
              "H1; Hitter H1 ball 3; H1's day; with H1.");
    EXPECT_EQ(replacer.in("clips/A_3.mp4, day_A.mp4"), "clips/H1_3.mp4, day_H1.mp4");
}

TEST(NameReplacer, NamesAmongGermanWordsAreFound) {
    const NameReplacer replacer{{{"A", "H1"}, {"I", "H2"}}};
    EXPECT_EQ(replacer.in("A war müde; Spieler A schlug zu früh, Film des Spielers I lang."),
              "H1 war müde; Spieler H1 schlug zu früh, Film des Spielers H2 lang.");
}

TEST(NameReplacer, OtherScriptsAndSignsWork) {
    const NameReplacer replacer{{{"\xD7\x93\xD7\xA0\xD7\x94", "H1"}, {"+1+1", "H2"}}};
    EXPECT_EQ(replacer.in("(\xD7\x93\xD7\xA0\xD7\x94) +1+1"), "(H1) H2");
}

TEST(Blinded, NamesAreGoneFromEveryTextOfTheProject) {
    tests::InventedNames names;
    names.note = "nadir was tired";
    names.reason = "Zenith slipped";
    names.reader = "Nadir";
    names.session = "day with Zenith";
    const auto snapshot = tests::inventedSnapshot(names);
    const auto blind = blinded(snapshot);
    EXPECT_EQ(blind->sessions.begin()->note, "H1 was tired");
    EXPECT_EQ(blind->sessions.begin()->name, "day with H2");
    EXPECT_EQ(blind->clips.begin()->path, "day/clip_H1.mp4");
    EXPECT_EQ(blind->hitters.begin()->name, "H1");
    EXPECT_EQ(blind->readings.begin()->reader, "H1");
    for (const auto& shot : blind->shots) {
        EXPECT_EQ(shot.reason.find("Zenith"), std::string::npos);
    }
    EXPECT_EQ(blind->shots.size(), snapshot.shots.size());
}

}  // namespace
}  // namespace core::publish
