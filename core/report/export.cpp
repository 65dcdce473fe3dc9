#include "core/report/export.h"

#include <array>
#include <fstream>
#include <nlohmann/json.hpp>
#include <system_error>

#include "core/report/csv.h"
#include "core/report/number_format.h"

namespace core::report {
namespace {

using Json = nlohmann::ordered_json;
using project::Snapshot;

constexpr std::string_view kProgram = "Turnmark " TURNMARK_VERSION;

std::string_view standingName(project::ShotStanding standing) {
    switch (standing) {
        case project::ShotStanding::Open:
            return "open";
        case project::ShotStanding::Kept:
            return "kept";
        case project::ShotStanding::SetAside:
            return "set aside";
    }
    return "";
}

std::string_view methodName(project::ReadingMethod method) {
    return method == project::ReadingMethod::Marks ? "marks" : "rotation fit";
}

/// Everything that a row about a shot says, looked up once.
struct ShotRow {
    const project::Shot* shot{};
    const project::Reading* reading{};
    std::string session;
    std::string implement;
    std::string condition;
    std::string hitter;
    std::string clip;
};

std::vector<ShotRow> shotRows(const Snapshot& snapshot) {
    std::vector<ShotRow> rows;
    for (const auto* shot : project::shotsInOrder(snapshot)) {
        ShotRow row;
        row.shot = shot;
        if (const auto* clip = snapshot.clips.find(shot->clip)) {
            row.clip = clip->path;
            if (const auto* session = snapshot.sessions.find(clip->session)) {
                row.session = session->name;
            }
        }
        if (const auto* cell = shot->cell ? snapshot.cells.find(*shot->cell) : nullptr) {
            if (const auto* implement = snapshot.implements.find(cell->implement)) {
                row.implement = implement->name;
                row.condition = implement->condition;
            }
            if (const auto* hitter = snapshot.hitters.find(cell->hitter)) {
                row.hitter = hitter->name;
            }
        }
        row.reading = shot->counting ? snapshot.readings.find(*shot->counting) : nullptr;
        rows.push_back(std::move(row));
    }
    return rows;
}

const std::vector<std::string> kShotColumns{"session",
                                            "implement",
                                            "condition",
                                            "hitter",
                                            "clip",
                                            "shot",
                                            "first_frame",
                                            "last_frame",
                                            "strike_frame",
                                            "standing",
                                            "reason",
                                            "doubtful",
                                            "method",
                                            "reader",
                                            "made_at",
                                            "rate_rpm",
                                            "standard_uncertainty_rpm",
                                            "interval_low_rpm",
                                            "interval_high_rpm",
                                            "clock_relative_uncertainty"};

const std::vector<std::string> kSummaryColumns{"session",
                                               "implement",
                                               "condition",
                                               "hitter",
                                               "kept",
                                               "open",
                                               "set_aside",
                                               "mean_rpm",
                                               "median_rpm",
                                               "standard_deviation_rpm",
                                               "standard_uncertainty_rpm",
                                               "interval_low_rpm",
                                               "interval_high_rpm"};

Json orNull(const std::optional<double>& value) {
    return value ? Json(*value) : Json();
}

Json meanJson(const std::optional<GroupMean>& mean) {
    if (!mean) {
        return Json();
    }
    return {{"mean_rpm", mean->meanRpm},
            {"median_rpm", mean->medianRpm},
            {"standard_deviation_rpm", orNull(mean->standardDeviationRpm)},
            {"standard_uncertainty_rpm", orNull(mean->standardUncertaintyRpm)},
            {"interval_rpm",
             mean->interval95 ? Json::array({mean->interval95->low.rpm, mean->interval95->high.rpm})
                              : Json()}};
}

Json countsJson(const ShotCounts& counts) {
    return {{"kept", counts.kept}, {"open", counts.open}, {"set_aside", counts.setAside}};
}

void csvMean(CsvWriter& csv, const ShotCounts& counts, const std::optional<GroupMean>& mean) {
    csv.whole(static_cast<std::int64_t>(counts.kept));
    csv.whole(static_cast<std::int64_t>(counts.open));
    csv.whole(static_cast<std::int64_t>(counts.setAside));
    const GroupMean none;
    const GroupMean& m = mean ? *mean : none;
    auto maybe = [&csv](const std::optional<double>& value) {
        value ? csv.number(*value) : csv.empty();
    };
    maybe(mean ? std::optional{m.meanRpm} : std::nullopt);
    maybe(mean ? std::optional{m.medianRpm} : std::nullopt);
    maybe(m.standardDeviationRpm);
    maybe(m.standardUncertaintyRpm);
    maybe(m.interval95 ? std::optional{m.interval95->low.rpm} : std::nullopt);
    maybe(m.interval95 ? std::optional{m.interval95->high.rpm} : std::nullopt);
    csv.endRow();
}

std::string dump(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

/// Whether a file that is in the way was written by an earlier export.
bool isOurs(const std::filesystem::path& file, const std::string& opening) {
    std::ifstream stream{file, std::ios::binary};
    std::string begin(opening.size(), '\0');
    stream.read(begin.data(), static_cast<std::streamsize>(begin.size()));
    return stream.gcount() == static_cast<std::streamsize>(begin.size()) && begin == opening;
}

Result<void> writeFile(const std::filesystem::path& file, const std::string& content) {
    const auto part = file.parent_path() / (file.filename().string() + ".part");
    {
        std::ofstream stream{part, std::ios::binary | std::ios::trunc};
        stream << content;
        stream.close();
        if (!stream) {
            return fail(ErrorCode::WriteFailed, "Cannot write " + part.string() +
                                                    ". Is the disk full, or the folder protected?");
        }
    }
    std::error_code problem;
    std::filesystem::rename(part, file, problem);
    if (problem) {
        return fail(ErrorCode::WriteFailed,
                    "Cannot write " + file.string() + ": " + problem.message() + ".");
    }
    return ok();
}

struct Output {
    const char* name;
    std::string content;
    std::string opening;  ///< how every earlier version of this file begins
};

}  // namespace

std::string shotsCsv(const Snapshot& snapshot) {
    CsvWriter csv{kShotColumns};
    for (const auto& row : shotRows(snapshot)) {
        const auto& shot = *row.shot;
        csv.text(row.session)
            .text(row.implement)
            .text(row.condition)
            .text(row.hitter)
            .text(row.clip);
        csv.whole(shot.ordinal).whole(shot.firstFrame.value).whole(shot.lastFrame.value);
        shot.strikeFrame ? csv.whole(shot.strikeFrame->value) : csv.empty();
        csv.text(standingName(shot.standing))
            .text(shot.reason)
            .text(shot.doubtful ? "true" : "false");
        if (const auto* reading = row.reading) {
            csv.text(methodName(reading->method)).text(reading->reader).text(reading->madeAt);
            csv.number(reading->rate.value.rpm).number(reading->rate.sigma.rpm);
            csv.number(reading->interval95.low.rpm).number(reading->interval95.high.rpm);
            csv.number(reading->clockRelativeSigma);
        } else {
            for (int i = 0; i < 8; ++i) {
                csv.empty();
            }
        }
        csv.endRow();
    }
    return csv.content();
}

std::string shotsJson(const Snapshot& snapshot) {
    Json shots = Json::array();
    for (const auto& row : shotRows(snapshot)) {
        const auto& shot = *row.shot;
        Json reading;
        if (row.reading != nullptr) {
            reading = {{"method", methodName(row.reading->method)},
                       {"method_version", row.reading->methodVersion},
                       {"reader", row.reading->reader},
                       {"made_at", row.reading->madeAt},
                       {"rate_rpm", row.reading->rate.value.rpm},
                       {"standard_uncertainty_rpm", row.reading->rate.sigma.rpm},
                       {"interval_rpm", Json::array({row.reading->interval95.low.rpm,
                                                     row.reading->interval95.high.rpm})},
                       {"clock_relative_uncertainty", row.reading->clockRelativeSigma},
                       {"inputs", Json::parse(row.reading->inputsJson, nullptr, false)}};
        }
        shots.push_back(
            {{"session", row.session},
             {"implement", row.implement},
             {"condition", row.condition},
             {"hitter", row.hitter},
             {"clip", row.clip},
             {"shot", shot.ordinal},
             {"first_frame", shot.firstFrame.value},
             {"last_frame", shot.lastFrame.value},
             {"strike_frame", shot.strikeFrame ? Json(shot.strikeFrame->value) : Json()},
             {"standing", standingName(shot.standing)},
             {"reason", shot.reason},
             {"doubtful", shot.doubtful},
             {"reading", reading}});
    }
    return dump({{"program", kProgram}, {"shots", shots}});
}

std::string summaryCsv(const Summary& summary) {
    CsvWriter csv{kSummaryColumns};
    for (const auto& row : summary.cells) {
        csv.text(row.sessionName).text(row.implementName).text(row.condition).text(row.hitterName);
        csvMean(csv, row.counts, row.mean);
    }
    for (const auto& row : summary.implements) {
        csv.empty().text(row.implementName).text(row.condition).empty();
        csvMean(csv, row.counts, row.mean);
    }
    return csv.content();
}

std::string summaryJson(const Summary& summary) {
    Json implements = Json::array();
    for (const auto& row : summary.implements) {
        implements.push_back({{"implement", row.implementName},
                              {"condition", row.condition},
                              {"counts", countsJson(row.counts)},
                              {"spin", meanJson(row.mean)}});
    }
    Json cells = Json::array();
    for (const auto& row : summary.cells) {
        cells.push_back({{"session", row.sessionName},
                         {"implement", row.implementName},
                         {"condition", row.condition},
                         {"hitter", row.hitterName},
                         {"counts", countsJson(row.counts)},
                         {"spin", meanJson(row.mean)}});
    }
    return dump({{"program", kProgram},
                 {"implements", implements},
                 {"cells", cells},
                 {"unassigned", countsJson(summary.unassigned)}});
}

Result<std::vector<std::filesystem::path>> exportProject(const Snapshot& snapshot,
                                                         const std::filesystem::path& folder) {
    BOOST_OUTCOME_TRY(summary, summarise(snapshot));
    const std::string jsonOpening = "{\n  \"program\": \"Turnmark ";
    const std::array outputs{
        Output{"shots.csv", shotsCsv(snapshot), CsvWriter{kShotColumns}.content()},
        Output{"shots.json", shotsJson(snapshot), jsonOpening},
        Output{"summary.csv", summaryCsv(summary), CsvWriter{kSummaryColumns}.content()},
        Output{"summary.json", summaryJson(summary), jsonOpening}};
    std::error_code problem;
    std::filesystem::create_directories(folder, problem);
    if (problem) {
        return fail(ErrorCode::WriteFailed,
                    "Cannot make the folder " + folder.string() + ": " + problem.message() + ".");
    }
    for (const auto& output : outputs) {
        const auto file = folder / output.name;
        if (std::filesystem::exists(file, problem) && !isOurs(file, output.opening)) {
            return fail(ErrorCode::InvalidInput,
                        file.string() +
                            " was not written by this program and is left alone. Choose "
                            "another folder, or move that file away.");
        }
    }
    std::vector<std::filesystem::path> written;
    for (const auto& output : outputs) {
        BOOST_OUTCOME_TRY(writeFile(folder / output.name, output.content));
        written.push_back(folder / output.name);
    }
    return written;
}

}  // namespace core::report
