#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "core/base/words.h"
#include "core/publish/page/content_parts.h"
#include "core/publish/page/pair_words.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::publish {
namespace {

using findings::Comparison;
using findings::Findings;

constexpr std::size_t kMostRowsFirst = 40;
constexpr std::size_t kMostOfAKind = 3;  ///< sentences of one kind among the ten lines
constexpr const char* kMark = "*";

TableBlock firstTable(const Findings& findings) {
    const auto& ranked = findings.together().ranked;
    const bool hasMarks = std::any_of(ranked.begin(), ranked.end(),
                                      [](const auto& row) { return !row.notes.empty(); });
    const bool hasLetters = std::any_of(ranked.begin(), ranked.end(),
                                        [](const auto& row) { return !row.letters.empty(); });
    TableBlock table;
    table.columns = {{said("implement"), false, 2.6},
                     {said("mean, rpm"), true, 1.1},
                     {said("95 % interval, rpm"), true, 1.5}};
    table.caption = said("Mean spin by implement with 95 % intervals") + ".";
    if (hasLetters) {
        table.caption =
            said("Highest mean first. Implements that share a letter cannot be told apart.");
        table.columns.push_back({said("letters"), false, 0.9});
    }
    if (hasMarks) {
        table.caption += " " + said("Mark {}: explained below the chart.", kMark);
        table.columns.push_back({said("mark"), false, 0.8});
    }
    for (const auto& row : ranked) {
        if (table.rows.size() == kMostRowsFirst) {
            table.caption += " " + said("The first {} of {}; the others are under \"{}\".",
                                        kMostRowsFirst, ranked.size(), saidText(kRanksHeading));
            break;
        }
        const double sigma = row.mean.standardUncertainty;
        std::vector<std::string> cells{
            row.name, report::withDigitsOf(row.mean.value, sigma),
            report::intervalText(row.mean.interval95.low, row.mean.interval95.high, sigma)};
        if (hasLetters) {
            cells.push_back(row.letters);
        }
        if (hasMarks) {
            cells.emplace_back(row.notes.empty() ? "" : kMark);
        }
        table.rows.push_back(std::move(cells));
    }
    return table;
}

/// "Of 351 pairs 120 differ by at least the noticeable step, 3 are equivalent, …"
std::string pairsLine(const Findings& findings) {
    const auto& pairs = findings.together().pairs;
    if (pairs.empty()) {
        return words::whyNoPairs(findings.together(), words::Advice::Without);
    }
    std::vector<std::string> parts;
    for (const PairWord word : {PairWord::AtLeastStep, PairWord::Differs, PairWord::LessThanStep,
                                PairWord::Equivalent, PairWord::NotSettled}) {
        const auto count = std::count_if(pairs.begin(), pairs.end(), [word](const auto& pair) {
            return pairWord(pair) == word;
        });
        if (count > 0) {
            const bool isOpen = word == PairWord::Differs && findings.noticeableStep;
            std::string part = fmt::format("{} {}", count, wordsOf(word, count == 1));
            parts.push_back(isOpen ? said("{} (whether by the step is open)", part)
                                   : std::move(part));
        }
    }
    std::string line = said("Of {}, judged together at the 95 % level, {}.",
                            counted(pairs.size(), "pair of implements", "pairs of implements"),
                            words::joined(parts));
    if (findings.noticeableStep) {
        line += " " + said("The noticeable step is {} rpm, set by the tester.",
                           report::shortest(findings.noticeableStep->rpm));
    }
    return line;
}

/// "Bands: 12 high, 8 medium and 7 low. The intervals of 11 reach more than one band."
std::string bandsLine(const Findings& findings) {
    std::vector<std::string> parts;
    std::size_t crossing = 0;
    for (const auto& row : findings.together().ranked) {
        const BandReach reach = bandReach(findings.bands, row);
        crossing += reach.isCrossing ? 1U : 0U;
    }
    for (const auto& band : findings.bands.all()) {
        const auto& ranked = findings.together().ranked;
        const auto count = std::count_if(ranked.begin(), ranked.end(), [&](const auto& row) {
            return bandReach(findings.bands, row).name == band.name;
        });
        parts.push_back(fmt::format("{} {}", count, band.name));
    }
    if (parts.empty() || findings.together().ranked.empty()) {
        return {};
    }
    return said("By the bands of the tester: {}.", words::joined(parts)) + " " +
           (crossing == 0
                ? said("No interval crosses the edge of a band.")
                : saidOf(crossing, "One interval crosses an edge, so its band is not certain.",
                         "{} intervals cross an edge, so their bands are not certain.", crossing));
}

/// The first sentences of a kind as one line, and where the others are.
void addLine(BulletList& list, const std::vector<std::string>& sentences,
             std::string_view section = kMoreHeading) {
    std::string line;
    for (std::size_t i = 0; i < sentences.size() && i < kMostOfAKind; ++i) {
        line += (i == 0 ? "" : " ") + sentences[i];
    }
    if (sentences.size() > kMostOfAKind) {
        line +=
            " " + said("{} more under \"{}\".", sentences.size() - kMostOfAKind, saidText(section));
    }
    // With one implement the ranks and the pairs say the same.
    if (!line.empty() && std::ranges::find(list.items, line) == list.items.end()) {
        list.items.push_back(std::move(line));
    }
}

}  // namespace

