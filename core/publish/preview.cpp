#include "core/publish/preview.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "core/project/clock_refutation.h"
#include "core/publish/blind.h"
#include "core/publish/drawing/painter.h"
#include "core/publish/figures/figures.h"
#include "core/publish/figures/frame_strip.h"
#include "core/publish/page/content.h"
#include "core/publish/tables/tables.h"

namespace core::publish {
namespace {

constexpr double kScreenDotsPerInch = 144.0;

Result<findings::Findings> findingsFor(const Material& words, const PublishOptions& options,
                                       const findings::Findings* known,
                                       const std::stop_token& stop) {
    const bool isKnown =
        known != nullptr && !options.blindHitters && known->revision == words.snapshot->revision;
    return isKnown ? Result<findings::Findings>{*known}
                   : findings::findFindings(*words.snapshot, {}, stop);
}

std::vector<std::string> filesOf(const TableInput& input, const std::vector<Figure>& figures,
                                 bool isBlind) {
    std::vector<std::string> files{"index.html",       "findings.pdf", "findings.xlsx",
                                   "findings.json",    "recompute.R",  "recompute.py",
                                   "datapackage.json", "contents.json"};
    for (const auto& table : tablesOf(input)) {
        files.push_back(table.name + ".csv");
    }
    if (!isBlind) {
        files.emplace_back("history.csv");
    }
    for (const auto& figure : figures) {
        files.push_back("figures/" + figure.name + ".svg");
        files.push_back("figures/" + figure.name + ".png");
    }
    std::sort(files.begin(), files.end());
    return files;
}

/// The lists among the blocks of a section.
std::vector<std::string> linesOf(const Section& section) {
    std::vector<std::string> lines;
    for (const auto& block : section.blocks) {
        if (const auto* list = std::get_if<BulletList>(&block)) {
            lines.insert(lines.end(), list->items.begin(), list->items.end());
        }
    }
    return lines;
}

/// Of the first implement whose film is there: one is enough to show what the page will have of
/// all.
void addStrip(const Material& material, const findings::Findings& findings, Preview& preview,
              const std::stop_token& stop) {
    ClipFootage footage{material.projectFile, stop};
    for (const auto& implement : findings.implements) {
        const auto* shot = medianShot(*material.snapshot, implement.row.implement);
        const auto* clip = shot != nullptr ? material.snapshot->clips.find(shot->clip) : nullptr;
        if (clip == nullptr || project::isTally(*clip)) {
            continue;
        }
        auto cut = frameStrip(material, *shot, footage, stop);
        if (cut) {
            preview.strip = std::make_shared<const PixelBuffer>(std::move(cut.value().picture));
            preview.stripWords = std::move(cut.value().words);
            return;
        }
        if (stop.stop_requested()) {
            return;
        }
    }
}

}  // namespace

Result<Preview> previewOf(const Material& material, const PublishOptions& options,
                          const findings::Findings* known, const std::stop_token& stop) {
    const Material words = options.blindHitters ? blinded(material) : material;
    BOOST_OUTCOME_TRY(findings, findingsFor(words, options, known, stop));
    std::optional<OpenDoubts> doubts;
    if (options.findDoubts) {
        BOOST_OUTCOME_TRY(open, options.findDoubts(findings));
        doubts = std::move(open);
    }
    const auto figures = figuresOf(findings, {words.origin.line()});
    const Document document = documentOf({words, findings, {}, {}, doubts, {}});
    Preview preview;
    preview.title = document.title;
    preview.subtitles = document.subtitles;
    if (!document.sections.empty()) {
        preview.sentences = linesOf(document.sections.front());
    }
    preview.files =
        filesOf({*words.snapshot, findings, words.origin, doubts}, figures, options.blindHitters);
    if (!figures.empty() && figures.front().name == "ranked") {
        BOOST_OUTCOME_TRY(chart, pngOf(figures.front(), kScreenDotsPerInch));
        preview.chart = std::move(chart);
    }
    addStrip(material, findings, preview, stop);
    if (options.films == Films::OneAShot) {
        preview.films = static_cast<std::size_t>(std::count_if(
            words.snapshot->shots.begin(), words.snapshot->shots.end(),
            [&](const auto& shot) { return project::isCounted(*words.snapshot, shot); }));
    }
    if (stop.stop_requested()) {
        return fail(ErrorCode::Cancelled, "Cancelled.");
    }
    return preview;
}

}  // namespace core::publish
