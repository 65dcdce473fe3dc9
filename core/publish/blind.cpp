#include "core/publish/blind.h"

#include <algorithm>
#include <optional>
#include <set>

#include "core/publish/drawing/utf8.h"

namespace core::publish {
namespace {

using project::Snapshot;

char32_t lowered(char32_t letter) {
    return letter >= U'A' && letter <= U'Z' ? letter - U'A' + U'a' : letter;
}

bool isWordLetter(char32_t letter) {
    if (letter < 0x80) {
        return (letter >= U'0' && letter <= U'9') ||
               (lowered(letter) >= U'a' && lowered(letter) <= U'z');
    }
    // Beyond ASCII: punctuation and signs of Latin-1 and of the general punctuation block end a
    // word, everything else belongs to it.
    const bool isSign = (letter < 0xC0 && letter != 0xAA && letter != 0xB5 && letter != 0xBA) ||
                        (letter >= 0x2000 && letter <= 0x206F) || letter == 0xD7 ||
                        letter == 0xF7 || (letter >= 0x3000 && letter <= 0x303F);
    return !isSign;
}

bool isJoint(char32_t letter) {
    return letter == U' ' || letter == U'_' || letter == U'-' || letter == U'.';
}

void passJoints(const std::u32string& text, std::size_t& at) {
    while (at < text.size() && isJoint(text[at])) {
        ++at;
    }
}

/// Behind the name when it stands at `at` as whole words; absent when not.
std::optional<std::size_t> endOfName(const std::u32string& text, std::size_t at,
                                     const std::u32string& name, bool isExact) {
    const auto same = [isExact](char32_t a, char32_t b) {
        return isExact ? a == b : lowered(a) == lowered(b);
    };
    if (at > 0 && isWordLetter(text[at - 1]) && isWordLetter(name.front())) {
        return std::nullopt;
    }
    std::size_t in = 0;
    std::size_t end = at;
    while (in < name.size()) {
        if (end >= text.size()) {
            return std::nullopt;
        }
        if (isJoint(name[in]) && isJoint(text[end])) {
            passJoints(name, in);
            passJoints(text, end);
        } else if (same(name[in], text[end])) {
            ++in;
            ++end;
        } else {
            return std::nullopt;
        }
    }
    if (end < text.size() && isWordLetter(text[end]) && isWordLetter(name.back())) {
        return std::nullopt;
    }
    return end;
}

/// The word that begins at `at`, in small letters; empty where none does.
std::u32string wordAt(const std::u32string& text, std::size_t at) {
    std::u32string word;
    for (; at < text.size() && isWordLetter(text[at]); ++at) {
        word += lowered(text[at]);
    }
    return word;
}

/// The word that ends before the joints before `at`; empty where something else stands there.
std::u32string wordBefore(const std::u32string& text, std::size_t at) {
    while (at > 0 && isJoint(text[at - 1])) {
        --at;
    }
    std::size_t begin = at;
    while (begin > 0 && isWordLetter(text[begin - 1])) {
        --begin;
    }
    return wordAt(text.substr(begin, at - begin), 0);
}

/// Whether the single letter at `at` reads as the English article or pronoun rather than a name: a
/// space and a word follow that may stand behind one, and no "hitter" stands before. A word of
/// German behind it shows that it is a name, whatever the program speaks.
bool isPlainWord(const std::u32string& text, std::size_t at) {
    static const std::set<std::u32string> kBehindNamesOnly{
        U"and", U"or", U"but", U"is", U"was", U"has", U"had", U"did", U"does", U"can", U"will",
        U"with", U"could", U"would", U"then", U"who", U"to", U"in", U"on", U"at", U"by", U"from",
        U"after", U"before",
        // German
        U"und", U"oder", U"aber", U"ist", U"war", U"hat", U"hatte", U"wird", U"wurde", U"mit",
        U"kann", U"konnte", U"dann", U"bei", U"von", U"nach", U"vor", U"zu", U"im"};
    static const std::set<std::u32string> kBehindI{U"was",  U"had",   U"did",  U"can",
                                                   U"will", U"could", U"would"};
    const bool isArticle = text[at] == U'A' || text[at] == U'a';
    const bool isPronoun = text[at] == U'I';
    const bool isFollowed = at + 2 < text.size() && text[at + 1] == U' ';
    const auto before = wordBefore(text, at);
    if ((!isArticle && !isPronoun) || !isFollowed || before == U"hitter" ||
        before.starts_with(U"spieler")) {
        return false;
    }
    const auto next = wordAt(text, at + 2);
    return !next.empty() &&
           (!kBehindNamesOnly.contains(next) || (isPronoun && kBehindI.contains(next)));
}

}  // namespace

NameReplacer::NameReplacer(std::vector<Pair> pairs) {
    for (auto& [name, instead] : pairs) {
        auto letters = lettersOf(name);
        if (!letters.empty()) {
            const bool isExact = letters.size() == 1;
            m_wanted.push_back({std::move(letters), std::move(instead), isExact});
        }
    }
    std::stable_sort(m_wanted.begin(), m_wanted.end(), [](const Wanted& a, const Wanted& b) {
        return a.name.size() > b.name.size();
    });
}

std::string NameReplacer::in(std::string_view text) const {
    const std::u32string letters = lettersOf(text);
    std::string out;
    for (std::size_t at = 0; at < letters.size();) {
        std::optional<std::size_t> end;
        for (const auto& wanted : m_wanted) {
            end = endOfName(letters, at, wanted.name, wanted.isExact);
            if (end && wanted.name.size() == 1 && isPlainWord(letters, at)) {
                end.reset();
            }
            if (end) {
                out += wanted.instead;
                break;
            }
        }
        if (end) {
            at = *end;
        } else {
            appendUtf8(out, letters[at++]);
        }
    }
    return out;
}

NameReplacer hitterBlinder(const Snapshot& snapshot) {
    std::vector<NameReplacer::Pair> pairs;
    for (const auto& hitter : snapshot.hitters) {
        pairs.emplace_back(hitter.name, "H" + std::to_string(pairs.size() + 1));
    }
    return NameReplacer{std::move(pairs)};
}

namespace {

/// A table with every entity changed in place.
template <class Entity, class Change>
project::Entities<Entity> eachChanged(const project::Entities<Entity>& table,
                                      const Change& change) {
    std::vector<Entity> entities(table.begin(), table.end());
    for (auto& entity : entities) {
        change(entity);
    }
    return project::Entities<Entity>{std::move(entities)};
}

}  // namespace

project::SnapshotPtr blinded(const Snapshot& snapshot) {
    const NameReplacer blinder = hitterBlinder(snapshot);
    auto made = std::make_shared<Snapshot>(snapshot);
    const auto blind = [&blinder](std::string& text) { text = blinder.in(text); };
    blind(made->reader);
    made->sessions = eachChanged(snapshot.sessions, [&](project::Session& session) {
        blind(session.name);
        blind(session.note);
    });
    made->implements = eachChanged(snapshot.implements, [&](project::Implement& implement) {
        blind(implement.name);
        blind(implement.condition);
        std::map<std::string, std::string> attributes;
        for (const auto& [name, value] : implement.attributes) {
            attributes.emplace(blinder.in(name), blinder.in(value));
        }
        implement.attributes = std::move(attributes);
    });
    int number = 0;
    made->hitters = eachChanged(snapshot.hitters, [&number](project::Hitter& hitter) {
        hitter.name = "H" + std::to_string(++number);
    });
    made->clips = eachChanged(snapshot.clips, [&](project::Clip& clip) {
        blind(clip.path);
        for (auto* remarks : {&clip.remarks, &clip.clockRemarks}) {
            for (auto& remark : *remarks) {
                blind(remark.message);
            }
        }
    });
    made->shots = eachChanged(snapshot.shots, [&](project::Shot& shot) { blind(shot.reason); });
    made->readings =
        eachChanged(snapshot.readings, [&](project::Reading& reading) { blind(reading.reader); });
    return made;
}

Material blinded(const Material& material) {
    Material words = material;
    words.origin.title = hitterBlinder(*material.snapshot).in(material.origin.title);
    words.snapshot = blinded(*material.snapshot);
    return words;
}

}  // namespace core::publish
