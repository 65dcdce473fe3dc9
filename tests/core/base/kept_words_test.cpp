#include "core/base/kept_words.h"

#include <gtest/gtest.h>

#include "core/base/words.h"
#include "tests/support/in_german.h"

namespace core {
namespace {

TEST(KeptWords, AreEnglishWhateverThePersonSpeaks) {
    const InGerman german;
    EXPECT_EQ(toKeep("Set aside {}: {:s}.", "shot 3 of clip b.mp4", "mishit"),
              "Set aside shot 3 of clip b.mp4: mishit.");
    EXPECT_EQ(countToKeep(1, "shot", "shots"), "1 shot");
    EXPECT_EQ(countToKeep(12, "shot", "shots"), "12 shots");
}

TEST(KeptWords, AreShownAsTheyAreInEnglish) {
    for (const char* kept : {"Set aside shot 3 of clip b.mp4: mishit.", "no such words", ""}) {
        EXPECT_EQ(saidKept(kept), kept);
    }
}

TEST(KeptWords, AreSaidWithTheirPartsCountsAndNumbers) {
    const InGerman german;
    EXPECT_EQ(saidKept("Created the project."), "Projekt angelegt.");
    EXPECT_EQ(saidKept("Kept 1490.3 rpm (1467.2 to 1514.0) for shot 3 of clip b.mp4."),
              "1490,3 U/min (1467,2 bis 1514,0) behalten für Schlag 3 von Clip b.mp4.");
    EXPECT_EQ(saidKept("Marked shot 3 of clip b.mp4: start at frame 12; return at frame 17 "
                       "(1 turn) added."),
              "Schlag 3 von Clip b.mp4 markiert: Start bei Bild 12; Wiederkehr bei Bild 17 "
              "(1 Umdrehung) hinzugefügt.");
    EXPECT_EQ(saidKept("Undid: Undid: Kept readings for 12 shots of 3 clips."),
              "Rückgängig gemacht: Rückgängig gemacht: Ablesungen behalten für 12 Schläge von 3 "
              "Clips.");
}

// A sentence of another module is in English while it is said to be kept, and said as well.
TEST(KeptWords, OthersSpeakEnglishToBeKept) {
    const InGerman german;
    const auto sentence = [] {
        return said("Captured at {:.6g} frames per second, and the set-up of the day says {:.6g}.",
                    29.97, 240.0);
    };
    std::string kept;
    {
        const KeptSpeech speech;
        kept = sentence();
        EXPECT_EQ(words::language(), "en");
        EXPECT_EQ(words::decimal("29.97"), "29.97");
    }
    EXPECT_EQ(kept, "Captured at 29.97 frames per second, and the set-up of the day says 240.");
    EXPECT_EQ(words::language(), "de");
    EXPECT_EQ(saidKept(kept), sentence());
}

// What somebody wrote is nobody's to translate, also where it reads like words of ours.
TEST(KeptWords, LeaveSomebodysOwnWordsAlone) {
    const InGerman german;
    EXPECT_EQ(saidKept("Set aside shot 3 of clip b.mp4: 2 shots added."),
              "Schlag 3 von Clip b.mp4 zurückgestellt: 2 shots added.");
    EXPECT_EQ(saidKept("Noted of shot 3 of clip b.mp4: 1.5 turns; look {again}"),
              "Notiz zu Schlag 3 von Clip b.mp4: 1.5 turns; look {again}");
    EXPECT_EQ(saidKept("Assigned 3 shots to gut 24 kg, hitter hitter A."),
              "3 Schläge zugeordnet: gut 24 kg, Spieler hitter A.");
    EXPECT_EQ(saidKept("A sentence of another program, with 2 shots."),
              "A sentence of another program, with 2 shots.");
}

}  // namespace
}  // namespace core
