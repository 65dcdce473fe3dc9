#include "core/publish/publish.h"

#include <fmt/format.h>

#include <ctime>
#include <optional>
#include <utility>

#include "core/base/words.h"
#include "core/findings/findings.h"
#include "core/project/clip_location.h"
#include "core/project/clock_refutation.h"
#include "core/publish/blind.h"
#include "core/publish/drawing/painter.h"
#include "core/publish/drawing/svg.h"
#include "core/publish/figures/figures.h"
#include "core/publish/figures/frame_strip.h"
#include "core/publish/file_name.h"
#include "core/publish/film/shot_film.h"
#include "core/publish/page/content.h"
#include "core/publish/page/page.h"
#include "core/publish/page/pdf.h"
#include "core/publish/recompute/scripts.h"
#include "core/publish/tables/data_package.h"
#include "core/publish/tables/findings_json.h"
#include "core/publish/tables/tables.h"
#include "core/publish/tables/workbook.h"
#include "core/report/history_table.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

/// One publication in the making.
class Publisher {
public:
    Publisher(Material words, const Material& footage, OutputFolder folder,
              const PublishOptions& options, std::stop_token stop, const PublishProgress& progress)
        : m_material{std::move(words)},
          m_footageMaterial{footage},
          m_folder{std::move(folder)},
          m_options{options},
          m_stop{std::move(stop)},
          m_progress{progress},
          m_footage{footage.projectFile, m_stop} {}

