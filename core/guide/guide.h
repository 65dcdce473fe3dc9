#pragma once

#include <string>
#include <string_view>
#include <vector>

/// The guide for testers: pages in Markdown (CommonMark, with tables), one source for the window
/// and for the pages that a browser shows. All of it is given in the language that is spoken now
/// (core::words::language()); a page or drawing that this language lacks is the English one.
namespace core::guide {

struct Page {
    std::string name;   ///< of its file, without ending: "first-shot"
    std::string title;  ///< its first heading
    /// The cautions of core/plan stand in their places.
    std::string markdown;
    /// Of its sections ("## …"), in their order: "the-true-capture-rate". Made from the English
    /// headings, so that a link leads to the same section in every language.
    std::vector<std::string> sectionIds;
};

/// In the order of the contents. They stay valid when another language is spoken.
[[nodiscard]] const std::vector<Page>& pages();
/// Null when there is none of that name.
[[nodiscard]] const Page* findPage(std::string_view name);

/// SVG of a drawing, by the name that pages use: "drawings/markings.svg". Lines and words in
/// `currentColor`. Empty when there is none.
[[nodiscard]] std::string_view drawing(std::string_view name);

/// Where the words of a search stand.
struct Hit {
    const Page* page;
    std::string heading;  ///< of the section, empty above the first one
    std::string line;     ///< as it reads, without marks of Markdown
};

/// Sections that hold every word, one hit each; those whose heading holds them all first. Capital
/// and small letters are one, and so are letters with and without umlaut: "schlag" finds "Schläge".
/// Empty without a word.
[[nodiscard]] std::vector<Hit> search(std::string_view words);

}  // namespace core::guide
