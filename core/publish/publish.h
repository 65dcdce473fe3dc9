#pragma once

#include <chrono>
#include <filesystem>
#include <functional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/publish/material.h"
#include "core/publish/open_doubts.h"
#include "core/publish/output_folder.h"

/// A project made public: tables, figures, a page, a PDF, a workbook and films.
namespace core::publish {

struct PublishOptions {
    bool blindHitters{false};          ///< H1, H2, … instead of names, in every file (blind.h)
    Films films{Films::None};          ///< gather() must have been asked for them as well
    Existing foreign{Existing::Keep};  ///< files that this program did not write
    DoubtFinder findDoubts{};          ///< none: open doubts are said to be unknown
    /// "2026-05-16": stands in one line of the page and nowhere else.
    std::string publishedOn;
};

/// Share done, 0 to 1, and what is being done. Called on the thread that publishes.
using PublishProgress = std::function<void(double share, const std::string& doing)>;

struct Published {
    Written written;
    /// What a person should know: a film that could not be made and why, a strip that is missing.
    std::vector<std::string> remarks;
    std::uint64_t fingerprint{};  ///< of the findings that were published
};

/// Writes into a folder: index.html, findings.pdf, findings.xlsx, findings.json, the tables of
/// tables.h as CSV, history.csv (not with blind hitters: its sentences may have earlier names),
/// datapackage.json, recompute.R and recompute.py, figures/*.svg and *.png, films/*.mp4 on request,
/// and contents.json. All of them or none; see OutputFolder for what
/// happens to files that are there already. The same material gives the same bytes but for the
/// dated line of the page. A clip that is gone is said in the place of its pictures.
/// May be called on any thread. Errors: those of findings::findFindings() and OutputFolder;
/// Cancelled.
Result<Published> publish(const Material& material, const std::filesystem::path& folder,
                          const PublishOptions& options, const std::stop_token& stop = {},
                          const PublishProgress& progress = {});

/// Today in the time zone of the machine, "2026-05-16".
[[nodiscard]] std::string today();

}  // namespace core::publish
