#include "core/guide/guide.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <regex>
#include <sstream>

#include "core/guide/page_html.h"
#include "core/guide/write_guide.h"
#include "core/plan/cautions.h"
#include "core/words/doubts.h"
#include "tests/support/in_german.h"
#include "tests/support/process.h"

namespace {

namespace guide = core::guide;
using guide::HtmlFor;

TEST(Guide, EveryPageHasATitleAndAnotherOne) {
    std::set<std::string> titles;
    for (const auto& page : guide::pages()) {
        EXPECT_TRUE(titles.insert(page.title).second) << page.title;
        EXPECT_EQ(page.markdown.substr(0, 2), "# ");
        EXPECT_EQ(page.markdown.find("{{"), std::string::npos) << page.name;
        EXPECT_EQ(guide::findPage(page.name), &page);
    }
    EXPECT_EQ(guide::findPage("nothing"), nullptr);
}

// The cautions stand before the first instruction to film on every page that has one.
TEST(Guide, CautionsComeBeforeTheFirstInstructionToFilm) {
    for (const char* name : {"first-shot", "how-to-film", "one-day", "clips-and-shots"}) {
        const auto* page = guide::findPage(name);
        ASSERT_NE(page, nullptr) << name;
        const auto firstStep = page->markdown.find("\n1. ");
        for (const auto& caution : core::plan::filmingCautions()) {
            const auto at = page->markdown.find(caution);
            EXPECT_LT(at, firstStep) << name << ": " << caution;
            EXPECT_LT(at, page->markdown.find("\n## ")) << name << ": " << caution;
        }
    }
}

TEST(Guide, LinksAndDrawingsLeadSomewhere) {
    const std::regex link{R"(\]\(([^)]*)\))"};
    for (const auto& page : guide::pages()) {
        for (std::sregex_iterator at{page.markdown.begin(), page.markdown.end(), link};
             at != std::sregex_iterator{}; ++at) {
            const std::string to = (*at)[1];
            if (to.ends_with(".svg")) {
                EXPECT_FALSE(guide::drawing(to).empty()) << page.name << ": " << to;
            } else if (to.ends_with(".png")) {
                EXPECT_EQ(guide::picture(to).substr(1, 3), "PNG") << page.name << ": " << to;
            } else {
                ASSERT_TRUE(to.ends_with(".md")) << page.name << ": " << to;
                EXPECT_NE(guide::findPage(to.substr(0, to.size() - 3)), nullptr)
                    << page.name << ": " << to;
            }
        }
    }
}

void expectEveryDoubtExplained() {
    const auto& explained = guide::findPage("doubts")->markdown;
    for (int i = 0; i < core::doubts::kReasonCount; ++i) {
        const auto words = core::words::reasonWords(static_cast<core::doubts::Reason>(i));
        EXPECT_NE(explained.find(fmt::format("\n| {} | ", words)), std::string::npos) << words;
    }
}

TEST(Guide, EveryDoubtIsExplained) {
    expectEveryDoubtExplained();
    const core::InGerman german;
    expectEveryDoubtExplained();
}

TEST(Guide, HtmlForABrowserHoldsItsDrawingsAndLinksToPages) {
    const auto* page = guide::findPage("mark-the-ball");
    ASSERT_NE(page, nullptr);
    const auto html = guide::bodyHtml(*page, HtmlFor::Browser);
    EXPECT_NE(html.find("<h1>How to mark a ball</h1>"), std::string::npos) << html;
    EXPECT_NE(html.find("<h2 id=\"which-marking\">Which marking</h2>"), std::string::npos);
    EXPECT_NE(html.find("<svg role=\"img\" aria-label=\"Four balls"), std::string::npos);
    EXPECT_EQ(html.find("<img"), std::string::npos);
    const auto shot = guide::bodyHtml(*guide::findPage("first-shot"), HtmlFor::Browser);
    EXPECT_NE(shot.find("<a href=\"how-to-film.html\">"), std::string::npos) << shot;
    EXPECT_EQ(shot.find(".md\""), std::string::npos);
}

// The signature of PNG (ISO/IEC 15948, 5.2) in base 64 (RFC 4648).
TEST(Guide, APictureOfTheWindowIsWithinThePage) {
    const auto html = guide::bodyHtml(*guide::findPage("results"), HtmlFor::Browser);
    EXPECT_NE(html.find("src=\"data:image/png;base64,iVBORw0KGgo"), std::string::npos);
    EXPECT_EQ(html.find("pictures/"), std::string::npos);
}

TEST(Guide, HtmlForTheWindowNamesItsDrawings) {
    const auto html = guide::bodyHtml(*guide::findPage("mark-the-ball"), HtmlFor::Window);
    EXPECT_NE(html.find("<img src=\"drawings/markings.svg\""), std::string::npos) << html;
    EXPECT_EQ(html.find("<svg"), std::string::npos);
}

TEST(Guide, SearchFindsSectionsAndPutsHeadingsFirst) {
    const auto hits = guide::search("capture  RATE");
    ASSERT_FALSE(hits.empty());
    EXPECT_NE(hits.front().heading.find("capture rate"), std::string::npos);
    EXPECT_TRUE(guide::search("  ").empty());
    EXPECT_TRUE(guide::search("zebra").empty());
    for (const auto& hit : guide::search("slate cards")) {
        EXPECT_EQ(hit.line.find("**"), std::string::npos) << hit.line;
    }
}

TEST(Guide, PagesAreWrittenAndWrittenAgain) {
    const tests::TemporaryFolder folder;
    const auto written = guide::writeGuide(folder.path(), {});
    ASSERT_TRUE(written) << written.error().message;
    for (const auto& page : guide::pages()) {
        const auto html = tests::bytesOf(folder.path() / (page.name + ".html"));
        EXPECT_NE(html.find("name=\"viewport\""), std::string::npos) << page.name;
        EXPECT_NE(html.find("aria-current=\"page\">" + page.title), std::string::npos);
        for (const char* outside : {"http://", "https://", "<script", "src=\"h", "src=\"p"}) {
            const auto at = html.find(outside);
            EXPECT_TRUE(at == std::string::npos ||
                        html.substr(at).starts_with("http://www.w3.org/2000/svg"))
                << page.name << ": " << outside;
        }
    }
    EXPECT_TRUE(guide::writeGuide(folder.path(), {}));
}

/// How a page is built, without its words: what each line is, and where its links and drawings
/// lead.
std::vector<std::string> structureOf(const std::string& markdown) {
    const std::regex kind{R"(^(#+ |- |[0-9]+\. |> - |> |\||    |!))"};
    const std::regex link{R"(\]\(([^)]*)\))"};
    std::vector<std::string> lines;
    std::istringstream stream{markdown};
    for (std::string line; std::getline(stream, line);) {
        std::smatch found;
        std::string built = std::regex_search(line, found, kind) ? found.str() : "";
        for (std::sregex_iterator at{line.begin(), line.end(), link}; at != std::sregex_iterator{};
             ++at) {
            built += (*at)[1].str() + ' ';
        }
        lines.push_back(built + (line.empty() ? "" : "text"));
    }
    return lines;
}

TEST(GuideInGerman, EveryPageIsThereAndBuiltLikeTheEnglishOne) {
    const auto& english = guide::pages();
    const core::InGerman german;
    ASSERT_EQ(guide::pages().size(), english.size());
    for (std::size_t i = 0; i < english.size(); ++i) {
        const auto& page = guide::pages()[i];
        EXPECT_EQ(page.name, english[i].name);
        EXPECT_NE(page.title, english[i].title);
        EXPECT_EQ(page.sectionIds, english[i].sectionIds) << page.name;
        EXPECT_EQ(structureOf(page.markdown), structureOf(english[i].markdown)) << page.name;
    }
}

TEST(GuideInGerman, DrawingsDifferFromTheEnglishOnesInTheirWordsAlone) {
    const std::regex words{"<(text|title)[^>]*>[^<]*<"};
    for (const char* name : {"markings", "template", "set-up", "return", "intervals"}) {
        const std::string file = fmt::format("drawings/{}.svg", name);
        const std::string english{guide::drawing(file)};
        const core::InGerman german;
        const std::string translated{guide::drawing(file)};
        EXPECT_NE(translated, english) << name;
        EXPECT_EQ(std::regex_replace(translated, words, "<"),
                  std::regex_replace(english, words, "<"))
            << name;
    }
}

TEST(GuideInGerman, ASectionHasTheIdOfTheEnglishOne) {
    const core::InGerman german;
    const auto html = guide::bodyHtml(*guide::findPage("how-to-film"), HtmlFor::Browser);
    EXPECT_NE(html.find("<h2 id=\"the-true-capture-rate\">Die wahre Aufnahmerate</h2>"),
              std::string::npos)
        << html;
}

TEST(GuideInGerman, SearchKnowsCapitalsAndUmlauts) {
    const core::InGerman german;
    const auto hits = guide::search("AUFNAHMERATE wahre");
    ASSERT_FALSE(hits.empty());
    EXPECT_EQ(hits.front().heading, "Die wahre Aufnahmerate");
    for (const char* words : {"Wessen Schläge", "wessen SCHLÄGE", "wessen schlage"}) {
        ASSERT_FALSE(guide::search(words).empty()) << words;
        EXPECT_EQ(guide::search(words).front().heading, "Wessen Schläge es sind") << words;
    }
    EXPECT_TRUE(guide::search("zebra").empty());
}

TEST(GuideInGerman, PagesForABrowserNameTheirLanguage) {
    const core::InGerman german;
    const tests::TemporaryFolder folder;
    ASSERT_TRUE(guide::writeGuide(folder.path(), {}));
    const auto index = tests::bytesOf(folder.path() / "index.html");
    EXPECT_NE(index.find("<html lang=\"de\">"), std::string::npos);
    EXPECT_NE(index.find("<a href=\"first-shot.html\">Der erste Schlag</a>"), std::string::npos);
}

}  // namespace