std::vector<std::string> marksOf(const Comparison& table) {
    std::vector<std::string> marks;
    for (const auto& row : table.ranked) {
        if (!row.notes.empty()) {
            std::string notes;
            for (const auto& note : row.notes) {
                notes += (notes.empty() ? "" : "; ") + words::note(note);
            }
            marks.push_back(fmt::format("{} {}: {}.", kMark, row.name, notes));
        }
    }
    return marks;
}

/// "3 attributes were looked at. No connection with spin is shown for gauge (mm) and price."
std::string attributesLine(const Findings& findings) {
    std::vector<std::string> more;
    std::vector<std::string> less;
    std::vector<std::string> none;
    for (const auto& attribute : findings.attributes) {
        if (attribute.trend) {
            auto& names = *attribute.trend == findings::Trend::More   ? more
                          : *attribute.trend == findings::Trend::Less ? less
                                                                      : none;
            names.push_back(attribute.attribute);
        }
    }
    const std::size_t count = more.size() + less.size() + none.size();
    if (count == 0) {
        return {};
    }
    std::string line = counted(count, "attribute was looked at.", "attributes were looked at.");
    using words::joined;
    if (!more.empty()) {
        line += " " + said("More spin goes with more of {}.", joined(more));
    }
    if (!less.empty()) {
        line += " " + said("Less spin goes with more of {}.", joined(less));
    }
    if (!none.empty()) {
        line += " " + said("No connection with spin is certain for {}.", joined(none));
    }
    if (count > 1 && more.size() + less.size() > 0) {
        line += " " + said("Of several attributes one may seem to go with spin by chance.");
    }
    return line;
}

std::vector<std::string> leftOutOf(const Comparison& table) {
    std::vector<std::string> sentences;
    for (const auto& left : table.leftOut) {
        sentences.push_back(said("{} is not compared: {}.", left.name,
                                 words::whyNot(left.whyNot, words::Advice::Without)));
    }
    return sentences;
}

namespace {

std::string doubtsWords(const OpenDoubts& doubts) {
    std::vector<std::string> parts;
    if (!doubts.shots.empty()) {
        parts.push_back(counted(doubts.shots.size(), "shot", "shots"));
    }
    if (!doubts.cells.empty()) {
        parts.push_back(counted(doubts.cells.size(), "cell (an implement with one hitter)",
                                "cells (an implement with one hitter)"));
    }
    const std::size_t count = doubts.shots.size() + doubts.cells.size();
    return count == 0 ? said("No doubt is open.")
                      : said("Not yet settled: doubts about {}.", words::joined(parts));
}

/// What was left out and what is still open.
std::string standingLine(const ContentInput& input) {
    std::array<std::size_t, 3> counts{};
    for (const auto& shot : input.material.snapshot->shots) {
        ++counts[static_cast<std::size_t>(shot.standing)];
    }
    const auto open = counts[static_cast<std::size_t>(project::ShotStanding::Open)];
    const auto aside = counts[static_cast<std::size_t>(project::ShotStanding::SetAside)];
    std::string line =
        fmt::format("{}; {}.",
                    aside == 0 ? said("No shot was set aside")
                               : counted(aside, "shot was set aside with a reason",
                                         "shots were set aside with a reason"),
                    open == 0 ? (aside == 0 ? said("all are read") : said("all others are read"))
                              : counted(open, "is not yet read", "are not yet read"));
    return input.doubts ? line + " " + doubtsWords(*input.doubts) : line;
}

}  // namespace

Section firstSection(const ContentInput& input) {
    const auto& table = input.findings.together();
    Section section{"findings", said("What was found"), {}};
    if (!table.ranked.empty()) {
        section.blocks.emplace_back(firstTable(input.findings));
    }
    auto charts = figuresNamed(input, "ranked");
    if (!charts.empty()) {
        section.blocks.push_back(std::move(charts.front()));
    }
    const KnownSentences known = knownSentences(input.findings);
    BulletList lines;
    addLine(lines, {words::sentence(table, input.findings.noticeableStep, words::Advice::Without)});
    if (!table.ranked.empty()) {
        addLine(lines, {pairsLine(input.findings)});
        addLine(lines, {bandsLine(input.findings)});
    }
    addLine(lines, known.hitters);
    addLine(lines, known.conditions);
    addLine(lines, {attributesLine(input.findings)});
    for (const auto* sentences : {&known.drifts, &known.days, &known.readers}) {
        addLine(lines, *sentences);
    }
    addLine(lines, marksOf(table), kRanksHeading);
    addLine(lines, leftOutOf(table), kRanksHeading);
    lines.items.push_back(standingLine(input) + " " +
                          words::looksSentence(input.findings.looks, words::Advice::Without));
    section.blocks.emplace_back(std::move(lines));
    return section;
}

}  // namespace core::publish
