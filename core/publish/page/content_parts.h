#pragma once

#include <string_view>

#include "core/base/words.h"
#include "core/publish/page/content.h"

/// The sections of a publication, one a function. Internal to this module.
namespace core::publish {

inline constexpr std::string_view kRanksHeading = toSay("Ranks and chances");
inline constexpr std::string_view kMoreHeading = toSay("What else was looked at");

/// Table, chart and ten lines.
[[nodiscard]] Section firstSection(const ContentInput& input);

[[nodiscard]] Section ranksSection(const ContentInput& input);
[[nodiscard]] Section cellsSection(const ContentInput& input);
[[nodiscard]] Section pairsSection(const ContentInput& input);
/// Hitters, new against worn, attributes, sessions, drift, agreement.
[[nodiscard]] Section moreSection(const ContentInput& input);
[[nodiscard]] Section stripsSection(const ContentInput& input);
[[nodiscard]] Section methodSection(const ContentInput& input);
/// One section a filming day would be long: a table of them all.
[[nodiscard]] Section daysSection(const ContentInput& input);
[[nodiscard]] Section asideSection(const ContentInput& input);
[[nodiscard]] Section cautionsSection();

/// The figures of this name, "ranked" and "ranked-2" and so on; none where there is nothing to
/// show.
[[nodiscard]] std::vector<Block> figuresNamed(const ContentInput& input, const std::string& name);
void append(std::vector<Block>& blocks, std::vector<Block> more);

/// The band of a mean, and whether its interval reaches another one.
struct BandReach {
    std::string name;   ///< empty outside of all bands
    std::string words;  ///< "medium", "medium (low to high)"
    bool isCrossing{};
};
[[nodiscard]] BandReach bandReach(const findings::Bands& bands,
                                  const findings::RankedImplement& row);

/// What to know of a marked row of the table, a sentence a row.
[[nodiscard]] std::vector<std::string> marksOf(const findings::Comparison& table);
/// Implements that are not in the table, and why.
[[nodiscard]] std::vector<std::string> leftOutOf(const findings::Comparison& table);

/// What the findings say of hitters, conditions, attributes, days and readers, each kind by itself.
struct KnownSentences {
    std::vector<std::string> hitters;
    std::vector<std::string> conditions;
    std::vector<std::string> attributes;
    std::vector<std::string> drifts;
    std::vector<std::string> days;
    std::vector<std::string> speed;
    std::vector<std::string> readers;
};
[[nodiscard]] KnownSentences knownSentences(const findings::Findings& findings);

/// Whether counted frames, or films, stand behind the shots that count.
struct Sources {
    bool hasCounts{};
    bool hasFilms{};
};
[[nodiscard]] Sources sourcesOf(const project::Snapshot& snapshot);
/// Whether all clips of a day are tables of counts; false for a day without clips.
[[nodiscard]] bool isCounted(const project::Snapshot& snapshot, project::SessionId day);

}  // namespace core::publish
