#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/project/snapshot.h"
#include "core/publish/material.h"

/// Hitters without their names.
namespace core::publish {

/// Replaces names by others wherever they stand as whole words. Immutable.
///
/// A word ends where a letter or digit meets something else; letters of every script count, so
/// "Ann" is not found in "Annabel". Upper and lower case of the Latin alphabet are the same, but
/// for names of a single letter, which would be found in every sentence. "A" and "I" are words of
/// every English sentence as well: before a space and a further word they are taken for the name
/// only behind "hitter" ("Spieler" in German) or where no article or pronoun can stand ("A and B",
/// "A was tired"; see blind.cpp). Between the words of a name may stand a space, '_', '-' or '.',
/// one or several: "Ann Lee" is found in "ann_lee_2.mp4". Longer names are looked for first; what
/// was put in is not looked at
class NameReplacer {
public:
    using Pair = std::pair<std::string, std::string>;  ///< a name and what to put in its place
    explicit NameReplacer(std::vector<Pair> pairs);

    [[nodiscard]] std::string in(std::string_view text) const;

private:
    struct Wanted {
        std::u32string name;
        std::string instead;
        bool isExact{};  ///< upper and lower case differ
    };
    std::vector<Wanted> m_wanted;  ///< longest first
};

/// H1, H2 and so on for the hitters in the order in which they were added.
[[nodiscard]] NameReplacer hitterBlinder(const project::Snapshot& snapshot);

/// The project with hitters named H1, H2, …, and their names replaced in every text of it: names
/// and notes of sessions, implements and attributes, paths of clips, remarks, reasons, readers.
/// Numbers and ids stay. Everything made from it is blind.
[[nodiscard]] project::SnapshotPtr blinded(const project::Snapshot& snapshot);
/// The same of everything that words are made from, the title of the publication too.
[[nodiscard]] Material blinded(const Material& material);

}  // namespace core::publish
