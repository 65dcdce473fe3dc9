#include "core/publish/page/content_parts.h"

#include <fmt/format.h>

#include <utility>

#include "core/base/words.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::publish {
namespace {

void addSentence(std::vector<std::string>& list, const std::string& sentence) {
    if (!sentence.empty()) {
        list.push_back(sentence);
    }
}

template <class Found>
void addSentences(std::vector<std::string>& list, const std::vector<Found>& all) {
    for (const auto& found : all) {
        addSentence(list, words::sentence(found, words::Advice::Without));
    }
}

/// Kept on one line by spaces that do not break.
std::string unbroken(const std::string& text) {
    std::string line;
    for (const char letter : text) {
        line += letter == ' ' ? std::string{"\u00A0"} : std::string{letter};
    }
    return line;
}

std::string rankText(const findings::RankedImplement& row, std::size_t place) {
    if (!row.rank || row.rank->lowest == row.rank->highest) {
        return std::to_string(place);
    }
    return unbroken(
        fmt::format("{} ({})", place, said("{} to {}", row.rank->lowest, row.rank->highest)));
}

/// "0" for what is nothing, else its own two digits.
std::string ownDigits(double rpm) {
    return rpm == 0.0 ? "0" : report::withDigitsOf(rpm, rpm);
}

}  // namespace

BandReach bandReach(const findings::Bands& bands, const findings::RankedImplement& row) {
    const auto* of = bands.bandOf({row.mean.value});
    const auto* low = bands.bandOf({row.mean.interval95.low});
    const auto* high = bands.bandOf({row.mean.interval95.high});
    if (of == nullptr || low == nullptr || high == nullptr) {
        return {"", "–"};
    }
    return low->name == high->name
               ? BandReach{of->name, of->name}
               : BandReach{of->name, said("{} ({} to {})", of->name, low->name, high->name), true};
}

KnownSentences knownSentences(const findings::Findings& findings) {
    KnownSentences known;
    addSentence(known.hitters, words::sentence(findings.hitters, words::Advice::Without));
    for (const auto& cell : findings.hitters.interaction) {
        // Cells that cannot be told apart have one sentence.
        const auto cells = findings.hitters.groupOf(cell);
        if (&cells.front() == &cell) {
            addSentence(known.hitters, words::sentence(cells, words::Advice::Without));
        }
    }
    for (const auto& contrast : findings.conditions) {
        addSentence(known.conditions,
                    words::sentence(contrast, findings.noticeableStep, words::Advice::Without));
    }
    addSentences(known.attributes, findings.attributes);
    addSentences(known.drifts, findings.drifts);
    addSentences(known.drifts, findings.controls);
    addSentences(known.days, findings.sessions);
    addSentence(known.speed, words::sentence(findings.speed, words::Advice::Without));
    addSentence(known.readers, words::sentence(findings.agreement.methods, words::Advice::Without));
    addSentences(known.readers, findings.agreement.repeats);
    addSentence(known.readers, words::sentence(findings.agreement.readers, words::Advice::Without));
    addSentences(known.readers, findings.agreement.readerPairs);
    return known;
}

Section ranksSection(const ContentInput& input) {
    const auto& comparison = input.findings.together();
    Section section{"ranks", saidText(kRanksHeading), {}, true};
    if (comparison.ranked.empty()) {
        return section;
    }
    TableBlock table;
    table.caption = said(
        "In brackets the ranks that the data allow; chance to have the most spin, of {} simulated "
        "tables, so nothing is said below 1 % and above 99 %; scatter: standard deviation from "
        "shot to shot.",
        input.findings.draws);
    table.columns = {{said("implement"), false, 2.6},
                     {said("rank"), false, 1.3},
                     {said("shots"), true, 0.8},
                     {said("mean, rpm"), true, 1.1},
                     {said("95 % interval, rpm"), true, 1.8},
                     {said("scatter, rpm"), true, 1.0},
                     {said("chance"), true, 1.2}};
    const bool hasBands = !input.findings.bands.isEmpty();
    if (hasBands) {
        table.caption += " " + said("Band: in brackets the bands that the interval reaches.");
        table.columns.push_back({said("band"), false, 1.6});
    }
    std::size_t place = 0;
    for (const auto& row : comparison.ranked) {
        const double sigma = row.mean.standardUncertainty;
        table.rows.push_back(
            {row.name, rankText(row, ++place), std::to_string(row.shots),
             report::withDigitsOf(row.mean.value, sigma),
             report::intervalText(row.mean.interval95.low, row.mean.interval95.high, sigma),
             row.scatterRpm ? report::withDigitsOf(*row.scatterRpm, *row.scatterRpm) : "–",
             row.rank ? words::chance(row.rank->firstChance) : "–"});
        if (hasBands) {
            table.rows.back().push_back(bandReach(input.findings.bands, row).words);
        }
    }
    section.blocks.emplace_back(std::move(table));
    section.blocks.emplace_back(BulletList{marksOf(comparison)});
    section.blocks.emplace_back(BulletList{leftOutOf(comparison)});
    auto charts = figuresNamed(input, "ranked");
    if (charts.size() > 1) {
        section.blocks.insert(section.blocks.end(), charts.begin() + 1, charts.end());
    }
    section.blocks.emplace_back(
        Paragraph{words::testSentence(comparison, words::Advice::Without), Tone::Quiet});
    return section;
}

