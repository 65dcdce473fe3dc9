#include "core/base/kept_words.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <cstring>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "core/base/catalogues.h"
#include "core/base/words.h"

namespace core {
namespace {

/// Kept words have this context in the catalogue.
constexpr std::string_view kContext{"kept\x04", 5};
/// Of words that are not made to be kept: what has fewer between its values could be anybody's.
constexpr std::size_t kFewestLetters = 15;

/// A text with places for values, taken apart.
struct Parts {
    std::vector<std::string> between{{}};  ///< one more than places
    std::vector<std::size_t> values;       ///< which value stands in each place
    std::vector<bool> isVerbatim;          ///< {:s}
};

/// Reads what fmt reads: {}, {1}, {0:.1f}, {{ and }}.
Parts partsOf(std::string_view text) {
    Parts parts;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool isDoubled = i + 1 < text.size() && text[i + 1] == text[i];
        if ((text[i] != '{' && text[i] != '}') || isDoubled) {
            i += text[i] == '{' || text[i] == '}' ? 1U : 0U;
            parts.between.back() += text[i];
            continue;
        }
        const std::size_t end = std::min(text.find('}', i), text.size());
        const std::string_view place = text.substr(i + 1, end - i - 1);
        const bool isNumbered = !place.empty() && place.front() >= '0' && place.front() <= '9';
        parts.values.push_back(isNumbered ? static_cast<std::size_t>(place.front() - '0')
                                          : parts.values.size());
        parts.isVerbatim.push_back(place.ends_with(":s"));
        parts.between.emplace_back();
        i = end;
    }
    return parts;
}

bool isUpperCase(std::string_view text) {
    return !text.empty() && text.front() >= 'A' && text.front() <= 'Z';
}

struct Form {
    Parts english;
    Parts translated;
    std::size_t letters{};  ///< between the values: of two forms that fit, the one with more
    bool isSentence{};      ///< else a part of one, which nothing else is taken for

