#include "core/publish/page/content.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "core/base/words.h"
#include "core/publish/page/content_parts.h"
#include "core/words/pieces.h"

namespace core::publish {
namespace {

std::string countsLine(const findings::Findings& findings) {
    std::size_t kept = 0;
    std::set<project::ImplementId> implements;
    std::set<project::HitterId> hitters;
    for (const auto& cell : findings.cells) {
        if (cell.row.counts.kept > 0) {
            kept += cell.row.counts.kept;
            implements.insert(cell.row.implement);
            hitters.insert(cell.row.hitter);
        }
    }
    return counted(implements.size(), "implement", "implements") + ", " +
           counted(hitters.size(), "hitter", "hitters") + ", " +
           counted(kept, "shot that counts", "shots that count");
}

/// "Filmed: first day, 2026-05-16", "Frames counted: Tallies"
std::string daysLine(const project::Snapshot& snapshot, bool areCounted) {
    std::string days;
    for (const auto& day : snapshot.sessions) {
        const bool hasClips =
            std::any_of(snapshot.clips.begin(), snapshot.clips.end(),
                        [&day](const project::Clip& clip) { return clip.session == day.id; });
        if (hasClips && isCounted(snapshot, day.id) == areCounted) {
            const bool isDated = day.date.empty() || day.name.find(day.date) != std::string::npos;
            days += (days.empty() ? "" : "; ") + day.name + (isDated ? "" : ", " + day.date);
        }
    }
    return days.empty() ? days
           : areCounted ? said("Frames counted: {}", days)
                        : said("Filmed: {}", days);
}

std::string creditsLine(const Credits& credits) {
    std::string line;
    const auto add = [&line](const std::string& value, const std::string& sentence) {
        if (!value.empty()) {
            line += (line.empty() ? "" : " ") + sentence + (value.back() == '.' ? "" : ".");
        }
    };
    add(credits.author, said("By {}", credits.author));
    add(credits.licence, said("Licence: {}", credits.licence));
    add(credits.citeAs, said("Cite as: {}", credits.citeAs));
    return line;
}

std::vector<std::string> subtitlesOf(const ContentInput& input) {
    std::vector<std::string> lines{
        countsLine(input.findings), daysLine(*input.material.snapshot, false),
        daysLine(*input.material.snapshot, true), creditsLine(input.material.origin.credits)};
    std::erase_if(lines, [](const std::string& line) { return line.empty(); });
    return lines;
}

bool saysNothing(const Block& block) {
    if (const auto* paragraph = std::get_if<Paragraph>(&block)) {
        return paragraph->text.empty();
    }
    const auto* list = std::get_if<BulletList>(&block);
    return list != nullptr && list->items.empty();
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
        sentences.push_back((shots.size() > kMostNamed
                                 ? counted(shots.size(), "implement", "implements")
                                 : words::joined(shots)) +
                            ": " + why);
    }
    return sentences;
}

bool isCounted(const project::Snapshot& snapshot, project::SessionId day) {
    bool isAny = false;
    for (const auto& clip : snapshot.clips) {
        if (clip.session == day) {
            if (!project::isTally(clip)) {
                return false;
            }
            isAny = true;
        }
    }
    return isAny;
}

Sources sourcesOf(const project::Snapshot& snapshot) {
    Sources sources;
    for (const auto& shot : snapshot.shots) {
        const auto* clip = snapshot.clips.find(shot.clip);
        if (clip != nullptr && shot.standing == project::ShotStanding::Kept) {
            (project::isTally(*clip) ? sources.hasCounts : sources.hasFilms) = true;
        }
    }
    return sources;
}

Document documentOf(const ContentInput& input) {
    Document document;
    document.title = said("Spin rates: {}", input.material.origin.title);
    document.subtitles = subtitlesOf(input);
    document.origin = input.material.origin;
    document.sections = {
        firstSection(input),
        cautionsSection(),
        ranksSection(input),
        cellsSection(input),
        pairsSection(input),
        moreSection(input),
        stripsSection(input),
        methodSection(input),
        daysSection(input),
        asideSection(input),
        Section{"files", said("Files beside this page"), {LinkList{input.files}}, true}};
    for (auto& section : document.sections) {
        std::erase_if(section.blocks, saysNothing);
    }
    std::erase_if(document.sections, [](const Section& section) { return section.blocks.empty(); });
    return document;
}

}  // namespace core::publish
