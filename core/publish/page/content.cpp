#include "core/publish/page/content.h"

#include <fmt/format.h>

#include <iterator>
#include <map>
#include <set>

#include "core/base/number.h"
#include "core/findings/words.h"
#include "core/publish/page/content_parts.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

std::vector<std::string> subtitlesOf(const ContentInput& input) {
    const auto& snapshot = *input.material.snapshot;
    std::size_t kept = 0;
    std::set<project::ImplementId> implements;
    std::set<project::HitterId> hitters;
    for (const auto& cell : input.findings.cells) {
        if (cell.row.counts.kept > 0) {
            kept += cell.row.counts.kept;
            implements.insert(cell.row.implement);
            hitters.insert(cell.row.hitter);
        }
    }
    std::vector<std::string> lines{counted(implements.size(), "implement") + ", " +
                                   counted(hitters.size(), "hitter") + ", " +
                                   counted(kept, "shot") + " that count"};
    std::string days;
    for (const auto& session : snapshot.sessions) {
        days += (days.empty() ? "Filmed: " : "; ") + session.name +
                (session.date.empty() ? "" : ", " + session.date);
    }
    if (!days.empty()) {
        lines.push_back(days);
    }
    return lines;
}

std::string rankText(const findings::RankedImplement& row, std::size_t place) {
    if (!row.rank || row.rank->lowest == row.rank->highest) {
        return std::to_string(place);
    }
    // Kept on one line by spaces that do not break (U+00A0).
    return fmt::format("{}\u00A0({}\u00A0to\u00A0{})", place, row.rank->lowest, row.rank->highest);
}

TableBlock rankedTable(const findings::Findings& findings) {
    TableBlock table;
    table.caption =
        "Highest mean first. In brackets the ranks that the data allow; interval: 95 %; scatter: "
        "standard deviation from shot to shot; implements that share a letter cannot be told "
        "apart.";
    const bool hasBands = !findings.bands.isEmpty();
    table.columns = {
        {"rank", false, 0.9},     {"implement", false, 2.6},         {"shots", true, 0.7},
        {"mean, rpm", true, 0.8}, {"95 % interval, rpm", true, 1.5}, {"scatter, rpm", true, 0.9},
        {"letters", false, 0.8}};
    if (hasBands) {
        table.columns.push_back({"band", false, 1.0});
    }
    std::size_t place = 0;
    for (const auto& row : findings.together().ranked) {
        const double sigma = row.mean.standardUncertainty;
        std::vector<std::string> cells{
            rankText(row, ++place),
            row.name,
            std::to_string(row.shots),
            report::withDigitsOf(row.mean.value, sigma),
            report::intervalText(row.mean.interval95.low, row.mean.interval95.high, sigma),
            row.scatterRpm ? report::withDigitsOf(*row.scatterRpm, *row.scatterRpm) : "–",
            row.letters};
        if (hasBands) {
            cells.push_back(row.band ? *row.band : "–");
        }
        table.rows.push_back(std::move(cells));
    }
    return table;
}

}  // namespace

std::vector<Block> figuresNamed(const ContentInput& input, const std::string& name) {
    std::vector<Block> blocks;
    for (const auto& figure : input.figures) {
        if (figure->name == name || figure->name.starts_with(name + "-")) {
            blocks.emplace_back(FigureBlock{figure});
        }
    }
    return blocks;
}

void append(std::vector<Block>& blocks, std::vector<Block> more) {
    blocks.insert(blocks.end(), std::make_move_iterator(more.begin()),
                  std::make_move_iterator(more.end()));
}

std::vector<std::string> missingPictures(const std::vector<ImplementStrip>& strips) {
    constexpr std::size_t kMostNamed = 3;
    std::map<std::string, std::vector<std::string>> shotsOf;
    for (const auto& strip : strips) {
        if (strip.picture == nullptr) {
            shotsOf[strip.words].push_back(strip.heading);
        }
    }
    std::vector<std::string> sentences;
    for (const auto& [why, shots] : shotsOf) {
        sentences.push_back((shots.size() > kMostNamed ? counted(shots.size(), "implement")
                                                       : findings::words::joined(shots)) +
                            ": " + why);
    }
    return sentences;
}

Section rankedSection(const ContentInput& input) {
    const auto& table = input.findings.together();
    Section section{"ranking", "What was found", {}};
    section.blocks.emplace_back(Paragraph{table.sentence, Tone::Lead});
    if (!table.ranked.empty()) {
        section.blocks.emplace_back(rankedTable(input.findings));
    }
    append(section.blocks, figuresNamed(input, "ranked"));
    BulletList sentences;
    for (const auto& row : table.ranked) {
        std::string words = row.sentence.empty() ? row.name + ":" : row.sentence;
        for (const auto& note : row.notes) {
            words += words.back() == '.' ? " Note: " + note : " " + note;
            words += words.back() == '.' ? "" : ".";
        }
        if (!row.sentence.empty() || !row.notes.empty()) {
            sentences.items.push_back(std::move(words));
        }
    }
    for (const auto& left : table.leftOut) {
        sentences.items.push_back(left.name + " is not in the table: " + left.whyNot);
    }
    section.blocks.emplace_back(std::move(sentences));
    section.blocks.emplace_back(Paragraph{table.welchSentence, Tone::Quiet});
    section.blocks.emplace_back(Paragraph{table.outlookSentence});
    section.blocks.emplace_back(Paragraph{input.findings.looksSentence});
    return section;
}

Section chartsSection(const ContentInput& input) {
    Section section{"charts", "Charts", {}};
    for (const char* name : {"hitters", "drift", "agreement"}) {
        append(section.blocks, figuresNamed(input, name));
    }
    return section;
}

Section stripsSection(const ContentInput& input) {
    Section section{"frames", "The frames behind a number", {}};
    section.blocks.emplace_back(
        Paragraph{"For each implement its median shot: the ball cut out of frame after frame, from "
                  "the frame of reference on, with the time and the turns since. After one turn "
                  "the mark is back where it was."});
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

Section pairsSection(const ContentInput& input) {
    const auto& table = input.findings.together();
    Section section{"pairs", "Every pair of implements", {}, true};
    section.blocks.emplace_back(Paragraph{table.whyNoPairs});
    append(section.blocks, figuresNamed(input, "pairs"));
    return section;
}

Document documentOf(const ContentInput& input) {
    Document document;
    document.title = "Spin rates: " + input.material.origin.title;
    document.subtitles = subtitlesOf(input);
    document.origin = input.material.origin;
    document.sections = {
        rankedSection(input),  chartsSection(input),
        stripsSection(input),  pairsSection(input),
        moreSection(input),    methodSection(input),
        filmingSection(input), asideSection(input),
        cautionsSection(),     Section{"files", "Files beside this page", {LinkList{input.files}}}};
    std::erase_if(document.sections, [](const Section& section) { return section.blocks.empty(); });
    return document;
}

}  // namespace core::publish
