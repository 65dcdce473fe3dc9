#include <algorithm>
#include <sstream>

#include "core/guide/guide.h"

namespace core::guide {
namespace {

struct SearchedSection {
    std::string heading;
    std::vector<std::string> lines;
};

std::string lowered(std::string_view text) {
    std::string lower{text};
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return lower;
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

bool holdsAll(const std::string& text, const std::vector<std::string>& words) {
    const std::string lower = lowered(text);
    return std::all_of(words.begin(), words.end(), [&lower](const std::string& word) {
        return lower.find(word) != std::string::npos;
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
    std::vector<std::string> words;
    std::istringstream stream{lowered(text)};
    for (std::string word; stream >> word;) {
        words.push_back(word);
    }
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
