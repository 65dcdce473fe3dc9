#include <algorithm>
#include <array>
#include <sstream>

#include "core/base/alike.h"
#include "core/guide/guide.h"

namespace core::guide {
namespace {

struct SearchedSection {
    std::string heading;
    std::vector<std::string> lines;
};

constexpr std::array<std::pair<const char*, const char*>, 4> kWithoutUmlaut{
    {{"ä", "a"}, {"ö", "o"}, {"ü", "u"}, {"ß", "ss"}}};

/// For comparing: small letters, without the umlauts that tell a plural from its singular.
std::vector<std::string> comparedWords(const std::string& text) {
    std::vector<std::string> words;
    std::istringstream stream{text};
    for (std::string word; stream >> word;) {
        std::string compared = alikeKey(word);
        for (const auto& [letter, without] : kWithoutUmlaut) {
            for (auto at = compared.find(letter); at != std::string::npos;
                 at = compared.find(letter)) {
                compared.replace(at, std::string_view{letter}.size(), without);
            }
        }
        words.push_back(compared);
    }
    return words;
}

/// "[How to film](how-to-film.md)" becomes "How to film"; stars, back quotes and bars of tables go.
std::string withoutMarks(const std::string& line) {
    std::string text;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == ']' && i + 1 < line.size() && line[i + 1] == '(') {
            i = std::min(line.find(')', i), line.size() - 1);
        } else if (std::string_view{"*`[]>#!"}.find(line[i]) == std::string_view::npos) {
            text += line[i] == '|' ? ' ' : line[i];
        }
    }
    const auto first = text.find_first_not_of(" -");
    return first == std::string::npos ? std::string{} : text.substr(first);
}

std::vector<SearchedSection> sectionsOf(const Page& page) {
    std::vector<SearchedSection> sections(1);
    std::istringstream lines{page.markdown};
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("## ")) {
            sections.push_back({line.substr(3), {}});
        } else if (const std::string plain = withoutMarks(line); !plain.empty()) {
            sections.back().lines.push_back(plain);
        }
    }
    return sections;
}

/// words: compared ones, each a word of the text or a part of it.
bool holdsAll(const std::string& text, const std::vector<std::string>& words) {
    const auto there = comparedWords(text);
    return std::ranges::all_of(words, [&there](const std::string& word) {
        return std::ranges::any_of(there, [&word](const std::string& each) {
            return each.find(word) != std::string::npos;
        });
    });
}

/// The first line with all words, else the first one with one of them.
std::string bestLine(const SearchedSection& section, const std::vector<std::string>& words) {
    for (const std::string& line : section.lines) {
        if (holdsAll(line, words)) {
            return line;
        }
    }
    for (const std::string& line : section.lines) {
        for (const std::string& word : words) {
            if (holdsAll(line, {word})) {
                return line;
            }
        }
    }
    return section.lines.empty() ? std::string{} : section.lines.front();
}

}  // namespace

std::vector<Hit> search(std::string_view text) {
    const auto words = comparedWords(std::string{text});
    std::vector<Hit> hits;
    if (words.empty()) {
        return hits;
    }
    std::size_t inHeadings = 0;
    for (const Page& page : pages()) {
        for (const SearchedSection& section : sectionsOf(page)) {
            const std::string& heading = section.heading.empty() ? page.title : section.heading;
            std::string all = heading;
            for (const std::string& line : section.lines) {
                all += ' ' + line;
            }
            if (!holdsAll(all, words)) {
                continue;
            }
            const bool isInHeading = holdsAll(heading, words);
            const auto place =
                isInHeading ? hits.begin() + static_cast<std::ptrdiff_t>(inHeadings) : hits.end();
            hits.insert(place, {&page, section.heading, bestLine(section, words)});
            inHeadings += isInHeading ? 1U : 0U;
        }
    }
    return hits;
}

}  // namespace core::guide