    Result<Published> run() {
        BOOST_OUTCOME_TRY(step(0.0, said("working out the findings")));
        BOOST_OUTCOME_TRY(findings, findings::findFindings(*m_material.snapshot, {}, m_stop));
        if (m_options.findDoubts) {
            BOOST_OUTCOME_TRY(doubts, m_options.findDoubts(findings));
            m_doubts = std::move(doubts);
        }
        m_published.fingerprint = findings.fingerprint;
        BOOST_OUTCOME_TRY(step(0.1, said("writing tables")));
        BOOST_OUTCOME_TRY(writeTables(findings));
        BOOST_OUTCOME_TRY(step(0.2, said("drawing figures")));
        BOOST_OUTCOME_TRY(writeFigures(findings));
        BOOST_OUTCOME_TRY(cutStrips(findings));
        if (m_options.films == Films::OneAShot) {
            BOOST_OUTCOME_TRY(writeFilms());
        }
        BOOST_OUTCOME_TRY(step(0.9, said("writing the page and the PDF")));
        BOOST_OUTCOME_TRY(writeDocuments(findings));
        BOOST_OUTCOME_TRY(step(0.98, said("moving the files to their places")));
        BOOST_OUTCOME_TRY(written, m_folder.commit(m_material.origin.line()));
        m_published.written = std::move(written);
        return std::move(m_published);
    }

private:
    Result<void> step(double share, const std::string& doing) {
        if (m_stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, said("Publishing was stopped; nothing was written."));
        }
        if (m_progress) {
            m_progress(share, doing);
        }
        return ok();
    }

    void link(const std::string& file, const std::string& words) {
        m_files.push_back({file, words});
    }

    Result<void> writeTables(const findings::Findings& findings) {
        auto tables = tablesOf({*m_material.snapshot, findings, m_material.origin, m_doubts});
        if (m_options.blindHitters) {
            m_published.remarks.push_back(
                said("The history is not among the tables: its sentences may name hitters as they "
                     "were called earlier."));
        } else {
            tables.push_back(report::historyTable(m_material.history, *m_material.snapshot));
        }
        std::vector<TableFile> files;
        for (const auto& table : tables) {
            files.push_back({&table, table.name + ".csv", csvOf(table)});
            BOOST_OUTCOME_TRY(m_folder.put(files.back().name, files.back().content));
            link(files.back().name, table.description);
        }
        BOOST_OUTCOME_TRY(
            m_folder.put("datapackage.json", dataPackageJson(files, m_material.origin)));
        link("datapackage.json", said("What every column of these tables means, for programs."));
        BOOST_OUTCOME_TRY(m_folder.put("recompute.R", kRecomputeR));
        link("recompute.R", said("Computes every number anew from these tables, in R alone."));
        BOOST_OUTCOME_TRY(m_folder.put("recompute.py", kRecomputePython));
        link("recompute.py", said("The same in Python, with its standard library alone."));
        BOOST_OUTCOME_TRY(m_folder.put("findings.json", findingsJson(findings, m_material.origin)));
        link("findings.json", said("Everything that is said on this page, for programs."));
        BOOST_OUTCOME_TRY(workbook, m_folder.place("findings.xlsx"));
        BOOST_OUTCOME_TRY(writeWorkbook(workbook, tables, m_material.origin));
        link("findings.xlsx", said("The same tables as a workbook."));
        return ok();
    }

    Result<void> writeFigures(const findings::Findings& findings) {
        for (auto& figure : figuresOf(findings, {m_material.origin.line()})) {
            BOOST_OUTCOME_TRY(step(0.2, said("drawing figures")));
            BOOST_OUTCOME_TRY(png, pngOf(figure));
            const std::string name = "figures/" + figure.name;
            BOOST_OUTCOME_TRY(m_folder.put(name + ".svg", svgText(figure, SvgUse::File)));
            BOOST_OUTCOME_TRY(m_folder.put(name + ".png", png));
            link(name + ".svg", figure.title + ".");
            link(name + ".png", said("The same at 300 dots per inch."));
            m_figures.push_back(std::make_shared<const Figure>(std::move(figure)));
        }
        return ok();
    }

    Result<void> cutStrips(const findings::Findings& findings) {
        double done = 0.0;
        for (const auto& implement : findings.implements) {
            const double share = done / static_cast<double>(findings.implements.size());
            done += 1.0;
            BOOST_OUTCOME_TRY(step(0.3 + 0.1 * share, said("cutting out frames")));
            const auto* shot = medianShot(*m_material.snapshot, implement.row.implement);
            const auto* clip =
                shot != nullptr ? m_material.snapshot->clips.find(shot->clip) : nullptr;
            if (clip == nullptr || project::isTally(*clip)) {
                continue;
            }
            ImplementStrip strip{
                implement.row.implement,
                implement.name + ", " + project::shotName(*m_material.snapshot, *shot),
                {},
                nullptr};
            auto cut =
                frameStrip(m_footageMaterial, *m_footageMaterial.snapshot->shots.find(shot->id),
                           m_footage, m_stop);
            if (cut) {
                strip.words = cut.value().words;
                strip.picture = std::make_shared<const PixelBuffer>(std::move(cut.value().picture));
            } else if (cut.error().code == ErrorCode::Cancelled) {
                return cut.error();
            } else {
                strip.words = said("No pictures: {}", withoutNames(cut.error().message));
            }
            m_strips.push_back(std::move(strip));
        }
        for (auto& sentence : missingPictures(m_strips)) {
            m_published.remarks.push_back(std::move(sentence));
        }
        return ok();
    }

    /// Reasons name files; with blind hitters their names must not come back by them.
    [[nodiscard]] std::string withoutNames(const std::string& text) const {
        return m_options.blindHitters ? hitterBlinder(*m_footageMaterial.snapshot).in(text) : text;
    }

    Result<void> writeFilms() {
        std::vector<const project::Shot*> kept;
        for (const auto* shot : project::shotsInOrder(*m_material.snapshot)) {
            if (project::isCounted(*m_material.snapshot, *shot)) {
                kept.push_back(shot);
            }
        }
        FileNames names;
        std::size_t films = 0;
        for (const auto* shot : kept) {
            const double share = static_cast<double>(films++) / static_cast<double>(kept.size());
            BOOST_OUTCOME_TRY(step(0.4 + 0.5 * share, said("film {} of {}", films, kept.size())));
            BOOST_OUTCOME_TRY(writeFilm(*shot, names));
        }
        if (!kept.empty()) {
            link("films/", said("A slow film of every shot that counts, with the turns counted."));
        }
        return ok();
    }

    Result<void> writeFilm(const project::Shot& shot, FileNames& names) {
        const auto& snapshot = *m_material.snapshot;
        const auto* reading = snapshot.readings.find(*shot.counting);
        if (reading == nullptr) {
            return ok();
        }
        const std::string cell =
            shot.cell ? project::cellName(snapshot, *shot.cell) : said("no cell");
        // A file has the same name in every language.
        const std::string name = names.nameFor(
            fmt::format("{} shot {} of clip {}", shot.cell ? cell : std::string{"no cell"},
                        shot.ordinal, project::clipName(snapshot, shot.clip)));
        const FilmWords words{
            cell + " · " + project::shotName(snapshot, shot),
            said("{} rpm (standard uncertainty)",
                 report::plusMinus(reading->rate.value.rpm, reading->rate.sigma.rpm)),
            m_material.origin.line()};
        const auto part = m_folder.scratch(name + ".mp4");
        const auto made =
            writeShotFilm(part, m_footageMaterial, *m_footageMaterial.snapshot->shots.find(shot.id),
                          words, m_footage, m_stop);
        if (made) {
            return m_folder.take("films/" + name + ".mp4", part);
        }
        const bool goesOn = made.error().code != ErrorCode::Cancelled &&
                            made.error().code != ErrorCode::WriteFailed;
        if (!goesOn) {
            return made.error();
        }
        m_published.remarks.push_back(said("No film of {}: {}", project::shotName(snapshot, shot),
                                           withoutNames(made.error().message)));
        return ok();
    }

    Result<void> writeDocuments(const findings::Findings& findings) {
        link("findings.pdf", said("This page for printing."));
        const Document document =
            documentOf({m_material, findings, m_figures, m_strips, m_doubts, m_files});
        BOOST_OUTCOME_TRY(page, htmlPage(document, m_options.publishedOn));
        BOOST_OUTCOME_TRY(m_folder.put("index.html", page));
        BOOST_OUTCOME_TRY(pdf, pdfOf(document));
        return m_folder.put("findings.pdf", pdf);
    }

    Material m_material;                ///< what is said: blind, where that was asked for
    const Material& m_footageMaterial;  ///< where files are found
    OutputFolder m_folder;
    const PublishOptions& m_options;
    std::stop_token m_stop;
    const PublishProgress& m_progress;
    ClipFootage m_footage;
    std::vector<std::shared_ptr<const Figure>> m_figures;
    std::vector<ImplementStrip> m_strips;
    std::optional<OpenDoubts> m_doubts;
    std::vector<LinkList::Link> m_files;
    Published m_published;
};

}  // namespace

Result<Published> publish(const Material& material, const std::filesystem::path& folder,
                          const PublishOptions& options, const std::stop_token& stop,
                          const PublishProgress& progress) {
    BOOST_OUTCOME_TRY(
        output,
        OutputFolder::open(folder, {options.foreign, project::filesInUse(material.projectFile,
                                                                         *material.snapshot)}));
    Material words = options.blindHitters ? blinded(material) : material;
    return Publisher{std::move(words), material, std::move(output), options, stop, progress}.run();
}

std::string today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return fmt::format("{:04}-{:02}-{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

}  // namespace core::publish