namespace {

std::vector<std::string> cellRow(const findings::CellFinding& cell, bool showsDay) {
    const auto& mean = *cell.row.mean;
    const double sigma =
        mean.standardUncertaintyRpm.value_or(cell.row.readings.front().rate.sigma.rpm);
    std::vector<std::string> row{cell.row.hitterName};
    if (showsDay) {
        row.push_back(cell.row.sessionName);
    }
    row.push_back(std::to_string(cell.row.readings.size()));
    row.push_back(report::withDigitsOf(mean.meanRpm, sigma));
    row.push_back(mean.interval95 ? report::intervalText(mean.interval95->low.rpm,
                                                         mean.interval95->high.rpm, sigma)
                                  : "–");
    row.push_back(mean.standardDeviationRpm ? ownDigits(*mean.standardDeviationRpm) : "–");
    row.push_back(cell.split ? ownDigits(cell.split->readingDeviation) : "–");
    row.push_back(cell.split ? ownDigits(cell.split->reml.betweenDeviation) : "–");
    return row;
}

}  // namespace

Section cellsSection(const ContentInput& input) {
    Section section{"cells", said("Every implement with every hitter"), {}, true};
    const bool showsDay = input.material.snapshot->sessions.size() > 1;
    TableBlock table;
    table.caption = said(
        "A row is a cell: one implement with one hitter on one filming day. Scatter: standard "
        "deviation from shot to shot; of it, what the readings' own uncertainty makes and what the "
        "shots make.");
    table.columns = {{said("implement"), false, 2.4},
                     {said("hitter"), false, 0.9},
                     {said("shots"), true, 0.8},
                     {said("mean, rpm"), true, 1.1},
                     {said("95 % interval, rpm"), true, 1.4},
                     {said("scatter, rpm"), true, 1.0},
                     {said("of readings"), true, 1.0},
                     {said("of shots"), true, 0.8}};
    if (showsDay) {
        table.columns.insert(table.columns.begin() + 2, {said("day"), false, 1.3});
    }
    for (const auto& implement : input.findings.implements) {
        std::string name = implement.name;  // once, above its hitters
        for (const std::size_t at : implement.cells) {
            const auto& cell = input.findings.cells[at];
            if (cell.row.mean) {
                table.rows.push_back(cellRow(cell, showsDay));
                table.rows.back().insert(table.rows.back().begin(), std::exchange(name, {}));
            }
        }
    }
    if (!table.rows.empty()) {
        section.blocks.emplace_back(std::move(table));
    }
    append(section.blocks, figuresNamed(input, "hitters"));
    return section;
}

Section pairsSection(const ContentInput& input) {
    Section section{"pairs", said("Every pair of implements"), {}, true};
    if (input.findings.together().ranked.size() < 2) {
        return section;
    }
    section.blocks.emplace_back(
        Paragraph{words::whyNoPairs(input.findings.together(), words::Advice::Without)});
    append(section.blocks, figuresNamed(input, "pairs"));
    return section;
}

Section moreSection(const ContentInput& input) {
    const KnownSentences known = knownSentences(input.findings);
    Section section{"more", saidText(kMoreHeading), {}, true};
    BulletList list;
    for (const auto* sentences : {&known.hitters, &known.conditions, &known.attributes,
                                  &known.drifts, &known.days, &known.speed, &known.readers}) {
        list.items.insert(list.items.end(), sentences->begin(), sentences->end());
    }
    if (!input.findings.hitters.missing.empty()) {
        list.items.push_back(words::missingSentence(input.findings.hitters));
    }
    section.blocks.emplace_back(std::move(list));
    for (const char* name : {"drift", "agreement"}) {
        append(section.blocks, figuresNamed(input, name));
    }
    return section;
}

Section stripsSection(const ContentInput& input) {
    Section section{"frames", said("The frames behind a number"), {}, true};
    if (!sourcesOf(*input.material.snapshot).hasFilms) {
        return section;  // counts have no frames
    }
    section.blocks.emplace_back(
        Paragraph{said("For each implement its median shot: the ball cut out of frame after frame, "
                       "from the frame of reference on, with the time and the turns since. After "
                       "one turn the mark is back where it was.")});
    for (const auto& strip : input.strips) {
        if (strip.picture != nullptr) {
            section.blocks.emplace_back(StripBlock{strip.heading, strip.words, strip.picture});
        }
    }
    for (const auto& sentence : missingPictures(input.strips)) {
        section.blocks.emplace_back(Paragraph{sentence, Tone::Quiet});
    }
    return section;
}

}  // namespace core::publish