    Form(std::string_view from, std::string_view to)
        : english{partsOf(from)}, translated{partsOf(to)} {
        for (const std::string& each : english.between) {
            letters += each.size();
        }
        isSentence = english.values.empty() || from.ends_with('.') || isUpperCase(from);
    }
};

struct Noun {
    std::string one;
    std::string more;
};

struct KeptWords {
    std::vector<Form> forms;
    std::vector<Form> said;                          ///< of words that are not made to be kept
    std::map<std::string, Noun, std::less<>> nouns;  ///< by the English word for one, and for more
};

/// The strings of one of the two tables of a MO file (GNU gettext's manual, "The Format of GNU MO
/// Files"): their number is the third word of the file, the places of the tables the next two.
std::vector<std::string_view> stringsOf(std::span<const char> file, std::size_t table) {
    static_assert(std::endian::native == std::endian::little, "msgfmt writes this order here");
    const auto wordAt = [file](std::size_t at) {
        std::uint32_t word = 0;
        std::memcpy(&word, file.subspan(at, sizeof word).data(), sizeof word);
        return std::size_t{word};
    };
    std::vector<std::string_view> strings;
    const std::size_t count = wordAt(8);
    for (std::size_t i = 0, at = wordAt(12 + 4 * table); i < count; ++i, at += 8) {
        const auto text = file.subspan(wordAt(at + 4), wordAt(at));
        strings.emplace_back(text.data(), text.size());
    }
    return strings;
}

/// Two texts with a NUL between them.
std::optional<Noun> nounIn(std::string_view text) {
    const std::size_t nul = text.find('\0');
    return nul == std::string_view::npos ? std::nullopt
                                         : std::optional{Noun{std::string{text.substr(0, nul)},
                                                              std::string{text.substr(nul + 1)}}};
}

void take(std::string_view english, std::string_view translated, KeptWords& words) {
    if (english.starts_with(kContext)) {
        words.forms.emplace_back(english.substr(kContext.size()), translated);
    } else if (Form form{english, translated}; form.letters >= kFewestLetters) {
        words.said.push_back(std::move(form));
    }
}

KeptWords keptWordsOf(std::span<const char> file) {
    KeptWords words;
    const auto english = stringsOf(file, 0);
    const auto translated = stringsOf(file, 1);
    for (std::size_t i = 0; i < english.size(); ++i) {
        const auto from = nounIn(english[i]);
        const auto to = nounIn(translated[i]);
        if (!from || !to) {
            take(english[i], translated[i], words);
        } else if (english[i].find('{') != std::string_view::npos) {
            take(from->one, to->one, words);
            take(from->more, to->more, words);
        } else {
            words.nouns.insert_or_assign(from->one, *to);
            words.nouns.insert_or_assign(from->more, *to);
        }
    }
    return words;
}

/// Null for English.
const KeptWords* spokenNow() {
    static const auto kByLanguage = [] {
        std::map<std::string_view, KeptWords> all;
        for (const auto& carried : words::carriedCatalogues()) {
            all.emplace(carried.language, keptWordsOf(carried.bytes));
        }
        return all;
    }();
    const auto found = kByLanguage.find(words::language());
    return found == kByLanguage.end() ? nullptr : &found->second;
}

/// Where the value ends that begins at a place; of two sentences side by side with the first.
std::size_t endOfValue(std::string_view text, std::size_t at, std::string_view after) {
    const std::size_t sentence = after == " " ? text.find(". ", at) : std::string_view::npos;
    return sentence == std::string_view::npos ? text.find(after, at + 1) : sentence + 1;
}

/// The values in a text of this form, by their numbers. Absent for a text of another form.
std::optional<std::vector<std::string_view>> valuesOf(std::string_view text, const Parts& form) {
    const std::string& last = form.between.back();
    if (form.values.empty()) {
        return text == last ? std::optional{std::vector<std::string_view>{}} : std::nullopt;
    }
    if (!text.starts_with(form.between.front())) {
        return std::nullopt;
    }
    std::vector<std::string_view> values(form.values.size());
    std::size_t at = form.between.front().size();
    for (std::size_t i = 0; i < form.values.size(); ++i) {
        const bool isLast = i + 1 == form.values.size();
        const bool ends = isLast && text.ends_with(last) && text.size() >= at + last.size();
        const std::size_t end = ends     ? text.size() - last.size()
                                : isLast ? std::string_view::npos
                                         : endOfValue(text, at, form.between[i + 1]);
        if (end == std::string_view::npos || end <= at || form.values[i] >= values.size()) {
            return std::nullopt;
        }
        values[form.values[i]] = text.substr(at, end - at);
        at = end + form.between[i + 1].size();
    }
    return values;
}

bool isNumeral(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789.-") == std::string_view::npos;
}

std::string saidAs(std::string_view kept, bool isSentence, const KeptWords& words);

std::string saidValue(std::string_view value, const KeptWords& words) {
    const std::size_t blank = value.find(' ');
    if (isNumeral(value.substr(0, blank))) {
        const std::string number = words::decimal(std::string{value.substr(0, blank)});
        if (blank == std::string_view::npos) {
            return number;
        }
        if (const auto noun = words.nouns.find(value.substr(blank + 1));
            noun != words.nouns.end()) {
            return number + ' ' + (number == "1" ? noun->second.one : noun->second.more);
        }
    }
    std::string whole = saidAs(value, isUpperCase(value), words);
    const std::size_t next = value.find("; ");
    if (whole != value || next == std::string_view::npos) {
        return whole;
    }
    return saidValue(value.substr(0, next), words) + "; " +
           saidValue(value.substr(next + 2), words);
}

struct Match {
    const Form* form{};
    std::vector<std::string_view> values;
};

Match bestOf(const std::vector<Form>& forms, std::string_view kept, bool isSentence) {
    Match best;
    for (const Form& form : forms) {
        if ((isSentence && !form.isSentence) ||
            (best.form != nullptr && form.letters <= best.form->letters)) {
            continue;
        }
        if (auto found = valuesOf(kept, form.english)) {
            best = {&form, std::move(*found)};
        }
    }
    return best;
}

std::string saidAs(std::string_view kept, bool isSentence, const KeptWords& words) {
    Match match = bestOf(words.forms, kept, isSentence);
    if (match.form == nullptr) {
        match = bestOf(words.said, kept, isSentence);
    }
    if (match.form == nullptr) {
        return std::string{kept};
    }
    const Parts& translated = match.form->translated;
    std::string text = translated.between.front();
    for (std::size_t i = 0; i < translated.values.size(); ++i) {
        const std::string_view value = match.values.at(translated.values[i]);
        text += translated.isVerbatim[i] ? std::string{value} : saidValue(value, words);
        text += translated.between[i + 1];
    }
    return text;
}

}  // namespace

std::string saidKept(std::string_view kept) {
    const KeptWords* words = spokenNow();
    return words == nullptr ? std::string{kept} : saidAs(kept, true, *words);
}

}  // namespace core
