#include <gtest/gtest.h>

#include <set>

#include "tests/core/publish/published_folder.h"
#include "tests/support/in_german.h"

namespace core::publish {
namespace {

class PublishedInGerman : public tests::PublishedFolder {
protected:
    void SetUp() override {
        publishInto("english", tests::inventedMaterial({}));
        const InGerman german;
        publishInto("german", tests::inventedMaterial({}));
    }
    [[nodiscard]] std::string bytes(const std::string& file) const {
        return tests::bytesOf(folder.path() / file);
    }
    [[nodiscard]] std::set<std::string> namesIn(const std::string& out) const {
        std::set<std::string> names;
        for (const auto& entry :
             std::filesystem::recursive_directory_iterator{folder.path() / out}) {
            names.insert(
                std::filesystem::relative(entry.path(), folder.path() / out).generic_string());
        }
        return names;
    }
};

TEST_F(PublishedInGerman, PageAndPdfSpeakGerman) {
    const std::string page = bytes("german/index.html");
    for (const char* part :
         {"<html lang=\"de\">", "Was gefunden wurde", "95-%-Intervall, U/min", "Mittel, U/min",
          "Ein geschlagener Ball verletzt", "Veröffentlicht am 2026-05-18.", "Stand 57",
          "Die Tabelle beschreibt die Exemplare", "Wie gemessen wurde", "Drehzahl, U/min"}) {
        EXPECT_NE(page.find(part), std::string::npos) << part;
    }
    for (const char* part : {"What was found", "mean, rpm", "Highest mean", "A struck ball"}) {
        EXPECT_EQ(page.find(part), std::string::npos) << part;
    }
    EXPECT_NE(bytes("english/index.html").find("<html lang=\"en\">"), std::string::npos);
    if (tests::hasProgram("pdftotext")) {
        const auto text = tests::runProgram({"pdftotext", folder.file("german/findings.pdf"), "-"});
        EXPECT_NE(text.output.find("Wie gemessen wurde"), std::string::npos);
        EXPECT_EQ(text.output.find("U/\n"), std::string::npos) << "a unit breaks";
    }
}

// Scripts and spreadsheets read the tables whatever the language of the page.
TEST_F(PublishedInGerman, FilesAndTheirNumbersAreTheSame) {
    EXPECT_EQ(namesIn("german"), namesIn("english"));
    for (const char* file : {"ranking.csv", "pairs.csv", "summary.csv", "readings.csv", "shots.csv",
                             "hitters.csv", "days.csv", "implements.csv", "about.csv",
                             "shared_parts.csv", "cell_parts.csv", "recompute.py", "recompute.R"}) {
        EXPECT_FALSE(bytes(std::string{"german/"} + file).empty()) << file;
        EXPECT_EQ(bytes(std::string{"german/"} + file), bytes(std::string{"english/"} + file))
            << file;
    }
    const auto done =
        tests::runProgram({"python3", folder.file("german/recompute.py"), folder.file("german")});
    EXPECT_EQ(done.status, 0) << done.output << done.errors;
}

}  // namespace
}  // namespace core::publish
